// SPDX-License-Identifier: MIT
#include "sim/study/spread.hpp"

#include <fmt/format.h>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/triangular.hpp>
#include <boost/math/distributions/uniform.hpp>
#include <cmath>
#include <stdexcept>

#include "sim/study/demand.hpp"

namespace hatring::study {
namespace {

void check_ends(double low, double high) {
  demand(std::isfinite(low) && std::isfinite(high) && low < high, "expected a low end below the high end");
}

void check_one(const Uniform& s) {
  check_ends(s.low, s.high);
}
void check_one(const Normal& s) {
  demand(std::isfinite(s.mean) && std::isfinite(s.deviation) && s.deviation > 0,
         "expected a mean and a standard deviation above 0");
}
template <class WithLikely>
void check_one(const WithLikely& s) {
  check_ends(s.low, s.high);
  demand(s.low <= s.likely && s.likely <= s.high, "expected a likely value between the ends");
}

double at(const Uniform& s, double u) {
  return boost::math::quantile(boost::math::uniform(s.low, s.high), u);
}
double at(const Normal& s, double u) {
  return boost::math::quantile(boost::math::normal(s.mean, s.deviation), u);
}
double at(const Triangular& s, double u) {
  return boost::math::quantile(boost::math::triangular(s.low, s.likely, s.high), u);
}
double at(const Band& s, double u) {
  return u < 0.5 ? s.low + 2 * u * (s.likely - s.low) : s.likely + (2 * u - 1) * (s.high - s.likely);
}

}  // namespace

void check(const Spread& spread) {
  std::visit([](const auto& s) { check_one(s); }, spread);
}

double quantile(const Spread& spread, double u) {
  if (!(u > 0 && u < 1)) throw std::invalid_argument(fmt::format("found the share {:g}, expected one in (0, 1)", u));
  check(spread);
  return std::visit([u](const auto& s) { return at(s, u); }, spread);
}

}  // namespace hatring::study
