// SPDX-License-Identifier: MIT
// Pads, caliper and fluid.
#include <fmt/format.h>

#include "sim/answer/fluid_point.hpp"
#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {

void judge_pads(Bench& b) {
  const session::Pads& pads = b.brake.pads;
  const bool own = b.c.limits.pad > 0;
  below(b, "pad", "pad", "face", "peak temperature of the disc's face", "ring_face_outboard",
        own ? b.c.limits.pad : pads.window_high,
        own ? limit_reason(b.c, "pad") : std::string("top of the pad's window"),
        same("Expect fade: brake earlier, or choose a compound for higher temperatures."));
}

void judge_caliper(Bench& b) {
  const session::Fluid& fluid = b.brake.fluid;
  const BoilingPoint boiling = boiling_point_of(fluid);
  if (boiling.judged > 0)
    below(b, "fluid", "brake fluid", "", "peak temperature in the caliper", "fluid",
          boiling.judged - b.c.limits.fluid_margin,
          fmt::format("{} boiling point, less a margin for moisture and hot spots", boiling.basis),
          {"Run fewer hot laps in a row, and use fresh fluid with a higher wet boiling point.",
           "Roll longer before you park, and use fresh fluid with a higher wet boiling point."});
  below(b, "caliper", "caliper", "", "peak temperature of the body", "caliper", b.c.limits.caliper,
        limit_reason(b.c, "caliper"), same("Seals age fast at this heat: inspect them; duct air to the caliper."));
}

}  // namespace hatring::answer
