// SPDX-License-Identifier: MIT
#include "models/material.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <stdexcept>
#include <utility>

namespace hatring::models {
namespace {

// Three-point slope at the end of the first of two intervals: `near` is the interval that touches the end.
double end_slope(double near_width, double far_width, double near_secant, double far_secant) {
  return ((2 * near_width + far_width) * near_secant - near_width * far_secant) / (near_width + far_width);
}

// Fritsch and Carlson 1980: a cubic piece is monotone when both its end slopes lie between 0 and 3 secants.
double limit_slope(double slope, double secant) {
  if (slope * secant <= 0) return 0;
  return std::copysign(std::min(std::abs(slope), 3 * std::abs(secant)), secant);
}

std::vector<double> monotone_slopes(const std::vector<double>& x, const std::vector<double>& y) {
  const std::size_t pieces = x.size() - 1;
  std::vector<double> width(pieces), secant(pieces), slope(x.size());
  for (std::size_t i = 0; i < pieces; ++i) {
    width[i] = x[i + 1] - x[i];
    secant[i] = (y[i + 1] - y[i]) / width[i];
  }
  if (pieces == 1) return {secant[0], secant[0]};
  slope.front() = limit_slope(end_slope(width[0], width[1], secant[0], secant[1]), secant[0]);
  slope.back() = limit_slope(end_slope(width[pieces - 1], width[pieces - 2], secant[pieces - 1], secant[pieces - 2]),
                             secant[pieces - 1]);
  for (std::size_t i = 1; i < pieces; ++i) {
    if (secant[i - 1] * secant[i] <= 0) continue;  // an extremum of the data stays one of the curve
    const double parabola = (width[i] * secant[i - 1] + width[i - 1] * secant[i]) / (width[i - 1] + width[i]);
    slope[i] = limit_slope(limit_slope(parabola, secant[i - 1]), secant[i]);
  }
  return slope;
}

std::size_t interval(const std::vector<double>& x, double at) {
  const auto upper = std::upper_bound(x.begin() + 1, x.end() - 1, at);
  return static_cast<std::size_t>(upper - x.begin()) - 1;
}

}  // namespace

Curve::Curve(double constant) : Curve(std::vector<double>{kReferenceTemperature}, std::vector<double>{constant}) {}

Curve::Curve(std::vector<double> temperature, std::vector<double> values)
    : temperature_(std::move(temperature)), values_(std::move(values)) {
  if (temperature_.size() != values_.size())
    throw std::invalid_argument("curve: as many values as temperatures needed");
  if (values_.empty()) throw std::invalid_argument("curve: at least one value needed");
  const auto finite = [](double number) { return std::isfinite(number); };
  if (!std::all_of(temperature_.begin(), temperature_.end(), finite) ||
      !std::all_of(values_.begin(), values_.end(), finite)) {
    throw std::invalid_argument("curve: every number must be finite");
  }
  if (std::adjacent_find(temperature_.begin(), temperature_.end(), std::greater_equal<>()) != temperature_.end()) {
    throw std::invalid_argument("curve: temperatures must rise strictly");
  }
  if (constant()) return;
  const std::vector<double> slope = monotone_slopes(temperature_, values_);
  integral_.assign(values_.size(), 0);
  for (std::size_t i = 0; i + 1 < values_.size(); ++i) {
    const double width = temperature_[i + 1] - temperature_[i], secant = (values_[i + 1] - values_[i]) / width;
    pieces_.push_back({values_[i], slope[i], (3 * secant - 2 * slope[i] - slope[i + 1]) / width,
                       (slope[i] + slope[i + 1] - 2 * secant) / (width * width)});
    integral_[i + 1] = integral_[i] + pieces_[i].area(width);
  }
}

double Curve::operator()(double temperature) const {
  if (values_.size() < 2) return values_.at(0);
  if (temperature <= temperature_.front()) return values_.front();
  if (temperature >= temperature_.back()) return values_.back();
  const std::size_t i = interval(temperature_, temperature);
  return pieces_[i].value(temperature - temperature_[i]);
}

void Curve::follow(std::span<const double> temperature, std::span<double> values) const {
  if (temperature.size() != values.size()) throw std::invalid_argument("curve: room for each value needed");
  std::size_t i = 0;
  for (std::size_t k = 0; k < temperature.size(); ++k) {
    const double t = temperature[k];
    if (values_.size() < 2 || !(t > temperature_.front() && t < temperature_.back())) {
      values[k] = (*this)(t);
      continue;
    }
    if (t < temperature_[i] || t > temperature_[i + 1]) i = interval(temperature_, t);
    values[k] = pieces_[i].value(t - temperature_[i]);
  }
}

double Curve::derivative(double temperature) const {
  if (values_.size() < 2 || temperature < temperature_.front() || temperature > temperature_.back()) return 0;
  const std::size_t i = interval(temperature_, temperature);
  return pieces_[i].slope(temperature - temperature_[i]);
}

double Curve::integral(double from, double to) const {
  if (values_.size() < 2) return values_.at(0) * (to - from);
  const auto from_start = [this](double end) {
    if (end <= temperature_.front()) return values_.front() * (end - temperature_.front());
    if (end >= temperature_.back()) return integral_.back() + values_.back() * (end - temperature_.back());
    const std::size_t i = interval(temperature_, end);
    return integral_[i] + pieces_[i].area(end - temperature_[i]);
  };
  return from_start(to) - from_start(from);
}

double Curve::lowest() const {
  return values_.size() < 2 ? -std::numeric_limits<double>::infinity() : temperature_.front();
}

double Curve::highest() const {
  return values_.size() < 2 ? std::numeric_limits<double>::infinity() : temperature_.back();
}

}  // namespace hatring::models
