// SPDX-License-Identifier: MIT
// What a session takes from pads and ring, how long the pads work in their window, and bedding.
#include <algorithm>
#include <cmath>

#include "models/disc_geometry.hpp"
#include "models/material.hpp"
#include "models/pad.hpp"
#include "sim/answer/pedal.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

const std::vector<double>& temperature(const AxleHistory& h, const char* name) {
  return h.find("temperature", name)->values;
}

void fill_window(const session::Drive& drive, const std::vector<double>& time, const AxleHistory& h,
                 const session::Pads& pads, PadAnswer& out) {
  const auto &outboard = temperature(h, "ring_face_outboard"), &inboard = temperature(h, "ring_face_inboard");
  for (const session::Braking& b : drive.brakings()) {
    if (!driven_in_anger(place_of(drive, b).span)) continue;
    const Rows rows = rows_of({.begin = b.begin, .end = b.end}, time);
    if (rows.first >= rows.last) continue;
    const double step = (b.end - b.begin) / static_cast<double>(rows.last - rows.first);
    for (std::size_t i = rows.first; i < rows.last; ++i) {
      const double face = std::max(outboard[i], inboard[i]);
      (face < pads.window_low ? out.below : face > pads.window_high ? out.above : out.inside) += step;
    }
  }
}

// Volume lost up to each moment on one rubbing surface that takes half of the wheel's friction work.
std::vector<double> lost(const models::Wear& wear, const std::vector<double>& friction_heat,
                         const std::vector<double>& face) {
  std::vector<double> out(face.size(), 0.0);
  for (std::size_t i = 1; i < face.size(); ++i) {
    const double work = 0.5 * (friction_heat[i] - friction_heat[i - 1]);
    out[i] = out[i - 1] + (work != 0 ? work * wear(0.5 * (face[i] + face[i - 1])) : 0);
  }
  return out;
}

double sessions(double left, double minimum, double worn) {
  if (left <= minimum) return 0;
  return worn > 0 ? (left - minimum) / worn : std::numeric_limits<double>::infinity();
}

double ring_volume(const session::Ring& ring) {
  const double inner = ring.inner_diameter / 2, outer = ring.outer_diameter / 2;
  if (ring.kind == session::RingKind::solid) return models::annulus_volume(inner, outer, ring.thickness);
  return models::vented_ring_volume(ring.cheek_thickness, {.outer_radius = outer,
                                                           .inner_radius = inner,
                                                           .height = ring.thickness - 2 * ring.cheek_thickness,
                                                           .thickness = ring.vanes.thickness,
                                                           .count = ring.vanes.count});
}

void fill_ring(const session::Case& c, const session::Ring& ring, PadAnswer& out) {
  const double swept = models::annulus_area(ring.swept_inner_diameter / 2, ring.outer_diameter / 2);
  out.ring_left = ring.thickness - out.ring_worn;
  if (ring.minimum_thickness) {
    out.ring_minimum = *ring.minimum_thickness;
    out.ring_sessions_left = sessions(out.ring_left, out.ring_minimum, out.ring_worn);
  }
  const auto iron = c.materials.find(ring.material);
  if (iron == c.materials.end()) return;
  const double per_volume = iron->second.density * iron->second.specific_heat(models::kReferenceTemperature);
  out.ring_capacity = per_volume * ring_volume(ring);
  if (ring.minimum_thickness)
    out.ring_capacity_at_minimum = out.ring_capacity - per_volume * swept * (ring.thickness - *ring.minimum_thickness);
}

}  // namespace

PadAnswer pad_answer(const session::Case& c, const session::Drive& drive, const std::vector<double>& time,
                     const AxleHistory& h, session::Axle axle) {
  const session::Brake& brake = c.brake(axle);
  const session::Pads& pads = brake.pads;
  PadAnswer out;
  fill_window(drive, time, h, pads, out);
  const std::vector<double>& heat = h.find("heat", "friction")->values;
  if (pads.wear.onset > 0 && pads.wear.doubling > 0) {
    const auto law = [&](double rate) { return models::Wear{rate, pads.wear.onset, pads.wear.doubling}; };
    const double swept =
        models::annulus_area(brake.rotor.ring.swept_inner_diameter / 2, brake.rotor.ring.outer_diameter / 2);
    const double spare = (pads.thickness - pads.minimum_thickness) * pads.area;
    for (const char* side : {"ring_face_outboard", "ring_face_inboard"}) {
      const std::vector<double>& face = temperature(h, side);
      const std::vector<double> of_pad = lost(law(pads.wear.rate), heat, face);
      out.worn = std::max(out.worn, of_pad.back() / pads.area);
      const auto over = std::upper_bound(of_pad.begin(), of_pad.end(), spare);
      if (over != of_pad.end())
        out.worn_out_at = std::fmin(out.worn_out_at, time[static_cast<std::size_t>(over - of_pad.begin())]);
      out.ring_worn += lost(law(pads.wear.ring_rate), heat, face).back() / swept;
    }
  }
  out.left = pads.thickness - out.worn;
  out.minimum = pads.minimum_thickness;
  out.sessions_left = sessions(out.left, out.minimum, out.worn);
  fill_ring(c, brake.rotor.ring, out);
  return out;
}

BeddingAnswer bedding_answer(const session::Case& c, const session::Drive& drive, const std::vector<double>& time,
                             const AxleHistory& h, session::Axle axle) {
  constexpr double kAfterwards = 0.5;  // the face may peak as the brakes let go [s]
  BeddingAnswer out;
  const std::optional<session::Bedding>& plan = c.brake(axle).pads.bedding;
  if (!plan) return out;
  out.band_low = plan->band_low;
  out.band_high = plan->band_high;
  out.ceiling = plan->ceiling;
  const auto &outboard = temperature(h, "ring_face_outboard"), &inboard = temperature(h, "ring_face_inboard");
  int group = 0;
  for (const session::Braking& b : drive.brakings()) {
    BeddingStop stop{.place = place_of(drive, b)};
    if (kind_of_span(stop.place.span) != "snub") continue;
    const Rows rows = rows_of({.begin = b.begin, .end = b.end + kAfterwards}, time);
    if (rows.first >= rows.last) continue;
    if (out.stops.empty() || stop.place.span == "snub 1") ++group;
    stop.group = group;
    stop.number = !out.stops.empty() && out.stops.back().group == group ? out.stops.back().number + 1 : 1;
    stop.face_before = std::max(outboard[rows.first], inboard[rows.first]);
    stop.face_peak = std::max(outboard[highest(outboard, rows)], inboard[highest(inboard, rows)]);
    stop.under_ceiling = stop.face_peak <= plan->ceiling;
    stop.reaches_band = stop.face_peak >= plan->band_low;
    stop.above_band = stop.face_peak > plan->band_high;
    out.reached += stop.reaches_band ? 1 : 0;
    out.over += stop.under_ceiling ? 0 : 1;
    out.stops.push_back(std::move(stop));
  }
  out.applicable = !out.stops.empty();
  return out;
}

}  // namespace hatring::answer
