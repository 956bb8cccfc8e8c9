// SPDX-License-Identifier: MIT
// Cases side by side against the same ones alone, for every width of lanes that this machine has.
#include <catch2/catch.hpp>
#include <cmath>
#include <future>
#include <optional>

#include "sim/answer/band.hpp"
#include "sim/answer/run_many.hpp"
#include "sim/io/read_case.hpp"
#include "sim/session/error.hpp"
#include "sim/solve/error.hpp"

using namespace hatring;
using answer::Answers;
using session::Case;

namespace {

constexpr double kClose = 0.1;  // a session's error at the default tolerance is 0.04 K, once on either side [K]

Case two_laps(const std::vector<std::string>& set = {}, session::Mesh mesh = session::Mesh::coarse) {
  std::vector<std::string> all{
      "session=[{laps: 2, trace: tracks/tern_hollow.yaml}, {cooldown_laps: 1, trace: tracks/tern_hollow.yaml}, "
      "{park: 3 min}]"};
  all.insert(all.end(), set.begin(), set.end());
  return io::read_case("configs/demo.yaml", {.set = all, .mesh = mesh}).c;
}

// Other cooling, shares, ages, iron and initial heat; the same laps.
std::vector<Case> sweep(std::size_t count, const Case& base) {
  std::vector<Case> out(count, base);
  for (std::size_t i = 0; i < count; ++i) {
    const double x = static_cast<double>(i);
    for (session::Brake* brake : {&out[i].brakes.front, &out[i].brakes.rear}) {
      brake->cooling.scale *= 0.7 + 0.1 * x;
      brake->rotor.ring.emissivity *= 1 - 0.1 * x;
      brake->rotor.joint.conductance_scale *= 1 + x;
    }
    out[i].brakes.front_share *= 1 - 0.03 * std::floor(x / 2);  // two are driven alike
    if (i % 3 == 2) out[i].brakes.front.rotor.hat.material = "ti_6al_4v";
    out[i].initial.everything = 300 + 5 * x;
  }
  return out;
}

std::vector<std::optional<Answers>> many(const std::vector<Case>& cases, const answer::RunOptions& options = {},
                                         std::vector<std::exception_ptr>* faults = nullptr) {
  std::vector<std::optional<Answers>> out(cases.size());
  const auto why = answer::run_many(
      cases, [&](std::size_t i, answer::Run run) { out.at(i) = run.answers; }, options);
  if (faults != nullptr) *faults = why;
  return out;
}

void check_peaks(const Answers& a, const Answers& b, double margin) {
  for (const auto& [x, y] : {std::pair{&a.front, &b.front}, std::pair{&a.rear, &b.rear}})
    for (const auto& [name, peak] : x->peaks) {
      INFO(name);
      CHECK(y->peaks.at(name).value == Approx(peak.value).margin(margin).epsilon(0));
    }
}

void check_close(const Answers& a, const Answers& b) {
  check_peaks(a, b, kClose);
  REQUIRE(a.verdicts.size() == b.verdicts.size());
  for (const answer::Verdict& v : a.verdicts) {
    INFO(v.key);
    const answer::Verdict* other = answer::counterpart(b, v);
    REQUIRE(other != nullptr);
    CHECK(other->level == v.level);
  }
  CHECK(a.front.balance.friction == Approx(b.front.balance.friction).epsilon(1e-4));  // summed up over the steps
}

}  // namespace

TEST_CASE("cases side by side are answered as alone in lanes of every width") {
  const std::vector<Case> cases = sweep(7, two_laps());
  std::vector<Answers> alone;
  for (const Case& c : cases) alone.push_back(answer::run(c).answers);
  for (const int lanes : {1, 2, 4, 8}) {
    answer::RunOptions options;
    options.lanes = lanes;
    const auto together = many(cases, options);
    for (std::size_t i = 0; i < cases.size(); ++i) {
      CAPTURE(lanes, i);
      REQUIRE(together[i]);
      check_close(alone[i], *together[i]);
      if (lanes == 1) check_peaks(alone[i], *together[i], 0);
    }
  }
}

TEST_CASE("on the standard network side by side keeps within the tolerance and closes the balance") {
  const std::vector<Case> cases = sweep(4, two_laps({}, session::Mesh::standard));
  const auto together = many(cases);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    check_close(answer::run(cases[i]).answers, together[i].value());
    for (const answer::AxleAnswers* axle : {&together[i]->front, &together[i]->rear})
      CHECK(std::abs(axle->balance.residual) < 1e-7 * axle->balance.friction);
  }
}

TEST_CASE("as many go side by side as there are lanes, and none where single precision would show") {
  const int before = solve::limit_lanes(8);
  answer::RunOptions options;
  CHECK(answer::side_by_side(1, options) == 1);
  CHECK(answer::side_by_side(2, options) == 1);
  CHECK(answer::side_by_side(3, options) == 3);
  CHECK(answer::side_by_side(8, options) == 8);
  CHECK(answer::side_by_side(11, options) == 8);
  for (const int lanes : {1, 0, -3}) {
    options.lanes = lanes;
    CHECK(answer::side_by_side(8, options) == 1);
  }
  options = {};
  options.step.tolerance.absolute = 5e-4;
  CHECK(answer::side_by_side(8, options) == 1);
  options = {};
  options.tableau = &solve::rodas3();
  CHECK(answer::side_by_side(8, options) == 1);
  (void)solve::limit_lanes(1);
  CHECK(answer::side_by_side(8, {}) == 1);
  (void)solve::limit_lanes(before);
}

TEST_CASE("cases with other parts or another drive go by themselves and come out to the last bit as alone") {
  const std::vector<Case> cases{two_laps(), two_laps({"brakes.front.rotor.joint={kind: one_piece}"}),
                                two_laps({"car.mass=800 kg"}), two_laps({"session.0.laps=1"})};
  const auto together = many(cases);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i);
    check_peaks(answer::run(cases[i]).answers, together[i].value(), 0);
  }
}

TEST_CASE("cars a little heavier brake a moment apart, go side by side and are answered as alone") {
  for (const session::Mesh mesh : {session::Mesh::coarse, session::Mesh::standard}) {
    std::vector<Case> cases;
    for (const char* mass : {"1000 kg", "1003 kg", "1007 kg", "1010 kg"})
      cases.push_back(two_laps({std::string("car.mass=") + mass}, mesh));
    REQUIRE(session::Drive(cases.front()).restarts() != session::Drive(cases.back()).restarts());
    std::vector<double> seconds;
    std::vector<std::optional<Answers>> together(cases.size());
    const auto faults = answer::run_many(cases, [&](std::size_t i, answer::Run run) {
      seconds.push_back(run.history.front_work.seconds);
      together[i] = run.answers;
    });
    for (std::size_t i = 0; i < cases.size(); ++i) {
      CAPTURE(i);
      REQUIRE(together[i]);
      check_close(answer::run(cases[i]).answers, *together[i]);
      if (solve::lanes_kernel(4) != nullptr) CHECK(seconds[i] == seconds.front());  // one recording
    }
  }
}

TEST_CASE("one bad case spoils nothing for its neighbours") {
  std::vector<Case> cases = sweep(5, two_laps());
  cases[1].materials.erase(cases[1].brakes.front.rotor.hat.material);  // cannot be made ready
  cases[3].brakes.hot_side_factor = 1e6;                               // takes steps without end
  answer::RunOptions options;
  options.step.most_steps = 5000;
  std::vector<std::exception_ptr> faults;
  const auto together = many(cases, options, &faults);
  for (const std::size_t i : {0U, 2U, 4U}) {
    CHECK_FALSE(faults[i]);
    check_peaks(answer::run(cases[i]).answers, together[i].value(), 0);
  }
  REQUIRE_FALSE(together[1]);
  REQUIRE_FALSE(together[3]);
  CHECK_THROWS_AS(std::rethrow_exception(faults[1]), session::CaseError);
  CHECK_THROWS_AS(std::rethrow_exception(faults[3]), solve::SolveError);
}

TEST_CASE("side by side a share by hydraulics settles for each case by itself") {
  const auto snubs = [](const std::string& friction) {
    return io::read_case("configs/demo_hydraulic.yaml",
                         {.set = {"session=[{snubs: {count: 8, from: 150 km/h, to: 60 km/h, deceleration: 6 m/s2, "
                                  "every: 12 s}}, {park: 1 min}]",
                                  "brakes.front.pads.friction=" + friction},
                          .mesh = session::Mesh::lump})
        .c;
  };
  const std::vector<Case> cases{snubs("0.4"),
                                snubs("{temperature: {unit: degC, values: [50, 300, 600]}, values: [0.3, 0.5, 0.25]}")};
  const auto together = many(cases);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Answers alone = answer::run(cases[i]).answers;
    REQUIRE(alone.brake_balance.law == "hydraulic");
    check_close(alone, together[i].value());
    CHECK(together[i]->brake_balance.settled == alone.brake_balance.settled);
    CHECK(together[i]->brake_balance.lowest == Approx(alone.brake_balance.lowest).margin(1e-3));
  }
}

TEST_CASE("tasks that know nothing of each other may be done at the same time and in any order") {
  const std::vector<Case> cases = sweep(3, two_laps());
  answer::RunOptions at_once;
  at_once.together = [](const answer::Tasks& tasks) {
    std::vector<std::future<void>> running;
    for (auto task = tasks.rbegin(); task != tasks.rend(); ++task)
      running.push_back(std::async(std::launch::async, *task));
    for (std::future<void>& r : running) r.get();
  };
  const auto one_by_one = many(cases), together = many(cases, at_once);
  for (std::size_t i = 0; i < cases.size(); ++i) check_peaks(one_by_one[i].value(), together[i].value(), 0);
}

TEST_CASE("side by side a day whose air changes is carried over lane by lane") {
  const Case day =
      two_laps({"session=[{laps: 1, trace: tracks/tern_hollow.yaml}, {park: 20 min, air: {temperature: 10 degC}}]"});
  const std::vector<Case> cases = sweep(3, day);
  const auto together = many(cases);
  for (std::size_t i = 0; i < cases.size(); ++i) check_close(answer::run(cases[i]).answers, together[i].value());
}
