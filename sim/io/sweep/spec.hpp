// SPDX-License-Identifier: MIT
//! \file
//! How one parameter of a sweep is written: a list of values, a map of named values, or range(), uniform(), normal(),
//! triangular(), band() with the values in the unit of the key.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/io/tree.hpp"

namespace hatring::io {

//! As written: numbers are still text, for nobody knows yet what kind of quantity the key wants.
struct SweepSpec {
  enum class Form { choices, range, uniform, normal, triangular, band };
  Form form = Form::choices;
  std::vector<std::string> labels;  //!< of choices
  std::vector<NodePtr> values;      //!< choices, or what stands between the brackets
};

//! \returns nothing when it was reported
[[nodiscard]] std::optional<SweepSpec> read_sweep_spec(Report& report, const Node& node, const std::string& name);

//! Key paths out of "session.0.pace, session.1.pace".
[[nodiscard]] std::vector<std::string> split_list(std::string_view text);

}  // namespace hatring::io
