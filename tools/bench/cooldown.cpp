// SPDX-License-Identifier: MIT
// Plans of a cool-down from the state after the last hot lap, against running the whole session again for each.
// Usage: hatring_bench_cooldown [SESSION.yaml]
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <exception>
#include <vector>

#include "sim/answer/cooldown.hpp"
#include "sim/io/read_case.hpp"

namespace {

using namespace hatring;

constexpr std::size_t kPlans = 200;
constexpr int kRepeats = 5;

template <class F>
double fastest(F&& work) {
  double best = 1e300;
  for (int i = 0; i < kRepeats; ++i) {
    const auto started = std::chrono::steady_clock::now();
    work();
    best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count());
  }
  return best;
}

void run(const char* file) {
  session::Case c = io::read_case(file, {}).c;
  c.cooldown.pace = {0.4, 0.5, 0.6, 0.7, 0.8};
  std::vector<answer::Plan> plans = answer::plans_of(c.cooldown);
  plans.resize(std::min(plans.size(), kPlans));
  const int laps = std::get<session::DriveStep>(c.session[answer::last_hot_step(c)]).laps;
  const answer::HotRun hot = answer::run_hot(c, laps);

  const double from_state = fastest([&] {
    answer::PlanRunner runner(hot, static_cast<std::size_t>(laps - 1));
    for (const answer::Plan& plan : plans) (void)runner.run(plan);
  });
  // The same plan as a session of its own: the hot laps of the case, then one cool-down lap, rolling and the soak.
  session::Case whole = hot.c;
  session::DriveStep cool = hot.cool;
  cool.laps = 1;
  for (const session::Step& step : {session::Step(cool), session::Step(session::RollStep{120, c.cooldown.roll_speed}),
                                    session::Step(session::ParkStep{c.cooldown.soak})})
    whole.session.push_back(step);
  const double again = fastest([&] { (void)answer::run(whole); });
  const double plan = from_state / static_cast<double>(plans.size());
  fmt::print("{} plans from the state after the last hot lap: {:.2f} s, {:.0f} plans a second\n", plans.size(),
             from_state, 1 / plan);
  fmt::print("the whole session again: {:.1f} ms, {:.1f} times as long as a plan\n", 1e3 * again, again / plan);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    run(argc > 1 ? argv[1] : "configs/demo.yaml");
  } catch (const std::exception& e) {
    fmt::print(stderr, "hatring_bench_cooldown: {}\n", e.what());
    return 1;
  }
}
