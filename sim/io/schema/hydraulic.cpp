// SPDX-License-Identifier: MIT
#include "sim/io/schema/parts.hpp"
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Hydraulic;

namespace {

bool separate(const Hydraulic& h) {
  return h.separate;
}

}  // namespace

const Section<Hydraulic>& hydraulic_section() {
  static const Section<Hydraulic> section = [] {
    Section<Hydraulic> s(
        "From the pedal to the lines. Pedal force is told only where `master_diameter`, `pedal_ratio` and "
        "`booster_gain` are all given; without them line pressure stands alone. What this map says of cylinders, bar "
        "and valve decides the front share under `front_share: hydraulic`, and only there.");
    s.choice("master", &Hydraulic::separate,
             std::vector<std::pair<std::string, bool>>{{"tandem", false}, {"separate", true}},
             {.doc = "One tandem cylinder for both axles, or one cylinder per axle with a bias bar.",
              .fallback = "tandem",
              .reason = "usual in road cars, common practice"})
        .quantity("master_diameter", &Hydraulic::master_diameter, Quantity::length,
                  {.doc = "Bore of the tandem cylinder, or of the front one.",
                   .fallback = "22.2 mm",
                   .reason = "usual in light road cars, from memory; it stands on the casting",
                   .from = "8 mm",
                   .to = "60 mm"})
        .quantity("rear_master_diameter", &Hydraulic::rear_master_diameter, Quantity::length,
                  {.doc = "Bore of the rear cylinder.",
                   .fallback = "22.2 mm",
                   .reason = "as the front one",
                   .from = "8 mm",
                   .to = "60 mm",
                   .when_text = "separate cylinders",
                   .when = separate})
        .quantity("bias_bar", &Hydraulic::bias_bar, Quantity::number,
                  {.doc = "Share of the push that goes to the front cylinder.",
                   .fallback = "0.5",
                   .reason = "bar in the middle",
                   .from = "0.1",
                   .to = "0.9",
                   .when_text = "separate cylinders",
                   .when = separate})
        .quantity("pedal_ratio", &Hydraulic::pedal_ratio, Quantity::number,
                  {.doc = "Push on the rod over pedal force: measure both lever arms from the pivot.",
                   .fallback = "4",
                   .reason = "3 to 4.5 with a servo, 5 to 6.5 without, from memory",
                   .from = "1",
                   .to = "12"})
        .quantity("booster_gain", &Hydraulic::booster_gain, Quantity::number,
                  {.doc = "Output over input of the servo before run-out; 1 for none.",
                   .fallback = "4",
                   .reason = "vacuum servos of light cars give 3 to 5, from memory",
                   .from = "1",
                   .to = "20"})
        .quantity("booster_assist", &Hydraulic::booster_assist, Quantity::force,
                  {.doc = "The most the servo helps; beyond it the driver adds alone.",
                   .fallback = "2500 N",
                   .reason = "a vacuum servo of about 200 mm, from memory",
                   .from = "0 N",
                   .to = "20000 N"})
        .quantity("largest_effort", &Hydraulic::largest_effort, Quantity::force,
                  {.doc = "Pedal force that the driver can hold.",
                   .fallback = "500 N",
                   .reason = "the largest that UN R13-H lets a test use, from memory",
                   .from = "50 N",
                   .to = "2000 N"})
        .quantity("valve_pressure", &Hydraulic::valve_pressure, Quantity::pressure,
                  {.doc = "Pressure in the rear line above which a limiter or proportioning valve holds back; none if "
                          "left out.",
                   .optional = true,
                   .from = "0 bar",
                   .to = "300 bar"})
        .quantity("valve_slope", &Hydraulic::valve_slope, Quantity::number,
                  {.doc = "Rear pressure gained per pressure behind the valve; 0 is a limiter.",
                   .fallback = "0",
                   .reason = "a limiter",
                   .from = "0",
                   .to = "1",
                   .when_text = "a rear valve",
                   .when = [](const Hydraulic& h) { return h.valve_pressure.has_value(); }});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
