// SPDX-License-Identifier: MIT
#include "sim/answer/paired.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace hatring::answer {
namespace {

std::size_t coordinate(const char* key) {
  const auto keys = input_keys();
  const auto found =
      std::find_if(keys.begin(), keys.end(), [key](const char* k) { return std::string_view(k) == key; });
  return static_cast<std::size_t>(found - keys.begin());
}

int sign(double x) {
  return x > 0 ? 1 : x < 0 ? -1 : 0;
}

}  // namespace

Paired::Paired(const std::vector<session::Case>& setups, std::uint64_t runs, const std::set<std::string>& known)
    : setups_(setups), design_(study::Design::sobol(input_keys().size(), runs, 0)) {
  inputs_.reserve(setups.size());
  for (const session::Case& c : setups) inputs_.push_back(uncertain_inputs(c, known));
}

session::Case Paired::at(std::size_t setup, std::uint64_t run) const {
  std::vector<double> u(design_.dimension());
  design_.point(run, u);
  session::Case c = setups_[setup];
  for (const UncertainInput& input : inputs_[setup]) set_input(c, input, u[coordinate(input.key)]);
  return c;
}

std::vector<double> row_values(const Comparison& comparison, const session::Case& c, const Answers& answers) {
  std::vector<double> out;
  out.reserve(comparison.rows.size());
  for (const ComparisonRow& row : comparison.rows)
    out.push_back(row.measure->value(c, answers, row.axle == "rear" ? session::Axle::rear : session::Axle::front));
  return out;
}

void hold_against_first(Comparison& comparison, const std::vector<std::vector<std::vector<double>>>& values) {
  for (std::size_t r = 0; r < comparison.rows.size(); ++r)
    for (std::size_t i = 1; i < values.size(); ++i) {
      Cell& cell = comparison.rows[r].cells[i];
      const int likely = sign(cell.difference);
      if (likely == 0) continue;
      double same = 0, of = 0;
      for (std::size_t run = 0; run < values[i].size(); ++run) {
        if (values[0][run].empty() || values[i][run].empty()) continue;
        const double difference = values[i][run][r] - values[0][run][r];
        if (std::isnan(difference)) continue;
        ++of;
        if (sign(difference) == likely) ++same;
      }
      if (of > 0) cell.same_sign = same / of;
    }
}

}  // namespace hatring::answer
