// SPDX-License-Identifier: MIT
// "Which fault is it": what the foot feels against what the run shows. Causes are common practice, no source.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/answer/pedal.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

std::string percent(double share) {
  return fmt::format("{:.0f} %", 100 * share);
}

template <class F>
const AxleAnswers& worse(const Answers& a, F value) {
  return value(a.rear) > value(a.front) ? a.rear : a.front;
}
const char* name_of(const Answers& a, const AxleAnswers& axle) {
  return &axle == &a.front ? "front" : "rear";
}

Symptom hard_and_dead(const session::Case& c, const Answers& a) {
  const AxleAnswers& axle = worse(a, [](const AxleAnswers& x) { return x.pedal.fade; });
  Symptom s{.pedal = "hard and dead: firm pedal, little braking, worse as the laps go by",
            .cause = "pad fade: the friction falls with heat; the hydraulics are sound",
            .action = "back off for a lap; a compound for higher temperatures, or less heat a lap"};
  s.seen = c.limits.fade > 0 && axle.pedal.fade > c.limits.fade;
  s.shows = axle.pedal.fade > 0 ? fmt::format("{} pads lose up to {} of their reference friction, {}", name_of(a, axle),
                                              percent(axle.pedal.fade), in_words(axle.pedal.fade_place))
                                : "no loss of friction above the middle of the pads' window";
  return s;
}

Symptom hard_when_cold(const session::Case& c, const Answers& a) {
  const auto share = [](const AxleAnswers& x) {
    const double all = x.pads.below + x.pads.inside + x.pads.above;
    return all > 0 ? x.pads.below / all : 0;
  };
  const AxleAnswers& axle = worse(a, share);
  Symptom s{.pedal = "wooden at first: little bite on the first stops, better later, or never",
            .cause = "pads below their window, or glazed by working there",
            .action = "warm them over a lap; a compound that works colder; close the ducts"};
  s.seen = c.limits.cold_share > 0 && share(axle) > c.limits.cold_share;
  s.shows =
      fmt::format("{} pads are below their window for {} of the braking time", name_of(a, axle), percent(share(axle)));
  return s;
}

Symptom long_and_soft(const session::Case& c, const Answers& a) {
  const auto margin = [](const AxleAnswers& x) { return x.fluid.peak - x.fluid.boiling_judged; };
  const AxleAnswers& axle = worse(a, margin);
  Symptom s{.pedal = "long and soft: the pedal sinks, pumping brings some of it back",
            .cause = "vapour in the fluid, or air that was never bled; often on the lap after standing in the pits",
            .action =
                "stop for the day; fresh fluid, bleed, roll longer before parking; shims or pistons that conduct "
                "less"};
  s.seen = axle.fluid.boiling_judged > 0 && margin(axle) > -c.limits.fluid_margin;
  const char* compared = margin(axle) > 0 ? "above" : s.seen ? "closer than the margin to" : "below";
  s.shows = fmt::format("{} fluid peaks {}{}, {} its {} boiling point", name_of(a, axle), in_words(axle.fluid.place),
                        axle.fluid.after_parking && axle.fluid.place.span != "parked" ? " after the car stopped" : "",
                        compared, axle.fluid.basis);
  return s;
}

Symptom long_first_stroke(const session::Case& c, const Answers& a) {
  Symptom s{.pedal = "long on the first stroke and normal on the second",
            .cause = "knock-back: the disc pushed the pads away (float, run-out, bearings, a coned ring)",
            .action = "a light press before the braking point; check wheel bearings, run-out, axial float and bobbins"};
  // Heat can only speak of the joint that locks; run-out and bearings are not in the model.
  const auto used = [](const AxleAnswers& x) {
    return x.joint.float_clearance > 0 ? std::max(x.joint.largest, -x.joint.smallest) / x.joint.float_clearance : 0;
  };
  const AxleAnswers& axle = worse(a, used);
  const double share = used(axle);
  s.seen = share > 1;
  if (share > 1)
    s.shows = fmt::format("{} joint uses up its float: a ring held this way cones and pushes the pads back",
                          name_of(a, axle));
  else if (share > 0)
    s.shows = fmt::format("{} joint uses {} of its radial float; run-out and bearings are not in the model",
                          name_of(a, axle), percent(share));
  else
    s.shows = "nothing: no joint floats here, run-out and bearings are not in the model";
  const double axial = std::max(c.brakes.front.rotor.joint.axial_float, c.brakes.rear.rotor.joint.axial_float);
  constexpr double kMuch = 0.5e-3;  // axial float that is felt, common practice, no source [m]
  if (axial > kMuch) s.shows += "; the axial float alone is enough to be felt";
  return s;
}

}  // namespace

std::vector<Symptom> symptoms(const session::Case& c, const Answers& a) {
  return {hard_and_dead(c, a), hard_when_cold(c, a), long_and_soft(c, a), long_first_stroke(c, a)};
}

}  // namespace hatring::answer
