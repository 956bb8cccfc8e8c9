// SPDX-License-Identifier: MIT
#include "sim/answer/beyond_tables.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "models/constants.hpp"

namespace hatring::answer {
namespace {

struct Reach {
  double highest = 0;  // [K]
  const char* what = "";
};

// Of the properties that decide about a part of a joint, the one whose table ends first.
Reach reach(const models::Material& m) {
  Reach least{m.mean_expansion.highest(), "expansion"};
  for (const auto& [curve, what] : {std::pair{&m.youngs_modulus, "stiffness"}, std::pair{&m.proof_strength, "strength"},
                                    std::pair{&m.specific_heat, "specific heat"}})
    if (!curve->empty() && curve->highest() < least.highest) least = {curve->highest(), what};
  return least;
}

}  // namespace

std::vector<std::string> beyond_tables(const session::Case& c, session::Axle axle, const AxleAnswers& answers) {
  std::vector<std::string> out;
  const session::Rotor& rotor = c.brake(axle).rotor;
  if (rotor.joint.kind == session::JointKind::one_piece || c.physics.constant_properties) return out;
  for (const auto& [part, peak, material] : {std::tuple{"fasteners", "fastener", &rotor.joint.material},
                                             std::tuple{"hat", "hat_flange", &rotor.hat.material}}) {
    const auto found = answers.peaks.find(peak);
    const auto known = c.materials.find(*material);
    if (found == answers.peaks.end() || known == c.materials.end()) continue;
    const Reach data = reach(known->second);
    if (found->second.value <= data.highest) continue;
    out.push_back(fmt::format(
        "{} {} reach {:.0f} degC, but the {} of {} is known only to {:.0f} degC and held from there: take a material "
        "with data for this heat, or give its values under `materials: {{{}: ...}}`",
        axle == session::Axle::front ? "front" : "rear", part, found->second.value - models::kZeroCelsius, data.what,
        *material, data.highest - models::kZeroCelsius, *material));
  }
  return out;
}

}  // namespace hatring::answer
