// SPDX-License-Identifier: MIT
// Water on hot discs: wet patches on the lap, and rain as it sets in.
#include <algorithm>
#include <cmath>

#include "models/water_film.hpp"
#include "sim/answer/life.hpp"
#include "sim/answer/places.hpp"
#include "sim/session/lap_speed.hpp"

namespace hatring::answer {
namespace {

constexpr double kFirstWater = 1;  // in rain: as long as a face is chilled before the ring's depth answers [s]

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

// The laps on which rain sets in: the road is wet, and was not on the lap before.
std::vector<int> first_wet_laps(const session::Case& c) {
  std::vector<int> out;
  int lap = 0;
  bool wet = false;
  for (const session::Step& step : c.session) {
    const auto* drive = std::get_if<session::DriveStep>(&step);
    if (drive == nullptr) continue;
    const bool now = drive->grip < session::kDampGrip;
    if (now && !wet) out.push_back(lap + 1);
    wet = now;
    lap += drive->laps;
  }
  return out;
}

// Takes the worse of two.
void keep_worse(QuenchRow& worst, QuenchRow row) {
  if (!(worst.face > 0) || row.utilisation[2] > worst.utilisation[2]) worst = std::move(row);
}

}  // namespace

std::vector<QuenchRow> quenches(const session::Case& c, session::Axle axle, const session::Drive& drive,
                                const std::vector<double>& time, const AxleHistory& h) {
  const models::Material& iron = c.materials.at(c.brake(axle).rotor.ring.material);
  if (iron.ultimate_strength.empty() || iron.youngs_modulus.empty()) return {};
  const std::vector<double>& face = h.find("temperature", "ring_face_outboard")->values;
  const auto at = [&](std::size_t i, double length) {
    std::size_t piece = 0;
    const double speed = drive.at(time[i], piece).speed;
    constexpr double kCrawl = 1;  // slower than this is no patch that one drives through [m/s]
    QuenchRow row;
    if (speed < kCrawl) return row;
    row = quench(c, iron, face[i], speed, length > 0 ? length : speed * kFirstWater);
    row.place = place_at(drive, time[i]);
    return row;
  };
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
      keep_worse(worst, at(i, patch.to - patch.from));
    }
    if (worst.face > 0) out.push_back(std::move(worst));
  }
  for (const int lap : first_wet_laps(c))
    for (const session::Span& span : drive.spans()) {
      const Rows rows = rows_of(span, time);
      if (span.lap != lap || rows.first >= rows.last) continue;
      QuenchRow row = at(highest(face, rows), 0);
      if (row.face > 0) out.push_back(std::move(row));
    }
  return out;
}

}  // namespace hatring::answer
