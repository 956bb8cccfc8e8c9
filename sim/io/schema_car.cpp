// SPDX-License-Identifier: MIT
#include "sim/io/schema.hpp"

namespace hatring::io {

using session::Car;
using session::Driven;

const Section<Car>& car_section() {
  static const Section<Car> section = [] {
    Section<Car> s("The whole car, as far as it decides how much kinetic energy the brakes must take.");
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
        .quantity(
            "wheelbase", &Car::wheelbase, Quantity::length,
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
        .choice(
            "driven", &Car::driven,
            std::vector<std::pair<std::string, Driven>>{
                {"front", Driven::front}, {"rear", Driven::rear}, {"all", Driven::all}},
            {.doc = "Driven axle.", .fallback = "rear", .reason = "decides only which axle the engine helps to slow"})
        .quantity("tyre_slip_share", &Car::tyre_slip_share, Quantity::number,
                  {.doc = "Share of the braking power that heats the tyres instead of the discs.",
                   .fallback = "0.05",
                   .reason = "middle of 3 to 8 %, from memory",
                   .from = "0",
                   .to = "0.5"});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
