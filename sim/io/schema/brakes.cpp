// SPDX-License-Identifier: MIT
#include "sim/io/schema/parts.hpp"
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Brake;
using session::Brakes;
using session::Caliper;
using session::CaliperKind;
using session::Cooling;
using session::DuctAim;
using session::ShareLaw;

namespace {

const Section<Caliper>& caliper_section() {
  static const Section<Caliper> section = [] {
    Section<Caliper> s("The caliper with its pistons and the fluid inside.");
    s.material("material", &Caliper::material,
               {.doc = "Of the body.",
                .fallback = "caliper_aluminium",
                .reason = "usual for track calipers, common practice"})
        .quantity("mass", &Caliper::mass, Quantity::mass,
                  {.doc = "Bare body.",
                   .fallback = "3.0 kg",
                   .reason = "calipers weigh 2.5 to 6 kg with pads and pistons, from memory",
                   .from = "0.2 kg",
                   .to = "30 kg"})
        .choice("kind", &Caliper::kind,
                std::vector<std::pair<std::string, CaliperKind>>{{"fixed", CaliperKind::fixed},
                                                                 {"sliding", CaliperKind::sliding}},
                {.doc = "Fixed: pistons on both sides. Sliding: pistons behind the inboard pad alone; the body slides "
                        "and its fingers pull the outboard pad with the same force.",
                 .fallback = "fixed",
                 .reason = "usual front track caliper, common practice"})
        .integer("pistons", &Caliper::pistons,
                 {.doc = "In all: those of both sides of a fixed caliper, or the one to three of a sliding one.",
                  .fallback = "4",
                  .reason = "usual front track caliper, common practice",
                  .from = "1",
                  .to = "16"})
        .quantity("piston_diameter", &Caliper::piston_diameter, Quantity::length,
                  {.doc = "The mean where they differ.",
                   .fallback = "40 mm",
                   .reason = "usual four-piston caliper, from memory",
                   .from = "10 mm",
                   .to = "100 mm"})
        .quantity("piston_length", &Caliper::piston_length, Quantity::length,
                  {.doc = "", .fallback = "25 mm", .reason = "usual, from memory", .from = "3 mm", .to = "100 mm"})
        .quantity("piston_wall", &Caliper::piston_wall, Quantity::length,
                  {.doc = "Wall of the hollow piston.",
                   .fallback = "4 mm",
                   .reason = "usual, from memory",
                   .from = "0.5 mm",
                   .to = "50 mm"})
        .material("piston_material", &Caliper::piston_material,
                  {.doc = "",
                   .fallback = "caliper_aluminium",
                   .reason = "usual for track calipers; stainless and titanium conduct far less"})
        .quantity("fluid_volume", &Caliper::fluid_volume, Quantity::volume,
                  {.doc = "Brake fluid inside the caliper.",
                   .fallback = "30 cm3",
                   .reason = "between 10 and 60 cm3, from memory",
                   .from = "0.5 cm3",
                   .to = "1000 cm3"})
        .quantity("surface_area", &Caliper::surface_area, Quantity::area,
                  {.doc = "Outside surface that the air sees.",
                   .fallback = "600 cm2",
                   .reason = "a four-piston body of about 3 kg, rough estimate",
                   .from = "10 cm2",
                   .to = "1 m2"});
    return s;
  }();
  return section;
}

const Section<Cooling>& cooling_section() {
  static const Section<Cooling> section = [] {
    Section<Cooling> s("Ducts and shields.");
    s.quantity("duct_area", &Cooling::duct_area, Quantity::area,
               {.doc = "Cross-section of the hose.",
                .fallback = "0 cm2",
                .reason = "no duct",
                .from = "0 cm2",
                .to = "0.1 m2"})
        .choice("aim", &Cooling::aim,
                std::vector<std::pair<std::string, DuctAim>>{
                    {"eye", DuctAim::eye}, {"face", DuctAim::face}, {"caliper", DuctAim::caliper}},
                {.doc = "Where the hose blows: the disc's eye (vanes), its inboard face, or the caliper.",
                 .fallback = "eye",
                 .reason = "usual, common practice; matters only with a duct"})
        .quantity("duct_efficiency", &Cooling::duct_efficiency, Quantity::number,
                  {.doc = "Speed of the air in the hose over road speed.",
                   .fallback = "0.2",
                   .reason = "middle of 0.1 to 0.3, weak, from memory",
                   .from = "0",
                   .to = "1"})
        .flag("shield", &Cooling::shield,
              {.doc = "Dust shield behind the inboard face.",
               .fallback = "off",
               .reason = "usually taken off for the track, common practice"})
        .quantity("scale", &Cooling::scale, Quantity::number,
                  {.doc = "Multiplies every convection coefficient: the knob that readings calibrate.",
                   .fallback = "1",
                   .reason = "not calibrated; convection is uncertain by about half",
                   .from = "0",
                   .to = "10"});
    return s;
  }();
  return section;
}

const Section<Brake>& brake_section() {
  static const Section<Brake> section = [] {
    Section<Brake> s("One wheel's brake; both wheels of the axle carry the same.");
    s.section("rotor", &Brake::rotor, rotor_section())
        .section("pads", &Brake::pads, pads_section())
        .section("caliper", &Brake::caliper, caliper_section())
        .section("fluid", &Brake::fluid, fluid_section())
        .section("cooling", &Brake::cooling, cooling_section());
    return s;
  }();
  return section;
}

void read_share(Reader& reader, const NodePtr& node, const Range& share, Brakes& brakes) {
  if (node->kind == Node::Kind::scalar && node->text == "ideal")
    brakes.share_law = ShareLaw::ideal;
  else if (node->kind == Node::Kind::scalar && node->text == "hydraulic")
    brakes.share_law = ShareLaw::hydraulic;
  else if (const auto value = reader.quantity(*node, Quantity::number, share))
    brakes.front_share = *value;
}

}  // namespace

const Section<Brakes>& brakes_section() {
  static const Section<Brakes> section = [] {
    Section<Brakes> s("The brakes of both axles.");
    const Range share = make_range(Quantity::number, "", "0", "1", "");
    s.custom(
         "front_share", "a plain number, `ideal` or `hydraulic`",
         [share](Reader& reader, const NodePtr& node, Brakes& brakes) { read_share(reader, node, share, brakes); },
         {.doc = "Of the friction-brake force: a number keeps it fixed; `hydraulic` lets piston areas, effective radii "
                 "and the friction of each axle's pads decide, so that the bias wanders with temperature; `ideal` "
                 "follows the load transfer, a yardstick. This key alone chooses the law.",
          .fallback = "0.65",
          .reason = "usual road car, from memory; bigger front discs shift it"},
         share)
        .custom(
            "hydraulic", "a map",
            [](Reader& reader, const NodePtr& node, Brakes& brakes) {
              const auto given = [&](const char* key) {
                const Entry* entry = node == nullptr ? nullptr : node->find(key);
                return entry != nullptr && entry->value->kind != Node::Kind::null;
              };
              brakes.hydraulic.known = given("master_diameter") && given("pedal_ratio") && given("booster_gain");
              hydraulic_section().read(reader, node, node ? node->mark : Mark{}, brakes.hydraulic);
            },
            {.doc = hydraulic_section().doc()}, {}, &hydraulic_section())
        .quantity("rise_time", &Brakes::rise_time, Quantity::time,
                  {.doc = "Of the brake force, on and off.",
                   .fallback = "0.15 s",
                   .reason = "a driver's foot and the hydraulics, from memory",
                   .from = "0.001 s",
                   .to = "2 s"})
        .quantity("dead_band", &Brakes::dead_band, Quantity::number,
                  {.doc = "Where the trace has no brake channel, decelerations below this share of g are not braking.",
                   .fallback = "0.03",
                   .reason = "above the noise of a smoothed speed log, no source",
                   .from = "0",
                   .to = "0.5"})
        .quantity("hot_side_factor", &Brakes::hot_side_factor, Quantity::number,
                  {.doc = "Heat of the hotter wheel of an axle over the mean of the two.",
                   .fallback = "1",
                   .reason = "left and right taken as equal",
                   .from = "1",
                   .to = "2"})
        .section("front", &Brakes::front, brake_section(), {.doc = "Front wheel: " + brake_section().doc()})
        .section("rear", &Brakes::rear, brake_section(), {.doc = "Rear wheel, the same keys."});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
