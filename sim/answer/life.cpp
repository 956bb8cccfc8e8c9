// SPDX-License-Identifier: MIT
#include "sim/answer/life.hpp"

#include <algorithm>
#include <functional>

#include "models/fatigue.hpp"
#include "models/softening.hpp"
#include "models/thermal_stress.hpp"

namespace hatring::answer {
namespace {

using models::LoadCycle;

constexpr double kEndless = 1e6;    // sessions: more than that is not told apart
constexpr double kDeadBand = 0.02;  // of the largest range: smaller reversals do no damage worth counting [-]

struct Counted {
  std::string part, what;
  const std::vector<double>* series;             // of stress, or of a strain to be scaled
  double scale = 1;                              // to stress [Pa]
  std::function<double(const LoadCycle&)> life;  // cycles to failure of one cycle of the scaled series
  int sessions_before = 0;
};

DamageRow count(const Counted& part) {
  std::vector<double> stress(*part.series);
  for (double& s : stress) s *= part.scale;
  const auto [low, high] = std::minmax_element(stress.begin(), stress.end());
  const std::vector<LoadCycle> cycles = models::rainflow(models::turning_points(stress, kDeadBand * (*high - *low)));
  DamageRow row{.part = part.part, .what = part.what};
  row.per_session = models::miner_sum(cycles, part.life);
  double most = 0;
  for (const LoadCycle& cycle : cycles) {
    row.cycles += cycle.count;
    row.largest_range = std::max(row.largest_range, cycle.range);
    most = std::max(most, cycle.count / part.life(cycle));
  }
  row.before = part.sessions_before * row.per_session;
  const bool none = !(row.per_session > 0);
  row.largest_share = none ? 0 : most / row.per_session;
  row.sessions_left = none ? kEndless : std::clamp((1 - row.before) / row.per_session - 1, 0.0, kEndless);
  return row;
}

// A column's values, or nothing where it does not apply.
const std::vector<double>* values(const AxleHistory& h, std::string_view group, std::string_view name) {
  const Column* column = h.find(group, name);
  return column && !column->not_applicable ? &column->values : nullptr;
}

double peak(const AxleHistory& h, std::string_view name) {
  const std::vector<double>* v = values(h, "temperature", name);
  return v ? *std::max_element(v->begin(), v->end()) : models::kReferenceTemperature;
}

// A material at the hottest that its part was: cycles are all counted there, which is hard on the cold ones.
struct Hot {
  models::FatigueConstants constants;
  double modulus, ultimate;

  Hot(const models::Material& m, double temperature)
      : constants(models::scaled(
            m.fatigue, m.ultimate_strength(temperature) / m.ultimate_strength(models::kReferenceTemperature))),
        modulus(m.youngs_modulus(temperature)),
        ultimate(m.ultimate_strength(temperature)) {}

  [[nodiscard]] double life(const LoadCycle& c, double offset = 0) const {
    const models::StressCycle cycle{c.range / 2, c.mean + offset, c.range / 2 / modulus};
    return constants.has_strain_life() ? models::strain_life(constants, modulus, ultimate, cycle)
                                       : models::stress_life(constants, ultimate, cycle);
  }
};

bool lives(const models::Material& m) {
  return m.fatigue.known() && !m.ultimate_strength.empty() && !m.youngs_modulus.empty();
}

}  // namespace

std::vector<DamageRow> damage(const session::Case& c, session::Axle axle, const AxleHistory& h) {
  const session::Rotor& rotor = c.brake(axle).rotor;
  const session::Wear& wear = c.wear(axle);
  const bool joined = rotor.joint.kind != session::JointKind::one_piece;
  std::vector<Counted> parts;
  const auto add = [&](std::string part, std::string what, const char* column, double scale, const Hot& hot,
                       double offset, int before) {
    if (const std::vector<double>* series = values(h, "stress", column))
      parts.push_back({std::move(part), std::move(what), series, scale,
                       [hot, offset](const LoadCycle& cycle) { return hot.life(cycle, offset); }, before});
  };
  const models::Material& iron = c.materials.at(rotor.ring.material);
  if (lives(iron)) {
    add("ring bore", "hoop stress with its peak", "lug_root", 1, {iron, peak(h, "ring_lug")}, 0, wear.ring_sessions);
    // The face's cycles turn about the tension that yielding leaves.
    const Hot face(iron, std::max(peak(h, "ring_face_outboard"), peak(h, "ring_face_inboard")));
    const std::vector<double>* residual = values(h, "stress", "face_residual");
    add("ring face", "stress that its own cheek holds it with", "face_strain", face.modulus / (1 - iron.poisson), face,
        residual ? residual->back() : 0, wear.ring_sessions);
    // Peak beside the hole of a lug, as far as iron feels it.
    add("ring lugs", "stress beside the hole with its peak", "lug",
        models::felt_concentration(models::kHoleConcentration, models::kIronNotchSensitivity),
        {iron, peak(h, "ring_lug")}, 0, wear.ring_sessions);
  }
  if (joined) {
    const models::Material &hat = c.materials.at(rotor.hat.material), &bolt = c.materials.at(rotor.joint.material);
    if (lives(hat))
      add("hat holes", "bearing pressure of the fasteners", "hat_hole", 1, {hat, peak(h, "hat_flange")}, 0,
          wear.hat_sessions);
    if (lives(bolt))
      add("fasteners", "tension, bending and shear as one", "fastener", 1, {bolt, peak(h, "fastener")}, 0,
          wear.fastener_sessions);
  }
  std::vector<DamageRow> out;
  out.reserve(parts.size());
  for (const Counted& part : parts) out.push_back(count(part));
  std::stable_sort(out.begin(), out.end(),
                   [](const DamageRow& a, const DamageRow& b) { return a.sessions_left < b.sessions_left; });
  return out;
}

SofteningAnswer softening(const session::Case& c, session::Axle axle, const std::vector<double>& time,
                          const AxleHistory& h) {
  const session::Rotor& rotor = c.brake(axle).rotor;
  const session::Wear& wear = c.wear(axle);
  if (rotor.joint.kind == session::JointKind::one_piece) return {};
  const models::Overageing& alloy = c.materials.at(rotor.hat.material).overageing;
  const std::vector<double>* flange = values(h, "temperature", "hat_flange");
  if (!alloy.known() || !flange) return {};
  SofteningAnswer out{.applicable = true};
  out.share = models::overageing_share(alloy, time, *flange);
  out.share_before = wear.hat_sessions * out.share;
  for (const session::Soak& soak : wear.hat_soak)
    out.share_before += soak.duration / models::overageing_time(alloy, soak.temperature);
  out.strength_left_before = models::overaged_strength_left(out.share_before);
  out.strength_left = models::overaged_strength_left(out.share_before + out.share);
  for (const double celsius : {150.0, 175.0, 200.0, 220.0})
    out.time_above.emplace_back(celsius + 273.15, models::time_above(celsius + 273.15, time, *flange));
  return out;
}

}  // namespace hatring::answer
