// SPDX-License-Identifier: MIT
#include "models/softening.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "models/constants.hpp"
#include "models/material.hpp"

namespace hatring::models {
namespace {

// Slope of ln t_f over 1/T, Q/R [K].
double slope(const Overageing& alloy) {
  if (!(alloy.temperature > 0 && alloy.hotter_temperature > alloy.temperature && alloy.hotter_time > 0 &&
        alloy.time > alloy.hotter_time))
    throw std::invalid_argument("over-ageing: the hotter point must be hotter and shorter");
  return std::log(alloy.time / alloy.hotter_time) / (1 / alloy.temperature - 1 / alloy.hotter_temperature);
}

double time_to_fail(const Overageing& alloy, double slope, double temperature) {
  return alloy.time * std::exp(slope * (1 / temperature - 1 / alloy.temperature));
}

void same_length(std::span<const double> time, std::span<const double> temperature) {
  if (time.size() != temperature.size()) throw std::invalid_argument("over-ageing: one temperature a time needed");
}

}  // namespace

double overageing_time(const Overageing& alloy, double temperature) {
  return time_to_fail(alloy, slope(alloy), temperature);
}

double activation_energy(const Overageing& alloy) {
  return slope(alloy) * kMolarGasConstant;
}

double overageing_share(const Overageing& alloy, std::span<const double> time, std::span<const double> temperature) {
  same_length(time, temperature);
  const double law = slope(alloy);
  double share = 0;
  for (std::size_t i = 1; i < time.size(); ++i) {
    const double rate = 1 / time_to_fail(alloy, law, temperature[i - 1]) + 1 / time_to_fail(alloy, law, temperature[i]);
    share += (time[i] - time[i - 1]) * rate / 2;
  }
  return share;
}

double overaged_strength_left(double share) {
  if (!(share >= 0)) throw std::invalid_argument("over-ageing: a share must not be negative");
  // log10 of the share: see the header
  static const Curve kLeft({-2, 0, 0.953, 2.959, 4.577}, {1, 240.0 / 276, 0.775, 0.373, 0.123});
  constexpr double kNothing = 1e-12;
  return kLeft(std::log10(std::max(share, kNothing)));
}

double time_above(double threshold, std::span<const double> time, std::span<const double> temperature) {
  same_length(time, temperature);
  double sum = 0;
  for (std::size_t i = 1; i < time.size(); ++i) {
    const double low = std::min(temperature[i - 1], temperature[i]);
    const double high = std::max(temperature[i - 1], temperature[i]);
    if (high <= threshold) continue;
    const double part = low >= threshold ? 1 : (high - threshold) / (high - low);
    sum += part * (time[i] - time[i - 1]);
  }
  return sum;
}

}  // namespace hatring::models
