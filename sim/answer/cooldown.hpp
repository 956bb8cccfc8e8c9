// SPDX-License-Identifier: MIT
//! \file
//! The cool-down search: every plan of the case's `cooldown` after the last hot lap, the cheapest that holds every
//! limit, and those that nothing beats. A plan costs the time from the end of the last hot lap until the car stands,
//! and what fetching a fan counts as: laps cost track time, rolling costs paddock time, one minute as good as another.
//! Checked by tests/sim/answer/test_cooldown.cpp.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/answer/cooldown_plan.hpp"

namespace hatring::answer {

//! One plan in air that cools as little and as much as it plausibly may (network::assumed::kConvection), hot laps
//! included.
struct OutcomeBand {
  Outcome little, much;
};

//! A limit of which some plan leaves less than parking at once does, and less than half.
struct Harm {
  Verdict gentle;        //!< parking at once
  Verdict harsh;         //!< the plan that leaves least
  std::size_t plan = 0;  //!< that plan, index into Cooldown::plans
  bool chosen = false;   //!< the chosen plan too leaves clearly less than parking at once
};

struct Cooldown {
  int hot_laps = 0;                    //!< of the session's last step of hot laps
  std::vector<Outcome> plans;          //!< in the order of plans_of(): parking at once first
  std::size_t chosen = 0;              //!< the cheapest plan that holds; if none does, the one that leaves most
  bool holds = false;                  //!< the chosen plan holds every limit that a cool-down can change
  std::vector<Verdict> broken_before;  //!< limits that the hot laps themselves pass
  std::vector<Verdict> lost_by_all;    //!< limits that no plan holds, as the chosen one leaves them
  std::vector<std::size_t> unbeaten;   //!< plans that no other beats in cost and in what is left, cheapest first
  std::optional<OutcomeBand> band_chosen, band_park_now;  //!< none when the case pins convection
  std::optional<std::size_t> surest;                      //!< the cheapest plan that holds over the whole band too
  std::vector<Harm> harms;
  History chosen_history, park_now_history;  //!< times from the end of the last hot lap

  [[nodiscard]] const Outcome& best() const { return plans[chosen]; }
  [[nodiscard]] const Outcome& park_now() const { return plans.front(); }
  [[nodiscard]] bool within() const { return holds && broken_before.empty(); }
  //! Over the whole band of cooling, where that was run.
  [[nodiscard]] bool holds_surely() const {
    return holds && (!band_chosen || (band_chosen->little.holds && band_chosen->much.holds));
  }
};

//! Marks the plans that no other beats: none costs no more and leaves more, or costs less and leaves as much.
//! \returns their indices, cheapest first
std::vector<std::size_t> mark_unbeaten(std::vector<Outcome>& plans);

//! \param hot with the number of hot laps that the case has, or more
//! \param tell called after every plan with how many are done and how many there are
//! \throws what run_hot() and PlanRunner throw
[[nodiscard]] Cooldown search_cooldown(const session::Case& c, const HotRun& hot, const RunOptions& options = {},
                                       const std::function<void(std::size_t, std::size_t)>& tell = {});

// In words.
[[nodiscard]] std::string name_of(const Plan& plan);  //!< "1 lap at 0.65 pace, 2 min rolling"
//! The answer and why, without quantities that have units other than time.
[[nodiscard]] std::string first_sentence(const Cooldown& cooldown);
//! How sure it is, one sentence; empty when the case pins convection.
[[nodiscard]] std::string how_sure(const Cooldown& cooldown);

}  // namespace hatring::answer
