// SPDX-License-Identifier: MIT
#include "sim/answer/inputs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/network/assumed.hpp"

namespace hatring::answer {
namespace {

namespace assumed = network::assumed;
using assumed::Prior;
using session::Axle;
using session::Case;

session::Brake& brake(Case& c, Axle axle) {
  return axle == Axle::front ? c.brakes.front : c.brakes.rear;
}

bool given(const Case& c, const std::string& key) {
  return std::none_of(c.assumptions.begin(), c.assumptions.end(),
                      [&key](const session::Assumption& a) { return a.key == key; });
}

InputPart part(Axle axle, std::string where, double value, const char* unit, const Prior& prior,
               decltype(InputPart::set) set) {
  const study::Band factor{prior.low / prior.likely, 1, prior.high / prior.likely};
  return {axle, std::move(where), value, unit, factor, prior.reason, set};
}

std::string key_of(Axle axle, const char* key) {
  return fmt::format("brakes.{}.{}", axle == Axle::front ? "front" : "rear", key);
}

using Parts = std::vector<InputPart>;
constexpr Axle kAxles[] = {Axle::front, Axle::rear};

Parts convection(const Case& c) {
  Parts out;
  if (c.physics.convection) return out;
  for (const Axle axle : kAxles) {
    const std::string key = key_of(axle, "cooling.scale");
    out.push_back(part(axle, key, c.brake(axle).cooling.scale, "1",
                       given(c, key) ? assumed::kGivenCooling : assumed::kConvection,
                       [](Case& x, Axle a, double f) { brake(x, a).cooling.scale *= f; }));
  }
  return out;
}

Parts joint(const Case& c) {
  Parts out;
  if (c.physics.links.contains("ring_hat")) return out;
  for (const Axle axle : kAxles) {
    const session::Joint& j = c.brake(axle).rotor.joint;
    if (j.kind == session::JointKind::one_piece) continue;
    const std::string key = key_of(axle, "rotor.joint.conductance_scale");
    const Prior& prior = given(c, key)                            ? assumed::kGivenJoint
                         : j.kind == session::JointKind::floating ? assumed::kBobbinContact
                                                                  : assumed::kJointReality;
    out.push_back(part(axle, key, j.conductance_scale, "1", prior,
                       [](Case& x, Axle a, double f) { brake(x, a).rotor.joint.conductance_scale *= f; }));
  }
  return out;
}

Parts heat_split(const Case& c) {
  Parts out;
  if (c.physics.partition != session::Physics::Partition::contact) return out;
  for (const Axle axle : kAxles) {
    const std::string key = key_of(axle, "pads.contact");
    const std::optional<double>& contact = c.brake(axle).pads.contact;
    const bool known = contact && given(c, key);
    out.push_back(part(axle, key, contact.value_or(assumed::kPadContact), "W/m2/K",
                       known ? assumed::kGivenPadContact : assumed::kPadContact, [](Case& x, Axle a, double f) {
                         std::optional<double>& v = brake(x, a).pads.contact;
                         v = f * v.value_or(assumed::kPadContact);
                       }));
  }
  return out;
}

// An emissivity or a share, which ends at 1.
InputPart up_to_one(InputPart p) {
  p.factor.high = std::min(p.factor.high, std::max(1.0, 1 / p.value));
  return p;
}

Parts emissivity(const Case& c) {
  Parts out;
  if (!c.physics.radiation) return out;
  for (const Axle axle : kAxles) {
    const session::Rotor& rotor = c.brake(axle).rotor;
    const std::string ring = key_of(axle, "rotor.ring.emissivity"), hat = key_of(axle, "rotor.hat.emissivity");
    out.push_back(up_to_one(part(axle, ring, rotor.ring.emissivity, "1",
                                 given(c, ring) ? assumed::kGivenEmissivity : assumed::kFaceEmissivity,
                                 [](Case& x, Axle a, double f) { brake(x, a).rotor.ring.emissivity *= f; })));
    out.push_back(up_to_one(part(axle, hat, rotor.hat.emissivity, "1",
                                 given(c, hat) ? assumed::kGivenEmissivity : assumed::kHatEmissivity,
                                 [](Case& x, Axle a, double f) { brake(x, a).rotor.hat.emissivity *= f; })));
  }
  return out;
}

// A share that follows the load transfer is a yardstick and has no doubt; one by hydraulics hangs on the pads'
// friction.
Parts front_share(const Case& c) {
  if (c.brakes.share_law == session::ShareLaw::fixed) {
    const char* key = "brakes.front_share";
    return {up_to_one(part(Axle::front, key, c.brakes.front_share, "1",
                           given(c, key) ? assumed::kGivenFrontShare : assumed::kFrontShare,
                           [](Case& x, Axle, double f) { x.brakes.front_share *= f; }))};
  }
  if (c.brakes.share_law == session::ShareLaw::hydraulic)
    return {
        part(Axle::front, "brakes.front.pads.friction", 1, "1", assumed::kFrontFriction, [](Case& x, Axle, double f) {
          session::Pads& pads = x.brakes.front.pads;
          for (double& mu : pads.friction.values) mu *= f;
          pads.reference_friction *= f;
        })};
  return {};
}

Parts mass(const Case& c) {
  return {part(Axle::front, "car.mass", c.car.mass, "kg", assumed::kCarMass,
               [](Case& x, Axle, double f) { x.car.mass *= f; })};
}

// A boiling point that is wet, dry or read does not hang on the age.
Parts fluid_age(const Case& c) {
  Parts out;
  for (const Axle axle : kAxles) {
    const session::Fluid& fluid = c.brake(axle).fluid;
    if (fluid.judge != session::Fluid::Judge::aged || !fluid.age) continue;
    out.push_back(part(axle, key_of(axle, "fluid.age"), *fluid.age, "s", assumed::kFluidAge,
                       [](Case& x, Axle a, double f) { *brake(x, a).fluid.age *= f; }));
  }
  return out;
}

struct Entry {
  const char *key, *name, *reading;
  Parts (*parts)(const Case& c);
};

// The readings are common practice, no source.
constexpr Entry kEntries[] = {
    {"convection", "cooling by the air",
     "temperature paint or labels on the ring's edge, to which cooling.scale is fitted", convection},
    {"joint", "heat through the joint",
     "a paint stripe or label on the hat's flange, to which joint.conductance_scale is fitted", joint},
    {"heat_split", "pad contact, which splits the heat between pad and disc",
     "a label on a backing plate beside paint on the ring, to which pads.contact is fitted", heat_split},
    {"emissivity", "emissivity of disc and hat",
     "a pyrometer held against a contact probe on the same spot of a parked disc", emissivity},
    {"front_share", "front brake share", "line pressures of both axles, or a brake dynamometer", front_share},
    {"mass", "mass of the car", "the car on scales, with driver and fuel", mass},
    {"fluid_age", "water in the brake fluid", "a boiling tester in the reservoir, whose figure goes into fluid.judge",
     fluid_age},
};

}  // namespace

std::span<const char* const> input_keys() {
  static const std::vector<const char*> keys = [] {
    std::vector<const char*> out;
    for (const Entry& e : kEntries) out.push_back(e.key);
    return out;
  }();
  return keys;
}

std::vector<UncertainInput> uncertain_inputs(const Case& c, const std::set<std::string>& known) {
  std::vector<UncertainInput> out;
  for (const Entry& e : kEntries) {
    if (known.contains(e.key)) continue;
    UncertainInput input{e.key, e.name, e.reading, e.parts(c)};
    if (!input.parts.empty()) out.push_back(std::move(input));
  }
  return out;
}

void set_input(Case& c, const UncertainInput& input, double u) {
  for (const InputPart& p : input.parts)
    p.set(c, p.axle, p.factor.high > p.factor.low ? study::quantile(p.factor, u) : p.factor.likely);
}

}  // namespace hatring::answer
