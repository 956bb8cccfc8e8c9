// SPDX-License-Identifier: MIT
#include "tools/bench/cooldown.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <memory>
#include <vector>

#include "sim/answer/cooldown.hpp"
#include "sim/io/read_case.hpp"

namespace hatring::bench {
namespace {

constexpr std::size_t kPlans = 200;

struct Search {
  explicit Search(session::Case the_case) : c(std::move(the_case)) {
    c.cooldown.pace = {0.4, 0.5, 0.6, 0.7, 0.8};
    plans = answer::plans_of(c.cooldown);
    plans.resize(std::min(plans.size(), kPlans));
    laps = std::get<session::DriveStep>(c.session[answer::last_hot_step(c)]).laps;
    hot = answer::run_hot(c, laps);
    // The same plan as a session of its own: the hot laps of the case, then one cool-down lap, rolling and the soak.
    whole = hot->c;
    session::DriveStep cool = hot->cool;
    cool.laps = 1;
    for (const session::Step& step : {session::Step(cool), session::Step(session::RollStep{120, c.cooldown.roll_speed}),
                                      session::Step(session::ParkStep{c.cooldown.soak})})
      whole.session.push_back(step);
  }
  session::Case c, whole;
  std::vector<answer::Plan> plans;
  int laps = 0;
  std::optional<answer::HotRun> hot;
};

}  // namespace

void add_cooldown(const std::string& session) {
  const auto search = std::make_shared<const Search>(io::read_case(session, {}).c);
  benchmark::RegisterBenchmark("cooldown|plans|from the state", [search](benchmark::State& state) {
    for (auto _ : state) {
      answer::PlanRunner runner(*search->hot, static_cast<std::size_t>(search->laps - 1));
      for (const answer::Plan& plan : search->plans) (void)runner.run(plan);
    }
    state.counters["plans"] = static_cast<double>(search->plans.size());
  })->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("cooldown|session|again", [search](benchmark::State& state) {
    for (auto _ : state) (void)answer::run(search->whole);
  })->Unit(benchmark::kMillisecond);
}

}  // namespace hatring::bench
