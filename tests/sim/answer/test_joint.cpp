// SPDX-License-Identifier: MIT
// Ring stress, joint loads and their verdicts, through whole runs and through recorders fed by hand.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/answer/joint_load_recorder.hpp"
#include "sim/answer/joint_recorder.hpp"
#include "sim/answer/ring_stress_recorder.hpp"
#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"
#include "sim/network/assemble.hpp"

using namespace hatring;

namespace {

session::Case held(std::vector<std::string> set = {}) {
  set.insert(set.begin(), "session=[{hold: 20 s, speed: 90 km/h, heat: 20 kW}, {park: 60 s}]");
  return io::read_case("configs/demo.yaml", {.set = set}).c;
}

// One wheel's recorders, fed with temperatures of our own.
struct Hand {
  Hand(session::Case the_case, session::Axle which)
      : c(std::move(the_case)),
        axle(which),
        net(network::assemble(c, axle, 60)),
        node(Eigen::VectorXd::Constant(net.size(), 293.15)) {}
  // Ring with its lugs, hat and everything else, and fasteners each at one temperature [K].
  void show(double ring, double hat, double fastener, const solve::Load& load = {}) {
    for (int i = 0; i < net.size(); ++i) {
      const network::Part p = net.nodes[static_cast<std::size_t>(i)].part;
      node[i] = p == network::Part::ring || p == network::Part::lug ? ring
                : p == network::Part::fastener                      ? fastener
                                                                    : hat;
    }
    observe(load, ring);
  }
  //! \param skew inboard face above the outboard one [K]
  void observe(const solve::Load& load, double face, double skew = 0) { observe(moment(load, face, skew)); }
  void observe(const answer::Moments& now) {
    stress.observe(now);
    loads.observe(now, joint.observe(now));
  }
  [[nodiscard]] answer::Moments moment(const solve::Load& load, double face, double skew = 0) const {
    answer::Moments now;
    now.resize(1, net.size());
    now.node = node.transpose();
    now.load.set(0, load);
    now.face.resize(1, 2);
    now.face << face, face + skew;
    answer::Means parts;
    for (const network::Probe& probe : net.probes) parts.add(probe.weights);
    parts.find(now.node, now.part);
    return now;
  }
  [[nodiscard]] double last(const char* group, const char* name) const {
    for (const answer::Column& column : columns.list)
      if (column.group == group && column.name == name) return column.values.back();
    FAIL("no column " << name);
    return 0;
  }

  session::Case c;
  session::Axle axle;
  network::Network net;
  Eigen::VectorXd node;
  answer::Columns columns{1};
  answer::JointRecorder joint{c, axle, net, columns};
  answer::JointLoadRecorder loads{c, axle, net, columns};
  answer::RingStressRecorder stress{c, axle, net, columns};
};

const answer::Verdict* find(const answer::Answers& a, const char* axle, const char* key, const char* part = nullptr) {
  for (const answer::Verdict& v : a.verdicts)
    if (v.axle == axle && v.key == key && (part == nullptr || v.part == part)) return &v;
  return nullptr;
}

}  // namespace

TEST_CASE("joint: nothing loads it cold and a uniform ring has no stress") {
  Hand rear(held(), session::Axle::rear);
  rear.show(293.15, 293.15, 293.15);
  CHECK(rear.last("joint", "differential_expansion") == Approx(0).margin(1e-12));
  CHECK(rear.last("joint", "fastener_load") == Approx(0).margin(1e-6));
  CHECK(rear.last("joint", "preload") == Approx(rear.c.brakes.rear.rotor.joint.preload));
  CHECK(rear.last("stress", "utilisation") == Approx(0).margin(1e-9));
  rear.show(673.15, 293.15, 293.15);
  CHECK(rear.last("stress", "bore_hoop") == Approx(0).margin(1e3));
  CHECK(rear.last("stress", "face_hoop") == Approx(0).margin(1e3));
}

TEST_CASE("joint: the load's sign does not matter and grows with the expansion") {
  Hand rear(held(), session::Axle::rear);
  double before = -1;
  for (const double hat : {293.15, 313.15, 333.15, 363.15, 383.15}) {  // a cold ring in a hat that warms
    rear.show(293.15, hat, 293.15);
    const double load = rear.last("joint", "fastener_load");
    CHECK(rear.last("joint", "differential_expansion") <= 1e-12);
    CHECK(load > before);
    before = load;
  }
  // Friction holds up to what it can, and only beyond hole clearance do the bolts carry.
  CHECK(rear.last("joint", "fastener_load") == Approx(0.15 * rear.last("joint", "preload")).epsilon(0.01));
  CHECK(rear.last("joint", "fastener_carried") == Approx(0).margin(1e-6));
  CHECK(std::abs(rear.last("joint", "slip")) < rear.c.brakes.rear.rotor.joint.hole_clearance);
}

TEST_CASE("joint: preload gains while the hat is hot and what yields under the head is missing when cold") {
  Hand gentle(held(), session::Axle::rear);
  gentle.show(293.15, 373.15, 293.15);
  CHECK(gentle.last("joint", "preload") > gentle.c.brakes.rear.rotor.joint.preload);
  CHECK(gentle.last("joint", "preload_cold") == Approx(gentle.c.brakes.rear.rotor.joint.preload));
  Hand harsh(held(), session::Axle::rear);
  harsh.show(293.15, 573.15, 293.15);  // 6061-T6 has hardly any strength left at 300 degC
  harsh.show(293.15, 293.15, 293.15);
  CHECK(harsh.last("joint", "preload") == Approx(harsh.last("joint", "preload_cold")));
  CHECK(harsh.last("joint", "preload_cold") < 0.8 * harsh.c.brakes.rear.rotor.joint.preload);
}

TEST_CASE("joint: bobbins carry the brake's torque alone until the float is used up") {
  Hand front(held(), session::Axle::front);
  const solve::Load braking{.speed = 40, .heat = 100e3, .applied = 1};
  front.show(573.15, 333.15, 373.15, braking);
  const session::Car& car = front.c.car;
  const session::Joint& joint = front.c.brakes.front.rotor.joint;
  // Torque over half of the ten bobbins at 87 mm.
  const double torque = 100e3 * car.tyre_radius / (40 * (1 - car.tyre_slip_share));
  const double each = torque / (0.5 * joint.fasteners * joint.bolt_circle / 2);
  CHECK(front.last("joint", "fastener_load") == Approx(each).epsilon(1e-9));
  CHECK(front.last("joint", "clearance_outward") > 0);
  front.show(973.15, 333.15, 373.15, braking);
  CHECK(front.last("joint", "clearance_outward") < 0);
  CHECK(front.last("joint", "fastener_load") > 2 * each);
}

TEST_CASE("ring stress: a rim hotter than the bore pulls the bore as the closed form says") {
  Hand front(held({"physics.properties=constant"}), session::Axle::front);
  const double a = front.net.ring_bands.front().inner, b = front.net.ring_bands.back().outer;
  const double mid = 0.5 * (a + b);
  double cold = a, hot = b;  // centres of the bands on both sides of the step
  for (const network::RingBand& band : front.net.ring_bands) {
    const double centre = 0.5 * (band.inner + band.outer), t = 293.15 + (centre > mid ? 100 : 0);
    if (centre > mid)
      hot = std::min(hot, centre);
    else
      cold = centre;
    for (const auto& [n, weight] : band.mean) front.node[n] = t;
  }
  front.observe({}, 293.15);
  const models::Material& iron = front.c.materials.at("high_carbon_iron");
  // Hot outside a radius c, cold within: E alpha dT (b^2 - c^2)/(b^2 - a^2); the bands draw a ramp about c.
  const double strain = iron.mean_expansion(293.15) * 100;
  const double e = iron.youngs_modulus(343.15), c = 0.5 * (cold + hot);
  const double step = e * strain * (b * b - c * c) / (b * b - a * a);
  CHECK(front.last("stress", "bore_hoop") == Approx(step).epsilon(0.01));
  CHECK(front.last("stress", "lug_root") > front.last("stress", "bore_hoop"));
}

TEST_CASE("ring stress: two sides that are alike come out as two that are a hair apart") {
  Hand same(held(), session::Axle::front), apart(held(), session::Axle::front);
  for (const double face : {300.0, 900.0, 1150.0, 700.0, 420.0, 293.15}) {
    for (Hand* hand : {&same, &apart}) hand->node.setConstant(0.5 * (face + 400));
    same.observe({}, face);
    apart.observe({}, face, 1e-9);
    for (const answer::Column& column : same.columns.list)
      if (!column.not_applicable) {
        CAPTURE(face, column.name);
        CHECK(apart.last(column.group.c_str(), column.name.c_str()) ==
              Approx(column.values.back()).epsilon(1e-8).margin(1e-12));
      }
  }
  CHECK(same.last("stress", "face_residual") > 1e7);
}

TEST_CASE("joint and ring: moments looked at together come out as one after the other") {
  // Both sides alike, apart, or by turns.
  const auto skew_at = GENERATE(
      +[](int) { return 0.0; }, +[](int) { return 3.0; }, +[](int i) { return i % 3 == 1 ? 40.0 : 0.0; });
  Hand apart(held(), session::Axle::rear), together(held(), session::Axle::rear);
  const solve::Load braking{.speed = 30, .heat = 60e3, .applied = 1};
  answer::Moments all;
  constexpr int kMoments = 9;
  for (int i = 0; i < kMoments; ++i) {
    // Up until faces yield and the cold fasteners crush the hot hat, and down again.
    const double rise = 100 * (kMoments / 2 - std::abs(i - kMoments / 2));
    for (int k = 0; k < apart.net.size(); ++k) {
      const network::Part p = apart.net.nodes[static_cast<std::size_t>(k)].part;
      const double share = p == network::Part::hat ? 1 : p == network::Part::fastener ? 0 : 0.6 + 0.4 * std::sin(k);
      apart.node[k] = 293.15 + rise * share;
    }
    const solve::Load load = i % 2 == 0 ? braking : solve::Load{};
    const answer::Moments now = apart.moment(load, 293.15 + 1.5 * rise, skew_at(i));
    apart.observe(now);
    if (i == 0) {
      all.resize(kMoments, apart.net.size());
      all.face.resize(kMoments, 2);
      all.part.resize(kMoments, now.part.cols());
    }
    all.node.row(i) = now.node;
    all.load.set(i, load);
    all.face.row(i) = now.face;
    all.part.row(i) = now.part;
  }
  together.observe(all);
  REQUIRE(apart.columns.list.size() == together.columns.list.size());
  for (std::size_t k = 0; k < apart.columns.list.size(); ++k) {
    const answer::Column &a = apart.columns.list[k], &b = together.columns.list[k];
    CAPTURE(a.name);
    if (a.not_applicable) continue;
    REQUIRE(a.values.size() == kMoments);
    REQUIRE(b.values.size() == kMoments);
    for (std::size_t i = 0; i < kMoments; ++i) CHECK(b.values[i] == Approx(a.values[i]).epsilon(1e-12).margin(1e-15));
  }
  CHECK(apart.last("stress", "face_residual") > 1e6);
  CHECK(apart.last("joint", "preload_cold") < apart.c.brakes.rear.rotor.joint.preload);
}

TEST_CASE("ring stress: a face that yields while hot is left in tension when cold") {
  Hand front(held(), session::Axle::front);
  front.show(573.15, 333.15, 373.15);
  front.observe({}, 573.15 + 500);
  CHECK(front.last("stress", "face_hoop") < 0);
  CHECK(front.last("stress", "face_residual") > 50e6);
  front.show(293.15, 293.15, 293.15);
  CHECK(front.last("stress", "face_hoop") == Approx(front.last("stress", "face_residual")).epsilon(1e-6));
}

TEST_CASE("joint: a bolted one is judged on slip and grip and stress and a floating one on its play") {
  const answer::Run run = answer::run(held());
  for (const char* key : {"slip", "preload_left", "joint_stress", "shock", "sessions_left", "hat_strength"})
    CHECK(find(run.answers, "rear", key) != nullptr);
  for (const char* key : {"float", "play", "most_play", "joint_stress", "shock"})
    CHECK(find(run.answers, "front", key) != nullptr);
  CHECK(find(run.answers, "front", "slip") == nullptr);
  CHECK(find(run.answers, "rear", "play") == nullptr);
  const answer::Run one = answer::run(held({"brakes.rear.rotor.joint={kind: one_piece}"}));
  for (const char* key : {"slip", "preload_left", "joint_stress", "play", "hat_strength"})
    CHECK(find(one.answers, "rear", key) == nullptr);
  CHECK(find(one.answers, "rear", "shock") != nullptr);
  CHECK(std::any_of(one.answers.warnings.begin(), one.answers.warnings.end(),
                    [](const std::string& w) { return w.find("neck") != std::string::npos; }));
}

TEST_CASE("joint: more float than the session needs is told and is never worse than near") {
  const answer::Run run = answer::run(held({"brakes.front.rotor.joint.float=2 mm"}));
  const answer::Verdict* loose = find(run.answers, "front", "most_play");
  REQUIRE(loose != nullptr);
  CHECK(loose->level == answer::Level::near);
  CHECK(loose->value == Approx(2e-3 - run.answers.front.joint.needed_float));
}

TEST_CASE("joint: materials without strength leave loads out and say nothing about them") {
  const answer::Run run =
      answer::run(held({"materials={odd: {density: 7800 kg/m3, conductivity: 40 W/m/K, specific_heat: 480 J/kg/K, "
                        "mean_expansion: 12e-6 1/K}}",
                        "brakes.rear.rotor.joint.material=odd"}));
  CHECK(run.history.rear.find("joint", "fastener_load")->not_applicable);
  CHECK_FALSE(run.history.rear.find("joint", "differential_expansion")->not_applicable);
  CHECK(find(run.answers, "rear", "joint_stress") == nullptr);
}

TEST_CASE("slip: a little beyond the clearance counts as near and row and margin and moment agree") {
  const auto slip_row = [](double clearance) {
    const answer::Run run =
        answer::run(held({"brakes.rear.rotor.joint.hole_clearance=" + std::to_string(1e3 * clearance) + " mm"}));
    const answer::Verdict* v = find(run.answers, "rear", "slip");
    REQUIRE(v != nullptr);
    return *v;
  };
  constexpr double kClearance = 0.5e-3;
  const double slip = kClearance - slip_row(kClearance).value;
  REQUIRE(slip > 1e-6);
  const answer::Verdict a_little = slip_row(0.9 * slip), much = slip_row(0.5 * slip);
  CHECK(a_little.value < 0);
  CHECK(a_little.level == answer::Level::near);
  CHECK(a_little.margin > 0);
  CHECK(answer::share_left(a_little) > 0);
  CHECK_FALSE(a_little.since);
  CHECK(much.level == answer::Level::exceeded);
  CHECK(much.margin < 0);
  CHECK(much.since);
}
