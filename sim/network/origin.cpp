// SPDX-License-Identifier: MIT
#include "sim/network/origin.hpp"

namespace hatring::network {
namespace {

using session::JointKind;

struct Family {
  std::string_view name, phrase;
};

constexpr Family kFamilies[] = {
    {"ring", "conduction through the ring: straight through layers and vane roots, logarithmic between bands"},
    {"ring_lug", "conduction from the innermost band through the roots of the lugs"},
    {"hat", "conduction along the bell wall, logarithmic across flange and mounting face"},
    {"hat_hub", "a contact coefficient for faces clamped by the wheel nuts, times the mounting face; judgement"},
    {"hat_wheel", "a contact coefficient for a painted wheel pad, times the mounting face; judgement"},
    {"hub_wheel", "one value for hub to upright through the bearing; judgement"},
    {"pad", "conduction through the friction layer and into the backing plate"},
    {"ring_pad", "a thin film of air and radiation between pad and ring, also when released; judgement"},
    {"pad_piston", "contact on the pistons' rims, light at rest and firmer while the pads are applied, shim in series"},
    {"pad_fingers", "contact under the fingers of a sliding caliper, as on the rims of its pistons; judgement"},
    {"pad_caliper", "one value for a backing plate at its abutments; judgement"},
    {"piston_fluid", "natural convection of the fluid on the piston crowns; judgement"},
    {"piston_caliper", "fluid film and seals along the piston skirts; judgement"},
    {"fluid_caliper", "natural convection of the fluid on the bore walls; judgement"},
    {"caliper_wheel", "one value for two bolts to the upright; judgement"},
};

constexpr std::string_view kClamped =
    "bare contact under the fasteners by Cooper, Mikic and Yovanovich 1969, times 0.3 for real joints and the state of "
    "the faces, beside the air gap of the rest of the lug";
constexpr std::string_view kLoose =
    "loose bobbins in their slots by one contact coefficient; bobbin to hat by Cooper, Mikic and Yovanovich 1969, "
    "times "
    "0.3 for real joints";
constexpr std::string_view kNeck = "conduction through the neck between ring and hat of one casting";

struct NamedLaw {
  std::string_view begins;
  LawOrigin origin;
};

constexpr std::string_view kBody =
    "cylinder across the air that moves in the wheel (Churchill and Bernstein 1977) with natural convection (Churchill "
    "and Chu 1975)";
constexpr std::string_view kDuct =
    "flat plate at the speed of the air from the hose, capped by what that air can carry";

constexpr NamedLaw kLaws[] = {
    {"ring face",
     {"between a disc spinning in free air (Dorfman 1963) and the road-speed law (Limpert), by McPhee and Johnson "
      "2008; "
      "natural convection (Churchill and Chu 1975) at rest"}},
    {"ring rim", {"a disc spinning in free air at that radius (Dorfman 1963), natural convection at rest"}},
    {"ring bore", {"a disc spinning in free air at that radius (Dorfman 1963), natural convection at rest"}},
    {"vane passages",
     {"Nu ~ Re^0.97 fitted to McPhee and Johnson 2008 (abstract), capped by the air that the vanes pump; rising air at "
      "rest",
      false}},
    {"duct", {kDuct, false}},
    {"hat and hub", {kBody}},
    {"pad edge", {kBody}},
    {"caliper", {kBody}},
    {"wheel", {kBody}},
    {"air exchange", {"air renewed by speed, wind and buoyancy, times its heat; judgement", false}},
};

}  // namespace

std::string_view origin(std::string_view family, JointKind joint) {
  if (family == "ring_hat")
    return joint == JointKind::one_piece ? kNeck : joint == JointKind::floating ? kLoose : kClamped;
  for (const Family& f : kFamilies)
    if (f.name == family) return f.phrase;
  return {};
}

LawOrigin origin_of_law(std::string_view law) {
  for (const NamedLaw& l : kLaws)
    if (law.starts_with(l.begins)) return l.origin;
  return {};
}

}  // namespace hatring::network
