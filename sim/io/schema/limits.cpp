// SPDX-License-Identifier: MIT
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Limits;

const Section<Limits>& limits_section() {
  static const Section<Limits> section = [] {
    Section<Limits> s("Limits that verdicts are judged against. Part makers' figures go before these.");
    s.quantity("ring_face", &Limits::ring_face, Quantity::temperature,
               {.doc = "Brief peak of the rubbed face.",
                .fallback = "700 degC",
                .reason = "cracking quickens above it and iron changes phase near 730 degC, rule of thumb from memory",
                .from = "50 degC",
                .to = "2000 degC"})
        .quantity("ring_mean", &Limits::ring_mean, Quantity::temperature,
                  {.doc = "Mean of the ring.",
                   .fallback = "650 degC",
                   .reason = "grey iron grows and scales above 550 to 650 degC, rule of thumb from memory",
                   .from = "50 degC",
                   .to = "2000 degC"})
        .quantity("hat", &Limits::hat, Quantity::temperature,
                  {.doc = "Hottest point of the hat.",
                   .fallback = "by material",
                   .reason = "highest service temperature of the hat's material",
                   .optional = true,
                   .from = "30 degC",
                   .to = "1500 degC"})
        .quantity("pad", &Limits::pad, Quantity::temperature,
                  {.doc = "Face of the disc, for the pads' sake.",
                   .fallback = "top of the pad's window",
                   .reason = "pads fade above their working window",
                   .optional = true,
                   .from = "30 degC",
                   .to = "1500 degC"})
        .quantity("caliper", &Limits::caliper, Quantity::temperature,
                  {.doc = "Caliper body, for its seals.",
                   .fallback = "200 degC",
                   .reason = "piston seals bear about 150 degC for long and 200 degC for short, from memory",
                   .from = "30 degC",
                   .to = "1000 degC"})
        .quantity("fluid_margin", &Limits::fluid_margin, Quantity::temperature_difference,
                  {.doc = "To stay below the boiling point by.",
                   .fallback = "20 K",
                   .reason = "for moisture, hot spots and the model's own error, no source",
                   .from = "0 K",
                   .to = "200 K"})
        .quantity("fastener", &Limits::fastener, Quantity::temperature,
                  {.doc = "Bolts or bobbins.",
                   .fallback = "by material",
                   .reason = "highest service temperature of the fasteners' material",
                   .optional = true,
                   .from = "30 degC",
                   .to = "1500 degC"})
        .quantity("face_rate", &Limits::face_rate, Quantity::temperature_rate,
                  {.doc = "Heating rate of the face over `rate_window`.",
                   .fallback = "400 K/s",
                   .reason = "about 3.4 MW/m2 on a cast-iron face for half a second; rough, no source",
                   .above = "0 K/s",
                   .to = "100000 K/s"})
        .quantity(
            "cooling_rate", &Limits::cooling_rate, Quantity::temperature_rate,
            {.doc = "Cooling rate of the face over `rate_window`, as a positive number.",
             .fallback = "100 K/s",
             .reason =
                 "twice what a face loses to its own cheek after a hard stop: faster is a quench; rough, no source",
             .above = "0 K/s",
             .to = "100000 K/s"})
        .quantity(
            "shock", &Limits::shock, Quantity::number,
            {.doc = "Thermal shock: largest tension in the ring (left in a face that yielded hot, or at bore and lug "
                    "roots while the rim is hotter) over the iron's tensile strength at that temperature.",
             .fallback = "1",
             .reason = "computed as if iron were elastic up to its strength, where it gives way before; judgement",
             .above = "0",
             .to = "10"})
        .quantity("joint_stress", &Limits::joint_stress, Quantity::number,
                  {.doc = "Stress of fastener, hole or lug over the strength at its own temperature.",
                   .fallback = "0.8",
                   .reason = "for uneven sharing between the fasteners; judgement",
                   .above = "0",
                   .to = "10"})
        .quantity("preload_left", &Limits::preload_left, Quantity::number,
                  {.doc = "Least clamping force of a rigid joint, hot or cold again, over that of the assembly.",
                   .fallback = "0.7",
                   .reason = "screws come loose when grip is lost, common practice, no source",
                   .from = "0",
                   .to = "1"})
        .quantity("hat_strength", &Limits::hat_strength, Quantity::number,
                  {.doc = "Least proof strength that soaking leaves the hat, over that of new metal.",
                   .fallback = "0.87",
                   .reason = "least strength that the trade sells 6061-T6 for over its typical one, from memory",
                   .from = "0",
                   .to = "1"})
        .quantity("sessions_left", &Limits::sessions_left, Quantity::number,
                  {.doc = "Least number of further sessions like this one that fatigue leaves ring, hat and fasteners.",
                   .fallback = "10",
                   .reason = "such a count can be wrong by a factor of ten; judgement",
                   .from = "0",
                   .to = "100000"})
        .quantity("most_play", &Limits::most_play, Quantity::length,
                  {.doc = "Radial float beyond what the session needs.",
                   .fallback = "0.5 mm",
                   .reason = "a ring that moves about knocks the pistons back: long first pedal; judgement",
                   .above = "0 mm",
                   .to = "10 mm"})
        .quantity(
            "fade", &Limits::fade, Quantity::number,
            {.doc = "Loss of friction in one braking against the pad's reference.",
             .fallback = "0.25",
             .reason = "hot brakes must keep three quarters of what is prescribed in UN R13-H type I, from memory",
             .from = "0.01",
             .to = "1"})
        .quantity("pedal_growth", &Limits::pedal_growth, Quantity::number,
                  {.doc = "More line pressure at the same corner than on the first hot lap.",
                   .fallback = "0.25",
                   .reason = "a quarter more is plainly felt, no source",
                   .from = "0.01",
                   .to = "10"})
        .quantity("cold_share", &Limits::cold_share, Quantity::number,
                  {.doc = "Share of the braking time of the hot laps that the disc's face is below the pad's window.",
                   .fallback = "0.5",
                   .reason = "colder for longer than not: weak bite and an uneven transfer layer, no source",
                   .from = "0.01",
                   .to = "1"})
        .quantity("hot_share", &Limits::hot_share, Quantity::number,
                  {.doc = "The same, above the window.",
                   .fallback = "0.1",
                   .reason = "brief peaks are borne, no source",
                   .from = "0.01",
                   .to = "1"})
        .quantity("rear_bias", &Limits::rear_bias, Quantity::number,
                  {.doc = "Share of the braking that the rear axle may take above its share of the weight.",
                   .fallback = "0.05",
                   .reason = "beyond it the rear locks well before the front, no source",
                   .from = "0",
                   .to = "1"})
        .quantity("tyre_grip", &Limits::tyre_grip, Quantity::number,
                  {.doc = "Tyre force over weight that the tyres can give, to say whether tyres or brakes limit; "
                          "`car.grip` goes before it.",
                   .fallback = "1.1",
                   .reason = "treaded track tyres on a dry track give 1.0 to 1.2, from memory",
                   .from = "0.1",
                   .to = "4"})
        .quantity("rate_window", &Limits::rate_window, Quantity::time,
                  {.doc = "Window that rates are taken over.",
                   .fallback = "0.5 s",
                   .reason = "shorter windows depend on the mesh and mean nothing",
                   .from = "0.05 s",
                   .to = "60 s"})
        .quantity("pad_print", &Limits::pad_print, Quantity::temperature,
                  {.doc = "Mean of the ring when the car comes to rest.",
                   .fallback = "400 degC",
                   .reason = "pads that rest on a hotter ring leave a print that shudders later; judgement, no source",
                   .from = "30 degC",
                   .to = "1500 degC"})
        .quantity("near", &Limits::near, Quantity::number,
                  {.doc = "A margin below this share of limit minus air temperature is called near.",
                   .fallback = "0.1",
                   .reason = "the model's own error is of that size or more, no source",
                   .from = "0",
                   .below = "1"});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
