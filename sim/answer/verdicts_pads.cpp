// SPDX-License-Identifier: MIT
// Pads, caliper and fluid.
#include <fmt/format.h>

#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {

void judge_pads(Bench& b) {
  const session::Pads& pads = b.brake.pads;
  const bool own = b.c.limits.pad > 0;
  below(b, "pad", "pad", "peak temperature of the rubbing surface", "pad_outboard",
        own ? b.c.limits.pad : pads.window_high,
        own ? limit_reason(b.c, "pad") : std::string("top of the pad's window"),
        same("Expect fade: brake earlier, or choose a compound for higher temperatures."));
  const std::vector<double>* v = b.values("temperature", "pad_outboard");
  if (!v || !(pads.window_low > 0)) return;
  // Too cold is a fault too: judged on the hottest moment of the hot laps.
  bool any = false;
  std::size_t best = 0;
  for (const session::Span& s : b.drive.spans()) {
    if (s.lap == 0 || s.phase != session::Phase::driving) continue;
    const Rows rows = rows_of(s, b.time);
    if (rows.first >= rows.last) continue;
    const std::size_t i = highest(*v, rows);
    if (!any || (*v)[i] > (*v)[best]) best = i;
    any = true;
  }
  if (!any || (*v)[best] >= pads.window_low) return;
  b.out.push_back({.axle = b.history.axle,
                   .key = "pad_window",
                   .part = "pad",
                   .aspect = "too cold",
                   .what = "never as warm as their window",
                   .level = Level::near,
                   .value = (*v)[best],
                   .limit = pads.window_low,
                   .margin = (*v)[best] - pads.window_low,
                   .scale = pads.window_low - b.c.air.temperature,
                   .unit = "K",
                   .place = place_at(b.drive, b.time[best]),
                   .reason = "bottom of the pad's window",
                   .advice = "Weak bite and glazing: choose a compound that works colder, or close the ducts."});
}

void judge_caliper(Bench& b) {
  const session::Fluid& fluid = b.brake.fluid;
  const double boiling = fluid.judge_wet ? fluid.wet_boiling : fluid.dry_boiling;
  if (boiling > 0)
    below(b, "fluid", "brake fluid", "peak temperature in the caliper", "fluid", boiling - b.c.limits.fluid_margin,
          fmt::format("{} boiling point less limits.fluid_margin", fluid.judge_wet ? "wet" : "dry"),
          {"Run fewer hot laps in a row, and use fresh fluid with a higher wet boiling point.",
           "Roll longer before you park, and use fresh fluid with a higher wet boiling point."});
  below(b, "caliper", "caliper", "peak temperature of the body", "caliper", b.c.limits.caliper,
        limit_reason(b.c, "caliper"), same("Seals age fast at this heat: inspect them; duct air to the caliper."));
}

}  // namespace hatring::answer
