// SPDX-License-Identifier: MIT
#include "models/friction.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>

namespace hatring::models {

double effusivity(double conductivity, double density, double specific_heat) {
  return std::sqrt(conductivity * density * specific_heat);
}

double effusivity_share(double ring_area, double ring_effusivity, double pad_area, double pad_effusivity) {
  const double ring = ring_area * ring_effusivity;
  return ring / (ring + pad_area * pad_effusivity);
}

ContactSplit contact_split(double contact_conductance, double ring_half_cell_resistance,
                           double pad_half_cell_resistance) {
  if (!(contact_conductance >= 0) || !(ring_half_cell_resistance >= 0) || !(pad_half_cell_resistance >= 0)) {
    throw std::invalid_argument("contact split: conductance and resistances must not be negative");
  }
  if (contact_conductance == 0) return {0, 0.5};
  const double contact = 1 / contact_conductance;  // 0 for perfect contact
  const double total = contact + ring_half_cell_resistance + pad_half_cell_resistance;
  if (total <= 0) throw std::invalid_argument("contact split: perfect contact needs a resistance on one side");
  return {1 / total, (contact / 2 + pad_half_cell_resistance) / total};
}

double ring_surface_temperature(const ContactSplit& split, double power, double ring_cell, double pad_cell,
                                double ring_half_cell_resistance) {
  const double into_ring = split.ring_share * power + split.conductance * (pad_cell - ring_cell);
  return ring_cell + into_ring * ring_half_cell_resistance;
}

std::vector<double> radial_weights(std::span<const double> band_edges, double swept_inner, double swept_outer,
                                   bool uniform_pressure) {
  if (band_edges.size() < 2 ||
      std::adjacent_find(band_edges.begin(), band_edges.end(), std::greater_equal<>()) != band_edges.end()) {
    throw std::invalid_argument("radial weights: at least two rising band edges needed");
  }
  const auto cumulative = [&](double radius) {
    const double r = std::clamp(radius, swept_inner, swept_outer);
    return uniform_pressure ? r * r * r : r * r;
  };
  if (!(swept_inner < swept_outer)) throw std::invalid_argument("radial weights: the swept track has no width");
  const double total = cumulative(band_edges.back()) - cumulative(band_edges.front());
  if (!(total > 0)) throw std::invalid_argument("radial weights: no band lies in the swept track");
  std::vector<double> weights(band_edges.size() - 1);
  for (std::size_t i = 0; i < weights.size(); ++i) {
    weights[i] = (cumulative(band_edges[i + 1]) - cumulative(band_edges[i])) / total;
  }
  return weights;
}

}  // namespace hatring::models
