// SPDX-License-Identifier: MIT
// What is used up over many sessions: judged from the answers, not from single moments.
#include <fmt/format.h>

#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {

void judge_life(Bench& b, const AxleAnswers& answers) {
  const Place end = whole_session(b.drive);
  const double limit = b.c.limits.sessions_left;
  for (const DamageRow& row : answers.damage) {
    // Fine heat checks of a face come much sooner than cracks through it, and are not predicted.
    if (row.part == "ring face") continue;
    // Lives can be wrong ten-fold: over only where even the likely life is too short, near where a tenth of it is.
    const double margin = row.sessions_left - limit;
    b.out.push_back(
        {.axle = b.history.axle,
         .key = "sessions_left",
         .part = row.part,
         .aspect = "life",
         .what = "further sessions like this one before cracks are likely",
         .level = level_of(margin, (kLifeBand - 1) * limit),
         .value = row.sessions_left,
         .limit = limit,
         .margin = margin,
         .unit = "sessions",
         .place = end,
         .reason = limit_reason(b.c, "sessions_left"),
         .advice = fmt::format("Look for cracks at the {} after every session, and plan its replacement.", row.part)});
  }
  const SofteningAnswer& soft = answers.softening;
  if (!soft.applicable) return;
  const double least = b.c.limits.hat_strength, margin = soft.strength_left - least;
  b.out.push_back({.axle = b.history.axle,
                   .key = "hat_strength",
                   .part = "hat",
                   .aspect = "softening",
                   .what = "proof strength left after all its hot hours, over that of new metal",
                   .level = level_of(margin, b.c.limits.near * (1 - least)),
                   .value = soft.strength_left,
                   .limit = least,
                   .margin = margin,
                   .scale = 1 - least,
                   .unit = "share",
                   .place = end,
                   .reason = limit_reason(b.c, "hat_strength"),
                   .advice = "Hours above 150 degC add up for good: have its hardness checked, or renew the hat."});
}

}  // namespace hatring::answer
