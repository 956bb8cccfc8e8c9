// SPDX-License-Identifier: MIT
#include "sim/io/channel.hpp"
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Car;
using session::Driven;

namespace {

const char* const kCarDoc = "The whole car, as far as it decides how much kinetic energy the brakes must take.";

void add_road_keys(Section<Car>& s) {
  s.quantity("mass", &Car::mass, Quantity::mass, {.doc = "With driver and fuel.", .from = "100 kg", .to = "10000 kg"})
      .quantity("front_mass_fraction", &Car::front_mass_fraction, Quantity::number,
                {.doc = "Share of the weight on the front axle at rest.",
                 .fallback = "0.5",
                 .reason = "even weight, no source; corner scales give it",
                 .above = "0",
                 .below = "1"})
      .quantity("cg_height", &Car::cg_height, Quantity::length,
                {.doc = "Height of the centre of gravity.",
                 .fallback = "0.45 m",
                 .reason = "a low road car, from memory",
                 .above = "0 m",
                 .to = "2 m"})
      .quantity("wheelbase", &Car::wheelbase, Quantity::length,
                {.doc = "", .fallback = "2.5 m", .reason = "a small road car, from memory", .from = "1 m", .to = "6 m"})
      .quantity("tyre_radius", &Car::tyre_radius, Quantity::length,
                {.doc = "Rolling radius: distance covered in one turn of the wheel over 2 pi.",
                 .fallback = "0.30 m",
                 .reason = "a 15 to 16 inch road wheel, from memory",
                 .from = "0.15 m",
                 .to = "0.6 m"})
      .quantity("drag_area", &Car::drag_area, Quantity::area,
                {.doc = "Drag coefficient times frontal area.",
                 .fallback = "0.6 m2",
                 .reason = "a small closed car without wings, from memory",
                 .from = "0 m2",
                 .to = "5 m2"})
      .quantity("rolling_resistance", &Car::rolling_resistance, Quantity::number,
                {.doc = "Rolling force over weight.",
                 .fallback = "0.013",
                 .reason = "road tyres on asphalt, from memory",
                 .from = "0",
                 .to = "0.2"})
      .quantity("rotating_factor", &Car::rotating_factor, Quantity::number,
                {.doc = "Effective over actual mass, for the parts that spin.",
                 .fallback = "1.05",
                 .reason = "middle of 1.02 to 1.08 for the upper gears, from memory",
                 .from = "1",
                 .to = "1.5"})
      .quantity("engine_drag", &Car::engine_drag, Quantity::force,
                {.doc = "Engine braking at the tyres of the driven axle.",
                 .fallback = "350 N",
                 .reason = "a two-litre engine in an upper gear off the throttle, rough, from memory",
                 .from = "0 N",
                 .to = "10 kN"})
      .choice("driven", &Car::driven,
              std::vector<std::pair<std::string, Driven>>{
                  {"front", Driven::front}, {"rear", Driven::rear}, {"all", Driven::all}},
              {.doc = "Driven axle.", .fallback = "rear", .reason = "decides only which axle the engine helps to slow"})
      .quantity("tyre_slip_share", &Car::tyre_slip_share, Quantity::number,
                {.doc = "Share of the braking power that heats the tyres instead of the discs.",
                 .fallback = "0.05",
                 .reason = "middle of 3 to 8 %, from memory",
                 .from = "0",
                 .to = "0.5"});
}

void read_gear_tops(Reader& reader, const NodePtr& node, Car& car) {
  const std::optional<Channel> tops = node->kind == Node::Kind::map
                                          ? read_channel(reader, *node, Quantity::speed)
                                          : read_list_of_quantities(reader, *node, Quantity::speed);
  if (!tops || !check_rising(reader, *tops, "the higher top speed of the next gear")) return;
  if (tops->values.front() <= 0) {
    reader.error(tops->list->mark, "found a gear without speed, expected top speeds above 0 km/h");
    return;
  }
  car.gear_tops = tops->values;
}

// A session that drives a trace accepts these keys and has no use for them, so it assumes nothing in their place.
enum class Use { lap, session };

About<Car> lap_key(Use use, About<Car> about) {
  if (use == Use::lap) return about;
  about.doc = "Only for `hatring lap`. " + about.doc;
  about.fallback.clear();
  about.reason.clear();
  about.when = {};
  about.when_text.clear();
  about.optional = true;
  return about;
}

const Section<Car>& gears_section(Use use) {
  const auto make = [](Use u) {
    Section<Car> s("Gears. Without them the power of the engine is the only bound of the pull.");
    s.custom("top_speeds", "a list of speeds", read_gear_tops,
             {.doc = "Road speed at the rev limit in each gear, first gear first. Changing gear takes no time.",
              .optional = true})
        .quantity("full_power_from", &Car::full_power_from, Quantity::number,
                  lap_key(u, {.doc = "Share of the rev limit from which the engine gives its power; below it the "
                                     "torque is constant.",
                              .fallback = "0.85",
                              .reason = "rated power is reached shortly before the limiter, from memory",
                              .above = "0",
                              .to = "1",
                              .when_text = "cars with `top_speeds`",
                              .when = [](const Car& car) { return !car.gear_tops.empty(); }}));
    return s;
  };
  static const Section<Car> lap = make(Use::lap), session = make(Use::session);
  return use == Use::lap ? lap : session;
}

void add_lap_keys(Section<Car>& s, Use use) {
  s.quantity("power", &Car::power, Quantity::power,
             lap_key(use, {.doc = "Rated power of the engine.", .above = "0 kW", .to = "2000 kW"}))
      .quantity("drive_efficiency", &Car::drive_efficiency, Quantity::number,
                lap_key(use, {.doc = "Share of the rated power that reaches the road.",
                              .fallback = "0.88",
                              .reason = "gearbox, final drive and tyre slip of a rear-driven car, from memory",
                              .above = "0",
                              .to = "1"}))
      .section("gears", gears_section(use))
      .quantity("grip", &Car::grip, Quantity::number,
                lap_key(use, {.doc = "Largest force of the tyres over the load on them, on the dry road, across and "
                                     "along. A steady bend that you know gives it: speed squared over radius over "
                                     "9.81 m/s2.",
                              .fallback = "1.05",
                              .reason = "good road tyres; track-day tyres 1.1 to 1.3, from memory",
                              .from = "0.1",
                              .to = "3"}))
      .quantity("lift_area", &Car::lift_area, Quantity::area,
                lap_key(use, {.doc = "Lift coefficient times frontal area; below 0 for downforce, which is shared "
                                     "between the axles as the weight is.",
                              .fallback = "0 m2",
                              .reason = "a road car without wings lifts a little; unknown, so none",
                              .from = "-10 m2",
                              .to = "2 m2"}))
      .quantity("braking_share", &Car::braking_share, Quantity::number,
                lap_key(use, {.doc = "Share of the grip that the driver uses on the brakes: a fixed balance locks one "
                                     "axle first, and a margin is kept.",
                              .fallback = "0.9",
                              .reason = "common practice, no source",
                              .above = "0",
                              .to = "1"}));
}

}  // namespace

const Section<Car>& car_section() {
  static const Section<Car> section = [] {
    Section<Car> s(kCarDoc);
    add_road_keys(s);
    add_lap_keys(s, Use::session);
    return s;
  }();
  return section;
}

const Section<Car>& lap_car_section() {
  static const Section<Car> section = [] {
    Section<Car> s(kCarDoc);
    add_road_keys(s);
    add_lap_keys(s, Use::lap);
    return s;
  }();
  return section;
}

const Section<Car>& lap_keys_section() {
  static const Section<Car> section = [] {
    Section<Car> s("What `hatring lap` wants to know of the car besides the keys of `car`.");
    add_lap_keys(s, Use::lap);
    return s;
  }();
  return section;
}

}  // namespace hatring::io
