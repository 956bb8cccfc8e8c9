// SPDX-License-Identifier: MIT
#include "sim/answer/cooldown.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <tuple>

#include "sim/network/assumed.hpp"

namespace hatring::answer {
namespace {

constexpr double kSameShare = 1e-6;     // of a limit: less is none at all
constexpr double kClearShare = 0.05;    // of a limit: a smaller difference is not worth a word
constexpr double kClearLength = 20e-6;  // of a clearance: nobody makes or measures one better [m]
constexpr double kAmple = 0.5;          // of a limit: where that much is left, nothing is worth a word

const Verdict* find(const Outcome& outcome, const Verdict& like) {
  const auto found = std::find_if(outcome.verdicts.begin(), outcome.verdicts.end(),
                                  [&](const Verdict& v) { return same_limit(v, like); });
  return found == outcome.verdicts.end() ? nullptr : &*found;
}

std::size_t choose(const std::vector<Outcome>& plans) {
  std::size_t best = 0;
  const auto rank = [](const Outcome& o) {
    return o.holds ? std::tuple(0, o.cost, -o.left) : std::tuple(1, -o.left, o.cost);
  };
  for (std::size_t i = 1; i < plans.size(); ++i)
    if (rank(plans[i]) < rank(plans[best])) best = i;
  return best;
}

// Passed at any moment up to the end of the session's own hot laps, whether still over there or not.
std::vector<Verdict> broken_before(const HotRun& hot, std::size_t lap) {
  const std::vector<Verdict> all = judge_part(hot.c, hot.drive, up_to(hot.history, hot.after[lap].time), true);
  std::vector<Verdict> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out),
               [](const Verdict& v) { return v.level == Level::exceeded && v.key != "pad_print"; });
  return out;
}

std::vector<Verdict> lost_by_all(const std::vector<Outcome>& plans, const Outcome& chosen) {
  std::vector<Verdict> out;
  for (const Verdict& v : chosen.verdicts) {
    if (!counts_for_plan(v) || v.level != Level::exceeded) continue;
    const bool all = std::all_of(plans.begin(), plans.end(), [&](const Outcome& o) {
      const Verdict* other = find(o, v);
      return other != nullptr && counts_for_plan(*other) && other->level == Level::exceeded;
    });
    if (all) out.push_back(v);
  }
  return out;
}

// Whether a plan leaves clearly less than parking at once.
bool clearly_less(const Verdict& v, const Verdict& gentle) {
  return share_left(v) < share_left(gentle) - kClearShare && (v.unit != "m" || v.margin < gentle.margin - kClearLength);
}

// Heat that falls too fast, and a joint that is pulled the other way: what cooling itself can do.
std::vector<Harm> harms(const std::vector<Outcome>& plans, std::size_t chosen) {
  constexpr std::array kByCooling{"cooling_rate", "float", "play", "slip", "shock", "joint_stress", "preload_left"};
  std::vector<Harm> out;
  for (const Verdict& gentle : plans.front().verdicts) {
    if (gentle.level == Level::unknown ||
        std::find(kByCooling.begin(), kByCooling.end(), gentle.key) == kByCooling.end())
      continue;
    Harm harm{.gentle = gentle, .harsh = gentle};
    double least = kAmple;
    for (std::size_t i = 1; i < plans.size(); ++i) {
      const Verdict* v = find(plans[i], gentle);
      if (v == nullptr || share_left(*v) >= least || !clearly_less(*v, gentle)) continue;
      least = share_left(*v);
      harm.harsh = *v;
      harm.plan = i;
    }
    if (harm.plan == 0) continue;
    const Verdict* v = find(plans[chosen], gentle);
    harm.chosen = v != nullptr && clearly_less(*v, gentle);
    out.push_back(std::move(harm));
  }
  return out;
}

// The cheapest of the plans that hold in the likely air which holds in both others too.
std::optional<std::size_t> cheapest_over_band(const std::vector<Outcome>& plans, PlanRunner& little, PlanRunner& much) {
  std::vector<std::size_t> left;
  for (std::size_t i = 0; i < plans.size(); ++i)  // in the order in which plans share the most
    if (plans[i].holds && little.run(plans[i].plan).holds) left.push_back(i);
  std::stable_sort(left.begin(), left.end(),
                   [&](std::size_t a, std::size_t b) { return plans[a].cost < plans[b].cost; });
  const auto found =
      std::find_if(left.begin(), left.end(), [&](std::size_t i) { return much.run(plans[i].plan).holds; });
  return found == left.end() ? std::nullopt : std::optional(*found);
}

}  // namespace

std::vector<std::size_t> mark_unbeaten(std::vector<Outcome>& plans) {
  std::vector<std::size_t> order(plans.size()), out;
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::tuple(plans[a].cost, -plans[a].left) < std::tuple(plans[b].cost, -plans[b].left);
  });
  for (const std::size_t i : order) {
    plans[i].unbeaten = out.empty() || plans[i].left > plans[out.back()].left + kSameShare;
    if (plans[i].unbeaten) out.push_back(i);
  }
  return out;
}

Cooldown search_cooldown(const session::Case& c, const HotRun& hot, const RunOptions& options,
                         const std::function<void(std::size_t, std::size_t)>& tell) {
  Cooldown out;
  out.hot_laps = std::get<session::DriveStep>(c.session[last_hot_step(c)]).laps;
  const auto lap = static_cast<std::size_t>(out.hot_laps - 1);
  PlanRunner runner(hot, lap, options);
  const std::vector<Plan> plans = plans_of(c.cooldown);
  out.plans.reserve(plans.size());
  for (const Plan& plan : plans) {
    out.plans.push_back(runner.run(plan));
    if (tell) tell(out.plans.size(), plans.size());
  }
  out.unbeaten = mark_unbeaten(out.plans);
  out.chosen = choose(out.plans);
  out.holds = out.best().holds;
  out.broken_before = broken_before(hot, lap);
  if (!out.holds) out.lost_by_all = lost_by_all(out.plans, out.best());
  out.harms = harms(out.plans, out.chosen);
  (void)runner.run(out.best().plan, &out.chosen_history);
  (void)runner.run(out.park_now().plan, &out.park_now_history);
  if (c.physics.convection) return out;

  const HotRun little =
                   run_hot(c, out.hot_laps, network::assumed::kConvection.low / network::assumed::kConvection, options),
               much = run_hot(c, out.hot_laps, network::assumed::kConvection.high / network::assumed::kConvection,
                              options);
  PlanRunner in_little(little, lap, options), in_much(much, lap, options);
  const auto band = [&](const Plan& plan) { return OutcomeBand{in_little.run(plan), in_much.run(plan)}; };
  out.band_chosen = band(out.best().plan);
  out.band_park_now = band(out.park_now().plan);
  if (out.holds) out.surest = cheapest_over_band(out.plans, in_little, in_much);
  return out;
}

}  // namespace hatring::answer
