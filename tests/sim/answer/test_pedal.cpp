// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "sim/answer/pedal.hpp"
#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;

namespace {

const std::string kSnubs = "{snubs: {count: 5, from: 140 km/h, to: 60 km/h, deceleration: 7 m/s2, every: 30 s}}";

session::Case snubs(std::vector<std::string> set) {
  set.insert(set.begin(), "session=[" + kSnubs + "]");
  return io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::lump}).c;
}

const answer::Verdict* verdict(const answer::Answers& a, const std::string& axle, const std::string& key) {
  const auto found = std::find_if(a.verdicts.begin(), a.verdicts.end(),
                                  [&](const answer::Verdict& v) { return v.axle == axle && v.key == key; });
  return found == a.verdicts.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("constant friction: recorded pressure and effort are those of a hand calculation") {
  const session::Case c =
      snubs({"brakes.front.pads.friction=0.4", "brakes.rear.pads.friction=0.4", "brakes.hot_side_factor=1.1"});
  const answer::Run run = answer::run(c);
  const auto& pressure = run.history.front.find("pedal", "pressure")->values;
  const auto& effort = run.history.front.find("pedal", "effort")->values;
  const session::Brake& b = c.brakes.front;
  const double area = b.caliper.pistons / 2.0 * std::numbers::pi / 4 * std::pow(b.caliper.piston_diameter, 2);
  const double radius = 0.25 * (b.rotor.ring.outer_diameter + b.rotor.ring.swept_inner_diameter);
  const double master = std::numbers::pi / 4 * std::pow(c.brakes.hydraulic.master_diameter, 2);
  std::size_t hint = 0;
  int compared = 0;
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    const session::Moment m = run.drive.at(run.history.time[i], hint);
    if (m.applied < 1) continue;
    // Force of the axle at the road, half of it on each wheel; torque = 2 mu p A r.
    const double force = m.brake_power / (m.speed * (1 - c.car.tyre_slip_share)) * c.brakes.front_share / 2;
    const double p = force * c.car.tyre_radius / (2 * 0.4 * area * radius);
    CHECK(pressure[i] == Approx(p).epsilon(1e-9));
    const double push = p * master;
    CHECK(effort[i] ==
          Approx(std::max(push / c.brakes.hydraulic.booster_gain, push - c.brakes.hydraulic.booster_assist) /
                 c.brakes.hydraulic.pedal_ratio)
              .epsilon(1e-9));
    ++compared;
  }
  CHECK(compared > 100);
  for (const answer::Corner& corner : run.answers.pedal.corners) {
    CHECK(corner.reachable);
    if (corner.place.span != "snub 1") CHECK(corner.front.growth == Approx(0).margin(0.015));  // rows fall elsewhere
    CHECK(corner.front.fade == Approx(0).margin(1e-9));
    CHECK(corner.front.face_rise == Approx(corner.front.bulk_rise));  // one lump: no skin to spike
  }
  CHECK(run.answers.pedal.unreachable == 0);
}

TEST_CASE("the face spikes in a braking and the ring as a whole follows") {
  session::Case c = snubs({});
  c.physics.mesh = session::Mesh::coarse;
  const answer::Run run = answer::run(c);
  REQUIRE(run.answers.pedal.corners.size() >= 5);
  for (const answer::Corner& corner : run.answers.pedal.corners)
    for (const answer::CornerAxle* axle : {&corner.front, &corner.rear}) {
      CHECK(axle->bulk_rise > 0);
      CHECK(axle->face_rise > 1.1 * axle->bulk_rise);
    }
}

TEST_CASE("friction that falls with heat: the pedal grows at the same corner and fade is counted") {
  const answer::Run run = answer::run(
      snubs({"brakes.front.pads.friction={temperature: [20 degC, 60 degC, 250 degC], values: [0.5, 0.5, 0.2]}",
             "brakes.front.pads.window=[30 degC, 100 degC]", "limits.fade=0.05", "limits.pedal_growth=0.05"}));
  const auto& corners = run.answers.pedal.corners;
  REQUIRE(corners.size() >= 5);
  CHECK(std::isnan(corners[0].front.growth));
  CHECK(corners[4].front.growth > 0.05);
  CHECK(corners[4].front.growth > corners[2].front.growth);
  // Same work at the same place: pressure grows as friction falls.
  CHECK(1 + corners[4].front.growth == Approx(corners[0].front.friction / corners[4].front.friction).epsilon(0.05));
  CHECK(verdict(run.answers, "front", "pedal_growth")->level == answer::Level::exceeded);
  CHECK(verdict(run.answers, "front", "fade")->level == answer::Level::exceeded);
  CHECK(run.answers.symptoms.front().seen);
}

TEST_CASE("a pedal that the driver cannot push: said where, and the braking gets longer by the missing energy") {
  const answer::Run strong = answer::run(snubs({"brakes.front.pads.friction=0.4", "brakes.rear.pads.friction=0.4"}));
  const double effort = strong.answers.pedal.highest_effort;
  // A driver with nine tenths of the force makes nine tenths of the pressure: no servo run-out down here.
  const answer::Run weak =
      answer::run(snubs({"brakes.front.pads.friction=0.4", "brakes.rear.pads.friction=0.4",
                         "brakes.hydraulic.largest_effort=" + std::to_string(0.9 * effort) + " N"}));
  CHECK(weak.answers.pedal.unreachable >= 5);
  const answer::Corner& corner = weak.answers.pedal.corners.front();
  CHECK_FALSE(corner.reachable);
  CHECK(std::string(corner.limited_by()) == "brakes");
  const double way = 0.5 * (corner.entry_speed + corner.exit_speed) * corner.duration;
  CHECK(corner.longer > 0.01 * way);
  CHECK(corner.longer < 0.12 * way);  // at most 1/0.9 - 1 of it; the force is not at its peak throughout
  CHECK(verdict(weak.answers, "front", "effort")->level == answer::Level::exceeded);
  CHECK(strong.answers.pedal.unreachable == 0);
}

TEST_CASE("window shares add up to the braking time and follow the window") {
  const auto pads = [](const std::string& window) {
    return answer::run(snubs({"brakes.front.pads.window=" + window})).answers.front.pads;
  };
  const answer::PadAnswer cold = pads("[800 degC, 900 degC]"), hot = pads("[-50 degC, -10 degC]"),
                          right = pads("[-50 degC, 900 degC]");
  CHECK(cold.below > 0);
  CHECK(cold.below == Approx(hot.above).epsilon(1e-9));
  CHECK(cold.below == Approx(right.inside).epsilon(1e-9));
  CHECK(cold.inside + cold.above + hot.below + hot.inside + right.below + right.above == 0);
}

TEST_CASE("wear by hand when heat adds nothing: half of the friction work on each pad") {
  const answer::Run run =
      answer::run(snubs({"brakes.front.pads.wear={rate: 50 mm3/MJ, ring_rate: 20 mm3/MJ, "
                         "onset: 999 degC, doubling: 10 K}",
                         "brakes.front.rotor.ring.minimum_thickness=23 mm"}));
  const session::Case c = snubs({});
  const answer::PadAnswer& p = run.answers.front.pads;
  const double work = run.answers.front.balance.friction;
  CHECK(p.worn == Approx(0.5 * work * 50e-15 / c.brakes.front.pads.area).epsilon(1e-6));
  const session::Ring& ring = c.brakes.front.rotor.ring;
  const double swept =
      std::numbers::pi / 4 * (std::pow(ring.outer_diameter, 2) - std::pow(ring.swept_inner_diameter, 2));
  CHECK(p.ring_worn == Approx(work * 20e-15 / swept).epsilon(1e-6));
  CHECK(p.left == Approx(c.brakes.front.pads.thickness - p.worn));
  CHECK(p.ring_sessions_left == Approx((ring.thickness - p.ring_worn - 0.023) / p.ring_worn).epsilon(1e-9));
  CHECK(p.ring_capacity_at_minimum < p.ring_capacity);
  CHECK(p.ring_capacity == Approx(run.answers.front.ring_mass * 440).epsilon(0.15));
}

TEST_CASE("pads that pass their minimum on the way: the row tells when and is over the limit") {
  const std::string wear =
      "brakes.front.pads.wear={rate: 50 mm3/MJ, ring_rate: 20 mm3/MJ, onset: 999 degC, doubling: 10 K}";
  const answer::Run plain = answer::run(snubs({wear}));
  CHECK(std::isnan(plain.answers.front.pads.worn_out_at));
  // Half of what the session wears is left: the third of five like snubs takes it.
  const double thin = 3 + 0.5e3 * plain.answers.front.pads.worn;
  const answer::Run run = answer::run(snubs({wear, "brakes.front.pads.thickness=" + std::to_string(thin) + " mm"}));
  const answer::Verdict* row = verdict(run.answers, "front", "pad_left");
  CHECK(row->level == answer::Level::exceeded);
  REQUIRE(row->since);
  CHECK(row->since->span == "snub 3");
}

TEST_CASE("a thinner ring holds less heat and gets hotter by the same snubs") {
  const auto peak = [](const std::string& thickness) {
    return answer::run(snubs({"brakes.front.rotor.ring.thickness=" + thickness,
                              "brakes.front.rotor.ring.cheek_thickness=" +
                                  std::string(thickness == "23 mm" ? "6.4 mm" : "7.6 mm")}))
        .answers.front.peaks.at("ring_mean")
        .value;
  };
  CHECK(peak("23 mm") > peak("25.5 mm") + 10);
}

TEST_CASE("shims and pistons that conduct less lower the fluid's soak peak") {
  const auto peak = [](const std::vector<std::string>& more) {
    std::vector<std::string> set{"session=[" + kSnubs + ", {park: 10 min}]"};
    set.insert(set.end(), more.begin(), more.end());
    const answer::Run run =
        answer::run(io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::coarse}).c);
    CHECK(run.answers.front.fluid.after_parking);
    return run.answers.front.fluid.peak;
  };
  const double plain = peak({});
  CHECK(peak({"brakes.front.pads.shim_resistance=0.0033 m2.K/W"}) < plain - 0.5);
  CHECK(peak({"brakes.front.caliper.piston_material=stainless_304"}) < plain - 0.5);
  CHECK(peak({"brakes.front.caliper.piston_material=ti_6al_4v"}) < plain - 0.5);
}

TEST_CASE("the boiling point judged follows age or an own reading") {
  const auto fluid = [](const std::string& f) {
    return answer::run(snubs({"brakes.front.fluid=" + f})).answers.front.fluid;
  };
  CHECK(fluid("{kind: dot4}").boiling_judged == Approx(155 + 273.15));
  CHECK(fluid("{kind: dot4, judge: dry}").boiling_judged == Approx(230 + 273.15));
  CHECK(fluid("{kind: dot4, judge: 200 degC}").boiling_judged == Approx(473.15));
  const double half = fluid("{kind: dot4, age: 6 month}").boiling_judged;
  CHECK(half < 230 + 273.15 - 10);
  CHECK(half > 155 + 273.15 + 10);
  CHECK(fluid("{kind: dot4, age: 4 year}").boiling_judged == Approx(155 + 273.15));
}

TEST_CASE("bedding: every stop of every group is judged by band and ceiling") {
  const std::string plan =
      "session=[{snubs: {count: 3, from: 60 km/h, to: 20 km/h, deceleration: 3 m/s2, every: 30 s}}, {park: 1 min}, "
      "{snubs: {count: 4, from: 130 km/h, to: 40 km/h, deceleration: 6 m/s2, every: 30 s}}]";
  const session::Case c =
      io::read_case(
          "configs/demo.yaml",
          {.set = {plan, "brakes.front.pads.bedding={band_low: 150 degC, band_high: 200 degC, ceiling: 240 degC}"},
           .mesh = session::Mesh::lump})
          .c;
  const answer::Run run = answer::run(c);
  const answer::BeddingAnswer& b = run.answers.front.bedding;
  REQUIRE(b.stops.size() == 7);
  CHECK(b.stops[2].group == 1);
  CHECK(b.stops[3].group == 2);
  CHECK(b.stops[6].number == 4);
  CHECK_FALSE(b.stops[0].reaches_band);
  int over = 0;
  for (const answer::BeddingStop& s : b.stops) {
    CHECK(s.under_ceiling == (s.face_peak <= 240 + 273.15));
    CHECK(s.reaches_band == (s.face_peak >= 150 + 273.15));
    CHECK(s.face_peak > s.face_before);
    over += s.under_ceiling ? 0 : 1;
  }
  CHECK(b.over == over);
  CHECK(verdict(run.answers, "front", "bedding") != nullptr);
  CHECK_FALSE(run.answers.rear.bedding.applicable);
}

TEST_CASE("one temperature decides about pads: the face of the disc, for friction, window, fade and limit alike") {
  const answer::Run plain = answer::run(snubs({}));
  const auto peak = [](const answer::Run& run, const char* name) {
    return run.answers.front.peaks.at(name).value - 273.15;
  };
  const double face = peak(plain, "ring_face_outboard"), pad = peak(plain, "pad_outboard");
  REQUIRE(pad > face + 20);  // pressed pads run hotter than the disc's mean face
  // A window that ends between the two: the disc never leaves it, so no row may say that the pads do.
  const answer::Run run =
      answer::run(snubs({"brakes.front.pads.window=[0 degC, " + std::to_string(0.5 * (face + pad)) + " degC]"}));
  CHECK(run.answers.front.pads.above == 0);
  const answer::Verdict* row = verdict(run.answers, "front", "pad");
  REQUIRE(row != nullptr);
  CHECK(row->value == Approx(run.answers.front.peaks.at("ring_face_outboard").value).margin(0.5));
  CHECK(row->margin > 0);
  // Friction too is read at the face.
  const session::Case c = snubs({"brakes.front.pads.friction={temperature: [0 degC, 1000 degC], values: [0.2, 0.7]}"});
  const answer::Run linear = answer::run(c);
  const auto& mu = linear.history.front.find("pedal", "friction_coefficient")->values;
  const auto& outboard = linear.history.front.find("temperature", "ring_face_outboard")->values;
  const auto& inboard = linear.history.front.find("temperature", "ring_face_inboard")->values;
  for (std::size_t i = 0; i < mu.size(); i += 50)
    CHECK(mu[i] == Approx(0.2 + 0.5e-3 * (0.5 * (outboard[i] + inboard[i]) - 273.15)).margin(2e-3));
}

TEST_CASE("contact of pads and ring is a key of the config: its default is the prior and it drives the pad's heat") {
  const auto pad = [](const std::vector<std::string>& set) {
    return answer::run(snubs(set)).answers.front.peaks.at("pad_outboard").value;
  };
  const double plain = pad({});
  CHECK(pad({"brakes.front.pads.contact=40000 W/m2/K"}) == plain);
  CHECK(pad({"brakes.front.pads.contact=10000 W/m2/K"}) > plain + 20);
  CHECK(pad({"brakes.front.pads.contact=100000 W/m2/K"}) < plain - 5);
  const session::Case c = snubs({});
  CHECK(std::any_of(c.assumptions.begin(), c.assumptions.end(),
                    [](const session::Assumption& a) { return a.key == "brakes.front.pads.contact"; }));
}

TEST_CASE("newtons only where cylinder and pedal ratio and servo are given and the map leaves the share law alone") {
  // The demo gives all three; --set takes them away one by one.
  const auto without = [](std::vector<std::string> keys) {
    for (std::string& key : keys) key = "brakes.hydraulic." + key + "=null";
    return answer::run(snubs(keys));
  };
  for (const auto& keys : {std::vector<std::string>{"master_diameter"}, {"pedal_ratio"}, {"booster_gain"}}) {
    const answer::Run run = without(keys);
    CHECK_FALSE(run.answers.pedal.effort_known);
    CHECK(run.history.front.find("pedal", "effort")->not_applicable);
    CHECK(verdict(run.answers, "front", "effort") == nullptr);
    CHECK(run.answers.front.pedal.highest_pressure > 0);
    CHECK(run.answers.brake_balance.law == "fixed");
    for (const answer::Corner& corner : run.answers.pedal.corners) CHECK(std::string(corner.limited_by()).empty());
  }
  const answer::Run known =
      answer::run(snubs({"brakes.hydraulic={master_diameter: 20 mm, pedal_ratio: 5, booster_gain: 1}"}));
  CHECK(known.answers.pedal.effort_known);
  CHECK(known.answers.brake_balance.law == "fixed");
  const double area = std::numbers::pi / 4 * 0.02 * 0.02;
  CHECK(known.answers.pedal.highest_effort ==
        Approx(known.answers.front.pedal.highest_pressure * area / 5).epsilon(1e-9));
}

TEST_CASE("a sliding caliper presses both pads with its one piston: torque is 2 mu p A r in either kind") {
  const auto highest = [](const std::string& caliper) {
    return answer::run(snubs({"brakes.front.pads.friction=0.4", "brakes.front.caliper.piston_diameter=54 mm",
                              "brakes.front.caliper=" + caliper}))
        .answers.front.pedal.highest_pressure;
  };
  const double sliding = highest("{kind: sliding, pistons: 1, piston_diameter: 54 mm}");
  CHECK(sliding == Approx(highest("{pistons: 2, piston_diameter: 54 mm}")).epsilon(1e-9));
  CHECK(highest("{kind: sliding, pistons: 2, piston_diameter: 54 mm}") == Approx(sliding / 2).epsilon(1e-9));
  // By hand, at the moment of the highest pressure.
  const session::Case c = snubs(
      {"brakes.front.pads.friction=0.4", "brakes.front.caliper={kind: sliding, pistons: 1, piston_diameter: 54 mm}"});
  const answer::Run run = answer::run(c);
  const auto& pressure = run.history.front.find("pedal", "pressure")->values;
  const auto i = static_cast<std::size_t>(std::max_element(pressure.begin(), pressure.end()) - pressure.begin());
  std::size_t hint = 0;
  const session::Moment m = run.drive.at(run.history.time[i], hint);
  const double force = m.brake_power / (m.speed * (1 - c.car.tyre_slip_share)) * c.brakes.front_share / 2;
  const session::Ring& ring = c.brakes.front.rotor.ring;
  const double radius = 0.25 * (ring.outer_diameter + ring.swept_inner_diameter);
  const double clamping = pressure[i] * std::numbers::pi / 4 * 0.054 * 0.054;  // on each of the two pads
  CHECK(2 * 0.4 * clamping * radius == Approx(force * c.car.tyre_radius).epsilon(1e-9));
}

TEST_CASE("a verdict on the pedal tells the first braking over its limit beside the worst") {
  const answer::Run run = answer::run(
      snubs({"brakes.front.pads.friction={temperature: [20 degC, 60 degC, 250 degC], values: [0.5, 0.5, 0.2]}",
             "brakes.front.pads.window=[30 degC, 100 degC]", "limits.fade=0.05", "limits.pedal_growth=0.05"}));
  const answer::Verdict* growth = verdict(run.answers, "front", "pedal_growth");
  REQUIRE(growth->since);
  CHECK(growth->since->time < growth->place.time);
}
