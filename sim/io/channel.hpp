// SPDX-License-Identifier: MIT
//! \file
//! Columns of numbers with a unit, and tables over temperature.
#pragma once

#include <optional>
#include <vector>

#include "sim/io/reader.hpp"

namespace hatring::io {

//! A column in SI, with the node that each value stands in.
struct Channel {
  std::vector<double> values;
  const Node* list = nullptr;
  std::string key = {};  //!< below the channel's own key: "values", or empty when the list stands there itself
};

//! {unit: km/h, values: [...]}; a bare list only where the kind is a plain number. Finite numbers, one at least.
//! \param any_unit the values stay as they are, whatever the unit
[[nodiscard]] std::optional<Channel> read_channel(Reader& reader, const Node& node, Quantity kind,
                                                  bool any_unit = false);

//! A list whose entries each carry a unit: [20 degC, 100 degC].
[[nodiscard]] std::optional<Channel> read_list_of_quantities(Reader& reader, const Node& node, Quantity kind);

//! The first value that is not above the one before is reported. \returns true when all rise
bool check_rising(Reader& reader, const Channel& channel, const std::string& complaint);

struct Table {
  std::vector<double> temperature;  //!< rising [K]
  std::vector<double> values;       //!< SI
};

//! {temperature: CHANNEL or list of temperatures, unit: W/m/K, values: [...]}, or values that carry their units.
//! A single value makes a table of one row (its temperature is 20 degC).
[[nodiscard]] std::optional<Table> read_table(Reader& reader, const Node& node, Quantity kind, const Range& range);

}  // namespace hatring::io
