// SPDX-License-Identifier: MIT
#include "sim/answer/fluid_point.hpp"

#include "models/fluid.hpp"
#include "sim/answer/pedal_answers.hpp"

namespace hatring::answer {

BoilingPoint boiling_point_of(const session::Fluid& fluid) {
  BoilingPoint out{.judged = fluid.wet_boiling, .basis = "wet", .water = kNone, .aged = kNone};
  if (fluid.age) {
    out.water = models::water_content(*fluid.age);
    out.aged = models::boiling_point(fluid.dry_boiling, fluid.wet_boiling, out.water);
  }
  using Judge = session::Fluid::Judge;
  if (fluid.judge == Judge::dry) {
    out.judged = fluid.dry_boiling;
    out.basis = "dry";
  } else if (fluid.judge == Judge::aged && fluid.age) {
    out.judged = out.aged;
    out.basis = "aged";
  } else if (fluid.judge == Judge::own) {
    out.judged = fluid.own_boiling;
    out.basis = "your own";
  }
  return out;
}

}  // namespace hatring::answer
