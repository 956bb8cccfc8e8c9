// SPDX-License-Identifier: MIT
#include "sim/study/parameter.hpp"

#include <fmt/format.h>

#include <limits>
#include <stdexcept>

namespace hatring::study {

Design make_design(DesignKind kind, const std::vector<Parameter>& parameters, std::uint64_t runs, std::uint64_t seed) {
  if (kind == DesignKind::latin) return Design::latin(parameters.size(), runs, seed);
  if (kind == DesignKind::sobol) return Design::sobol(parameters.size(), runs, seed);
  std::vector<std::size_t> levels;
  levels.reserve(parameters.size());
  for (const Parameter& p : parameters) {
    if (p.spread)
      throw std::invalid_argument(
          fmt::format("a factorial design needs levels, and `{}` is spread: give it values or a range", p.name));
    levels.push_back(p.labels.size());
  }
  return Design::factorial(std::move(levels));
}

Setting setting(const Parameter& parameter, double u) {
  if (parameter.spread) return {0, quantile(*parameter.spread, u)};
  const std::size_t choice = pick(u, parameter.labels.size());
  return {choice, parameter.values.empty() ? std::numeric_limits<double>::quiet_NaN() : parameter.values[choice]};
}

std::vector<Setting> settings(const Design& design, const std::vector<Parameter>& parameters, std::uint64_t run) {
  std::vector<double> u(design.dimension());
  design.point(run, u);
  std::vector<Setting> out;
  out.reserve(u.size());
  for (std::size_t i = 0; i < u.size(); ++i) out.push_back(setting(parameters[i], u[i]));
  return out;
}

}  // namespace hatring::study
