// SPDX-License-Identifier: MIT
//! \file
//! What is changed from run to run. Checked by tests/sim/study/test_parameter.cpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/study/design.hpp"
#include "sim/study/spread.hpp"

namespace hatring::study {

//! A few choices, which may be numbers, or a number that is spread.
struct Parameter {
  std::string name;                   //!< config keys, as the user gave them
  std::string unit{};                 //!< SI unit of values and spread; empty where choices are no numbers
  std::vector<std::string> labels{};  //!< of the choices, for people; empty for a spread
  std::vector<double> values{};       //!< of the choices when they are numbers, in `unit`
  std::optional<Spread> spread{};     //!< in `unit`
};

//! What a parameter is in one run.
struct Setting {
  std::size_t choice = 0;  //!< index; 0 for a spread
  double number = 0;       //!< NaN for a choice that is no number
};

enum class DesignKind { factorial, latin, sobol };

//! \param runs, seed  of no meaning to a factorial design
//! \throws std::invalid_argument for a spread in a factorial design, and what the makers of Design throw
[[nodiscard]] Design make_design(DesignKind kind, const std::vector<Parameter>& parameters, std::uint64_t runs,
                                 std::uint64_t seed);

//! \param u share in (0, 1)
[[nodiscard]] Setting setting(const Parameter& parameter, double u);
//! The settings of one run, by parameter. Any order, any thread.
[[nodiscard]] std::vector<Setting> settings(const Design& design, const std::vector<Parameter>& parameters,
                                            std::uint64_t run);

}  // namespace hatring::study
