// SPDX-License-Identifier: MIT
#include "models/fatigue.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace hatring::models {
namespace {

constexpr double kEndless = std::numeric_limits<double>::infinity();
constexpr double kAtOnce = 0.5;  // cycles, one reversal

void check(const FatigueConstants& c, double amplitude) {
  if (!(c.strength_coefficient > 0 && c.strength_exponent < 0 && c.ductility_coefficient >= 0 &&
        c.ductility_exponent < 0))
    throw std::invalid_argument("fatigue: positive coefficients and negative exponents needed");
  if (!(amplitude >= 0)) throw std::invalid_argument("fatigue: an amplitude must not be negative");
}

// What Goodman's or Morrow's correction leaves of the strength coefficient; 0 or less when the mean alone breaks it.
double strength_left(const FatigueConstants& c, double ultimate, double mean) {
  const double pull = std::max(0.0, mean);
  if (c.mean_stress == MeanStress::goodman) return c.strength_coefficient * (1 - pull / ultimate);
  if (c.mean_stress == MeanStress::morrow) return c.strength_coefficient - pull;
  return c.strength_coefficient;
}

// elastic (2N)^b1 + plastic (2N)^b2 = load, for N; the left side falls strictly.
double solve_life(double elastic, double b1, double plastic, double b2, double load) {
  constexpr double kAccuracy = 1e-10;
  const auto excess = [&](double x) { return elastic * std::exp(b1 * x) + plastic * std::exp(b2 * x) - load; };
  double low = 0, high = std::log(2 * kLongestLife);  // of ln(2N)
  if (!(excess(low) > 0)) return kAtOnce;
  if (excess(high) >= 0) return kEndless;
  while (high - low > kAccuracy) {
    const double middle = (low + high) / 2;
    (excess(middle) > 0 ? low : high) = middle;
  }
  return std::exp((low + high) / 2) / 2;
}

}  // namespace

std::vector<double> turning_points(std::span<const double> series, double dead_band) {
  if (!(dead_band >= 0)) throw std::invalid_argument("turning points: the dead band must not be negative");
  std::vector<double> turns;
  if (series.empty()) return turns;
  turns.push_back(series.front());
  double highest = series.front(), lowest = series.front();  // since the last turn
  int direction = 0;                                         // of the branch under way
  const auto add = [&](double turn) {
    if (direction == 0 && std::abs(turn - turns.front()) <= dead_band)
      turns.front() = turn;  // no reversal yet, only a better start
    else
      turns.push_back(turn);
  };
  for (const double value : series) {
    highest = std::max(highest, value);
    lowest = std::min(lowest, value);
    if (direction >= 0 && highest - value > dead_band) {
      add(highest);
      direction = -1;
      lowest = value;
    } else if (direction <= 0 && value - lowest > dead_band) {
      add(lowest);
      direction = 1;
      highest = value;
    }
    if (direction > 0) lowest = value;
    if (direction < 0) highest = value;
  }
  if (direction > 0 && highest != turns.back()) turns.push_back(highest);
  if (direction < 0 && lowest != turns.back()) turns.push_back(lowest);
  return turns;
}

std::vector<LoadCycle> rainflow(std::span<const double> turns) {
  std::vector<LoadCycle> cycles;
  std::vector<double> open;
  const auto count = [&cycles](double from, double to, double share) {
    cycles.push_back({std::abs(to - from), (from + to) / 2, share});
  };
  for (const double turn : turns) {
    open.push_back(turn);
    while (open.size() >= 3) {
      const double *first = &open[open.size() - 3], *second = first + 1;
      if (std::abs(turn - *second) < std::abs(*second - *first)) break;
      if (open.size() == 3) {  // the earlier range begins at the start of the history
        count(*first, *second, 0.5);
        open.erase(open.begin());
      } else {
        count(*first, *second, 1);
        open.erase(open.end() - 3, open.end() - 1);
      }
    }
  }
  for (std::size_t i = 0; i + 1 < open.size(); ++i) count(open[i], open[i + 1], 0.5);
  return cycles;
}

FatigueConstants universal_slopes(double ultimate, double ductility) {
  if (!(ultimate > 0 && ductility > 0))
    throw std::invalid_argument("universal slopes: strength and ductility must be positive");
  constexpr double kElastic = 3.5, kElasticExponent = -0.12, kPlasticExponent = -0.6;
  FatigueConstants c;
  c.strength_coefficient = kElastic / 2 * std::pow(2, -kElasticExponent) * ultimate;
  c.strength_exponent = kElasticExponent;
  c.ductility_coefficient = std::pow(2 * ductility, -kPlasticExponent) / 2;
  c.ductility_exponent = kPlasticExponent;
  return c;
}

FatigueConstants scaled(FatigueConstants constants, double ratio) {
  constants.strength_coefficient *= ratio;
  return constants;
}

double stress_life(const FatigueConstants& constants, double ultimate, const StressCycle& cycle) {
  check(constants, cycle.stress_amplitude);
  double strength = strength_left(constants, ultimate, cycle.mean_stress), load = cycle.stress_amplitude;
  if (constants.mean_stress == MeanStress::smith_watson_topper)
    load = std::sqrt(std::max(0.0, cycle.mean_stress + cycle.stress_amplitude) * cycle.stress_amplitude);
  return solve_life(strength, constants.strength_exponent, 0, -1, load);
}

double strain_life(const FatigueConstants& constants, double modulus, double ultimate, const StressCycle& cycle) {
  check(constants, cycle.strain_amplitude);
  if (!(modulus > 0)) throw std::invalid_argument("fatigue: the modulus must be positive");
  const double b = constants.strength_exponent, c = constants.ductility_exponent;
  const double strength = constants.strength_coefficient, ductility = constants.ductility_coefficient;
  if (constants.mean_stress == MeanStress::smith_watson_topper) {
    const double peak = std::max(0.0, cycle.mean_stress + cycle.stress_amplitude);
    return solve_life(strength * strength / modulus, 2 * b, strength * ductility, b + c, peak * cycle.strain_amplitude);
  }
  const double left = strength_left(constants, ultimate, cycle.mean_stress);
  if (left <= 0) return kAtOnce;
  return solve_life(left / modulus, b, ductility, c, cycle.strain_amplitude);
}

double miner_sum(std::span<const LoadCycle> cycles, const std::function<double(const LoadCycle&)>& life) {
  double sum = 0;
  for (const LoadCycle& cycle : cycles) sum += cycle.count / life(cycle);
  return sum;
}

}  // namespace hatring::models
