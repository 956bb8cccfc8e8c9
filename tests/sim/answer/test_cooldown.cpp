// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include <fmt/format.h>

#include "sim/answer/cooldown.hpp"
#include "sim/answer/half_lap.hpp"
#include "sim/answer/hot_laps.hpp"
#include "sim/io/read_case.hpp"
#include "sim/session/error.hpp"

using namespace hatring;

namespace {

session::Case three_laps(std::vector<std::string> set = {}, session::Mesh mesh = session::Mesh::coarse) {
  set.insert(set.begin(), {"session.1.laps=3", "cooldown.most_laps=4"});
  return io::read_case("configs/demo.yaml", {.set = set, .mesh = mesh}).c;
}

const std::vector<double>& temperature(const answer::AxleHistory& h, const char* name) {
  return h.find("temperature", name)->values;
}

// Nothing but the ring's own temperatures can be passed.
std::vector<std::string> easy_joints() {
  return {"limits.shock=10",
          "limits.joint_stress=10",
          "limits.preload_left=0",
          "limits.hat_strength=0",
          "limits.face_rate=9999 K/s",
          "limits.cooling_rate=9999 K/s",
          "brakes.rear.rotor.joint={kind: one_piece}",
          "limits.hat=1000 degC",
          "limits.fastener=1000 degC",
          "limits.pad=1500 degC",
          "limits.fade=1",
          "limits.pedal_growth=5",
          "limits.hot_share=1",
          "limits.caliper=1000 degC",
          "brakes.front.fluid.judge=dry",
          "brakes.rear.fluid.judge=dry"};
}

double sampled(const std::vector<double>& time, const std::vector<double>& values, double t) {
  const auto next = std::lower_bound(time.begin(), time.end(), t);
  if (next == time.begin()) return values.front();
  const auto i = static_cast<std::size_t>(next - time.begin());
  const double w = (t - time[i - 1]) / (time[i] - time[i - 1]);
  return (1 - w) * values[i - 1] + w * values[i];
}

}  // namespace

TEST_CASE("restart: in two parts the history is that of one run, to the solver's tolerance") {
  const session::Case c = three_laps();
  const answer::Run whole = answer::run(c);
  const double cut = whole.drive.spans()[2].end;  // between two hot laps
  const answer::Wheels wheels = answer::assemble_wheels(c, answer::highest_speed(whole.drive));
  answer::Leg first = answer::record_leg(c, whole.drive, wheels, 0, cut, nullptr);
  const answer::Leg second =
      answer::record_leg(c, whole.drive, wheels, cut, whole.drive.duration(), &first.kept.back());
  append(c, first.history, second.history);
  const answer::History& h = first.history;
  REQUIRE(h.time == whole.history.time);
  for (const auto& [parts, one] :
       {std::pair{&h.front, &whole.history.front}, std::pair{&h.rear, &whole.history.rear}}) {
    for (const answer::Column& column : one->columns) {
      if (column.not_applicable || column.name == "residual") continue;  // that one is round-off
      INFO(column.group << "/" << column.name);
      const std::vector<double>& got = parts->find(column.group, column.name)->values;
      const auto [low, high] = std::minmax_element(column.values.begin(), column.values.end());
      // Each run is good to about 0.05 K; faces and pads under the brakes to ten times that.
      const double allowed = column.group == "temperature" ? 0.5 : 0.01 * (*high - *low) + 1e-9;
      double worst = 0;
      for (std::size_t i = 0; i < got.size(); ++i) worst = std::max(worst, std::abs(got[i] - column.values[i]));
      CHECK(worst <= allowed);
    }
    const auto& bulk = temperature(*one, "ring_mean");
    for (std::size_t i = 0; i < bulk.size(); i += 50)
      REQUIRE(temperature(*parts, "ring_mean")[i] == Approx(bulk[i]).margin(0.1));
  }
}

TEST_CASE("a plan from the checkpoint is the end of the whole session that has the plan's steps") {
  session::Case c = three_laps({"session.2.pace=0.65"});
  c.session.back() = session::RollStep{120, c.cooldown.roll_speed};
  c.session.emplace_back(session::ParkStep{c.cooldown.soak});
  const answer::Run whole = answer::run(c);
  const double flag = whole.drive.spans()[3].end;
  const answer::HotRun hot = answer::run_hot(c, 4);
  CHECK(hot.after[2].time == Approx(flag).margin(1e-9));
  answer::History h;
  const answer::Outcome o = answer::PlanRunner(hot, 2).run({1, 0.65, 120, false}, &h);
  CHECK(o.driving == Approx(whole.drive.spans().back().begin - flag).margin(1e-6));
  for (const char* name : {"ring_mean", "fluid", "hat_flange", "caliper"})
    for (double t = 0; t < h.time.back(); t += 10) {
      INFO(name << " at " << t);
      CHECK(sampled(h.time, temperature(h.front, name), t) ==
            Approx(sampled(whole.history.time, temperature(whole.history.front, name), flag + t)).margin(0.2));
    }
}

TEST_CASE("by hydraulics a plan goes on with the settled share, as the whole session does") {
  session::Case c =
      three_laps({"session.2.pace=0.65", "brakes.front_share=hydraulic",
                  "brakes.front.pads.friction={temperature: [20 degC, 200 degC, 600 degC], values: [0.45, "
                  "0.45, 0.25]}"},
                 session::Mesh::lump);
  c.session.back() = session::RollStep{120, c.cooldown.roll_speed};
  c.session.emplace_back(session::ParkStep{c.cooldown.soak});
  const answer::Run whole = answer::run(c);
  REQUIRE(whole.answers.brake_balance.settled);
  const double flag = whole.drive.spans()[3].end;
  const answer::HotRun hot = answer::run_hot(c, 3);
  answer::History h;
  const answer::Outcome o = answer::PlanRunner(hot, 2).run({1, 0.65, 120, false}, &h);
  const auto heat = [](const answer::History& x, const answer::AxleHistory& axle, double from, double to) {
    const auto& sum = axle.find("heat", "friction")->values;
    return sampled(x.time, sum, to) - sampled(x.time, sum, from);
  };
  const double end = o.driving;
  for (const auto& [part, one] : {std::pair{&h.front, &whole.history.front}, std::pair{&h.rear, &whole.history.rear}}) {
    const double wanted = heat(whole.history, *one, flag, flag + end);
    REQUIRE(wanted > 1e4);
    CHECK(heat(h, *part, 0, end) == Approx(wanted).epsilon(0.003));  // the fixed share would be off by a tenth
  }
}

TEST_CASE("plans are judged on pedal and pads too, on what the cool-down itself asks for") {
  const session::Case c =
      three_laps({"brakes.hydraulic.largest_effort=50 N", "limits.tyre_grip=1"}, session::Mesh::lump);
  const answer::HotRun hot = answer::run_hot(c, 3);
  const auto has = [](const std::vector<answer::Verdict>& verdicts, const char* key) {
    return std::any_of(verdicts.begin(), verdicts.end(), [&](const answer::Verdict& v) { return v.key == key; });
  };
  for (const char* key : {"fade", "pedal_growth", "effort", "rear_bias", "hot_share", "pad_left"}) {
    INFO(key);
    CHECK(has(hot.verdicts, key));
  }
  answer::PlanRunner runner(hot, 2);
  const answer::Outcome brisk = runner.run({1, 0.8, 0, false});
  for (const char* key : {"effort", "rear_bias"}) CHECK(has(brisk.verdicts, key));
  for (const char* key : {"hot_share", "cold_share", "pad_left", "ring_left"}) CHECK_FALSE(has(brisk.verdicts, key));
  const auto effort = [](const answer::Outcome& o) {
    return std::find_if(o.verdicts.begin(), o.verdicts.end(), [](const auto& v) { return v.key == "effort"; })->value;
  };
  CHECK(effort(brisk) > effort(runner.run({1, 0.5, 0, false})));
}

TEST_CASE("plans: parking at once comes first, each of the others once, a fan only where there is one") {
  session::CooldownPlans space;
  space.laps = {0, 0.5, 2};
  space.pace = {0.5, 0.8};
  space.roll = {0, 60};
  space.fan = 4;
  CHECK(answer::plans_of(space).size() == (1 + 2 * 2) * 2 * 2);
  CHECK(answer::plans_of(space).front().park_now());
  space.fan = 0;
  CHECK(answer::plans_of(space).size() == (1 + 2 * 2) * 2);
  space.laps = {1};
  space.roll = {60};
  CHECK(answer::plans_of(space).front().park_now());
  CHECK(answer::plans_of(space).size() == (1 + 2) * 2);
}

TEST_CASE("unbeaten plans are those that no other beats, found by trying all pairs") {
  std::vector<answer::Outcome> plans;
  unsigned seed = 7;
  const auto random = [&] { return static_cast<double>((seed = seed * 1103515245U + 12345U) >> 16U & 63U); };
  for (int i = 0; i < 200; ++i) plans.push_back({.cost = random(), .left = random() / 64});
  const std::vector<std::size_t> found = answer::mark_unbeaten(plans);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    bool beaten = false, twin_before = false;
    for (std::size_t k = 0; k < plans.size(); ++k) {
      const bool no_worse = plans[k].cost <= plans[i].cost && plans[k].left >= plans[i].left;
      beaten |= no_worse && (plans[k].cost < plans[i].cost || plans[k].left > plans[i].left);
      twin_before |= k < i && plans[k].cost == plans[i].cost && plans[k].left == plans[i].left;
    }
    CHECK(plans[i].unbeaten == (!beaten && !twin_before));
  }
  CHECK(std::is_sorted(found.begin(), found.end(),
                       [&](std::size_t a, std::size_t b) { return plans[a].cost < plans[b].cost; }));
}

TEST_CASE("longer rolling leaves a cooler ring at rest and never a hotter fluid, and a fan no hotter one either") {
  const session::Case c = three_laps();
  const answer::HotRun hot = answer::run_hot(c, 3);
  answer::PlanRunner runner(hot, 2);
  const answer::Outcome now = runner.run({});
  answer::Outcome before = now;
  for (const double roll : {60.0, 120.0, 300.0, 600.0}) {
    const answer::Outcome o = runner.run({0, 1, roll, false}), fan = runner.run({0, 1, roll, true});
    CHECK(o.front.at_rest < before.front.at_rest);
    CHECK(o.front.fluid < before.front.fluid + 0.05);
    CHECK(fan.front.fluid < o.front.fluid + 0.05);
    CHECK(fan.front.at_rest == o.front.at_rest);
    CHECK(o.cost > before.cost);
    CHECK(fan.cost == Approx(o.cost + c.cooldown.fan_time));
    before = o;
  }
}

TEST_CASE("the chosen plan is the cheapest that holds, and parking at once when that holds") {
  const auto search = [](std::vector<std::string> set) {
    set.insert(set.end(), {"cooldown.laps=[0, 1]", "cooldown.pace=0.65", "cooldown.roll=[0 min, 2 min, 5 min]",
                           "physics.convection={constant: 40 W/m2/K}"});
    for (const std::string& one : easy_joints()) set.push_back(one);
    const session::Case c = three_laps(set, session::Mesh::lump);
    return answer::search_cooldown(c, answer::run_hot(c, 3));
  };
  const answer::Cooldown easy = search({"limits.pad_print=900 degC", "limits.ring_mean=900 degC"});
  REQUIRE(easy.holds);
  CHECK(easy.chosen == 0);
  CHECK(!easy.band_chosen);

  const double hot = easy.park_now().front.at_rest - 273.15;
  const answer::Cooldown some = search({fmt::format("limits.pad_print={} degC", hot - 20)});
  REQUIRE(some.holds);
  CHECK(some.chosen != 0);
  CHECK_FALSE(some.park_now().holds);
  for (const answer::Outcome& o : some.plans)
    if (o.holds) CHECK(o.cost >= some.best().cost);
  CHECK(first_sentence(some).find("Parking at once would take") != std::string::npos);
  for (answer::Cooldown x : {easy, some}) {
    x.band_chosen.emplace();
    for (const bool surely : {false, true}) {
      x.band_chosen->little.holds = surely;
      x.band_chosen->much.holds = true;
      CHECK((first_sentence(x).find("cool-down, but not surely") == std::string::npos) == surely);
    }
  }

  const answer::Cooldown none = search({"limits.pad_print=35 degC"});
  CHECK_FALSE(none.holds);
  CHECK_FALSE(none.within());
  REQUIRE(none.lost_by_all.size() == 2);
  CHECK(none.lost_by_all.front().key == "pad_print");
  for (const answer::Outcome& o : none.plans) CHECK(o.left <= none.best().left);
  for (const answer::Cooldown* x : {&easy, &some, &none}) CHECK(first_sentence(*x).find(" safe") == std::string::npos);
}

TEST_CASE("a limit already over at the last hot lap's end is told, and no plan is blamed for it") {
  std::vector<std::string> set = easy_joints();
  for (const char* one : {"limits.ring_mean=100 degC", "limits.pad_print=900 degC", "cooldown.laps=0",
                          "cooldown.roll=0 s", "cooldown.fan=0 m/s"})
    set.emplace_back(one);
  const session::Case c = three_laps(set);
  const answer::Cooldown x = answer::search_cooldown(c, answer::run_hot(c, 3));
  CHECK(x.holds);
  CHECK_FALSE(x.within());
  REQUIRE_FALSE(x.broken_before.empty());
  CHECK(x.broken_before.front().key == "ring_mean");
}

TEST_CASE("limits that only laps beyond the session's own would pass are not told as passed") {
  std::vector<std::string> set = easy_joints();
  for (const char* one : {"cooldown.laps=0", "cooldown.roll=0 s", "cooldown.fan=0 m/s", "limits.pad_print=900 degC",
                          "physics.convection={constant: 40 W/m2/K}"})
    set.emplace_back(one);
  const session::Case loose = three_laps(set, session::Mesh::lump);
  const answer::HotRun run = answer::run_hot(loose, 6);
  const auto highest = [&](std::size_t lap) {
    const answer::History h = answer::up_to(run.history, run.after[lap].time);
    const auto& mean = temperature(h.front, "ring_mean");
    return *std::max_element(mean.begin(), mean.end()) - 273.15;
  };
  REQUIRE(highest(5) > highest(2) + 2);
  set.push_back(fmt::format("limits.ring_mean={} degC", 0.5 * (highest(2) + highest(5))));
  const session::Case c = three_laps(set, session::Mesh::lump);
  const auto told = [&](int laps) {
    session::Case longer = c;
    std::get<session::DriveStep>(longer.session[1]).laps = laps;
    const answer::Cooldown x = answer::search_cooldown(longer, answer::run_hot(longer, 6));
    return std::any_of(x.broken_before.begin(), x.broken_before.end(),
                       [](const answer::Verdict& v) { return v.key == "ring_mean"; });
  };
  CHECK_FALSE(told(3));
  CHECK(told(6));
}

TEST_CASE("half a lap is half its distance, from times or distances") {
  session::Trace by_time;
  by_time.time = {0, 10, 20, 30};
  by_time.speed = {10, 10, 30, 30};
  const session::Trace half = answer::first_half(by_time);
  double road = 0;
  for (std::size_t i = 1; i < half.time.size(); ++i)
    road += 0.5 * (half.speed[i - 1] + half.speed[i]) * (half.time[i] - half.time[i - 1]);
  CHECK(road == Approx(300).epsilon(0.02));  // of 600 m; speed and time both run straight in the last bit
  session::Trace by_distance;
  by_distance.distance = {0, 400, 1000};
  by_distance.speed = {10, 20, 30};
  by_distance.grade = {0, 0.1, 0};
  const session::Trace part = answer::first_half(by_distance);
  CHECK(part.distance.back() == 500);
  CHECK(part.speed.size() == 3);
  CHECK(part.grade.size() == 3);
  session::Trace still;
  still.time = {0, 1};
  still.speed = {0, 0};
  CHECK_THROWS_AS(answer::first_half(still), session::CaseError);
}

TEST_CASE("most hot laps: the lap before the one on which a limit is passed and rest laps stretch them") {
  const session::Case plain = three_laps(easy_joints(), session::Mesh::lump);
  const answer::HotRun run = answer::run_hot(plain, 4);
  // A limit that falls between the peaks of the second and of the third hot lap.
  const auto peak = [&](std::size_t from, std::size_t to) {
    const auto& mean = temperature(run.history.front, "ring_mean");
    double out = 0;
    for (std::size_t i = 0; i < mean.size(); ++i)
      if (run.history.time[i] >= run.after[from].time && run.history.time[i] <= run.after[to].time)
        out = std::max(out, mean[i]);
    return out;
  };
  const double limit = 0.5 * (peak(0, 1) + peak(1, 2)) - 273.15;
  std::vector<std::string> set = easy_joints();
  for (const std::string& one :
       {fmt::format("limits.ring_mean={} degC", limit), std::string("limits.ring_face=2000 degC"),
        std::string("limits.pad_print=1000 degC"), std::string("cooldown.rest_pace=0.5")})
    set.push_back(one);
  const session::Case c = three_laps(set, session::Mesh::lump);
  const answer::HotRun hot = answer::run_hot(c, answer::laps_to_search(c));
  const answer::HotLaps x = answer::search_hot_laps(c, hot, {});
  CHECK(x.driving.laps == 2);
  REQUIRE(x.driving.limit);
  CHECK(x.driving.limit->key == "ring_mean");
  CHECK(x.with_plan.laps <= x.driving.laps);
  REQUIRE(x.rests.size() == 3);
  for (const answer::RestRow& r : x.rests) {
    CHECK(r.rest_costs == Approx(x.lap_time).epsilon(0.02));  // at half the pace a lap takes twice as long
    CHECK(r.lap_costs == Approx(r.rest_costs / (r.every + 1)));
  }
  CHECK(x.rests.front().hot.laps >= x.rests.back().hot.laps);
}

TEST_CASE("a session without hot laps has nothing to cool down from") {
  const session::Case c = three_laps({"session=[{hold: 20 s, speed: 90 km/h, heat: 20 kW}, {park: 60 s}]"});
  CHECK_THROWS_AS(answer::last_hot_step(c), session::CaseError);
}
