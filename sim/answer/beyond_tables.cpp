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
  const char* where = axle == session::Axle::front ? "front" : "rear";
  const auto peak = [&](const char* name) {
    const auto found = answers.peaks.find(name);
    return found == answers.peaks.end() ? 0 : found->second.value;
  };
  const auto celsius = [](double kelvin) { return kelvin - models::kZeroCelsius; };
  const auto part = [&](const char* words, double temperature, const std::string& material) {
    const auto known = c.materials.find(material);
    if (known == c.materials.end()) return;
    const Reach data = reach(known->second);
    if (temperature <= data.highest) return;
    out.push_back(fmt::format(
        "{} {} reach {:.0f} degC, but the {} of {} is known only to {:.0f} degC and held from there: take it as far "
        "too "
        "hot, not as a number; a material with data for this heat can be given under `materials: {{{}: ...}}`",
        where, words, celsius(temperature), data.what, material, celsius(data.highest), material));
  };
  if (!c.physics.constant_properties) {
    part("ring faces", std::max(peak("ring_face_outboard"), peak("ring_face_inboard")), rotor.ring.material);
    if (rotor.joint.kind != session::JointKind::one_piece) {
      part("fasteners", peak("fastener"), rotor.joint.material);
      part("hat flanges", peak("hat_flange"), rotor.hat.material);
    }
  }
  const std::vector<double>& table = c.brake(axle).pads.friction.temperature;
  const double face = std::max(peak("ring_face_outboard"), peak("ring_face_inboard"));
  if (table.size() > 1 && face > table.back())
    out.push_back(
        fmt::format("{} faces reach {:.0f} degC, but the pads' friction is known only to {:.0f} degC and held from "
                    "there: expect it "
                    "to fall further than the pedal rows say",
                    where, celsius(face), celsius(table.back())));
  return out;
}

}  // namespace hatring::answer
