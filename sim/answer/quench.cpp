// SPDX-License-Identifier: MIT
// Wet patches on the lap.
#include <algorithm>
#include <cmath>

#include "models/water_film.hpp"
#include "sim/answer/life.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

// What each band of wetness does to a face. \param length of the patch [m]
QuenchRow quench(const session::Case& c, const models::Material& iron, double face, double speed, double length) {
  QuenchRow row{.face = face};
  const double turns = speed / (2 * M_PI * c.car.tyre_radius), time = length / speed;
  const double effusivity = std::sqrt(iron.conductivity(face) * iron.density * iron.specific_heat(face));
  const double expansion = iron.mean_expansion(face);
  for (const std::size_t i : {0U, 1U, 2U}) {
    const double flux = models::quench_flux(models::kWaterFilmBand[i], face, turns);
    row.drop[i] = models::face_drop(flux, time, effusivity, face);
    row.stress[i] = models::quench_stress(iron.youngs_modulus(face), expansion, iron.poisson, row.drop[i]);
    row.utilisation[i] = row.stress[i] / iron.ultimate_strength(face);
  }
  return row;
}

}  // namespace

std::vector<QuenchRow> quenches(const session::Case& c, session::Axle axle, const session::Drive& drive,
                                const std::vector<double>& time, const AxleHistory& h) {
  const models::Material& iron = c.materials.at(c.brake(axle).rotor.ring.material);
  if (iron.ultimate_strength.empty() || iron.youngs_modulus.empty()) return {};
  const std::vector<double>& face = h.find("temperature", "ring_face_outboard")->values;
  std::vector<QuenchRow> out;
  for (const session::WetPatch& patch : c.wet_patches) {
    QuenchRow worst;
    for (const session::Span& span : drive.spans()) {
      if (span.lap == 0) continue;
      // The first recorded moment of the lap inside the patch.
      const Rows rows = rows_of(span, time);
      std::size_t i = rows.first;
      while (i < rows.last && drive.distance(time[i]) - span.begin_distance < patch.from) ++i;
      if (i == rows.last || drive.distance(time[i]) - span.begin_distance > patch.to) continue;
      std::size_t piece = 0;
      const double speed = drive.at(time[i], piece).speed;
      constexpr double kCrawl = 1;  // slower than this is no patch that one drives through [m/s]
      if (speed < kCrawl) continue;
      QuenchRow row = quench(c, iron, face[i], speed, patch.to - patch.from);
      if (worst.face > 0 && row.utilisation[2] <= worst.utilisation[2]) continue;
      row.place = place_at(drive, time[i]);
      worst = std::move(row);
    }
    if (worst.face > 0) out.push_back(std::move(worst));
  }
  return out;
}

}  // namespace hatring::answer
