// SPDX-License-Identifier: MIT
#include "tests/sim/network/track_case.hpp"

namespace hatring::test {
namespace {

using models::Curve;

constexpr double kCelsius = 273.15;

Curve curve(std::vector<double> celsius, std::vector<double> values) {
  for (double& t : celsius) t += kCelsius;
  return {std::move(celsius), std::move(values)};
}

void add(session::Case& c, models::Material m) {
  c.materials[m.name] = std::move(m);
}

// Invented, of the usual size.
void add_materials(session::Case& c) {
  add(c, {.name = "iron",
          .density = 7100,
          .conductivity = curve({20, 200, 400, 600, 700}, {55, 51, 47, 42.5, 40}),
          .specific_heat = curve({20, 200, 400, 600, 700}, {425, 491, 561, 683, 790}),
          .emissivity = 0.55});
  add(c, {.name = "aluminium",
          .density = 2700,
          .conductivity = curve({20, 200, 350}, {167, 179.6, 190}),
          .specific_heat = curve({20, 200, 350}, {911, 985, 1046}),
          .emissivity = 0.3});
  add(c, {.name = "caliper_aluminium",
          .density = 2750,
          .conductivity = Curve(145),
          .specific_heat = curve({20, 300}, {911, 1026}),
          .emissivity = 0.8});
  for (const char* steel : {"carbon_steel", "bolt"})
    add(c, {.name = steel,
            .density = 7850,
            .conductivity = curve({20, 300, 600}, {53, 44, 34}),
            .specific_heat = curve({20, 300, 600}, {440, 565, 760}),
            .emissivity = 0.7});
  add(c, {.name = "pad", .density = 2800, .conductivity = Curve(4), .specific_heat = Curve(900), .emissivity = 0.85});
  add(c, {.name = "brake_fluid",
          .density = 1055,
          .conductivity = Curve(0.17),
          .specific_heat = curve({20, 200}, {2050, 2400}),
          .emissivity = 0.9});
}

session::Brake front_brake() {
  session::Brake b;
  b.rotor = {.name = "invented front",
             .ring = {.outer_diameter = 0.306,
                      .inner_diameter = 0.192,
                      .thickness = 0.0255,
                      .swept_inner_diameter = 0.206,
                      .kind = session::RingKind::vented,
                      .cheek_thickness = 0.0076,
                      .vanes = {44, 0.0052},
                      .material = "iron",
                      .mass = std::nullopt},
             .hat = {.material = "aluminium",
                     .outer_diameter = 0.152,
                     .wall_thickness = 0.0055,
                     .flange_thickness = 0.007,
                     .face_thickness = 0.0065,
                     .depth = 0.046,
                     .emissivity = 0.8,
                     .mass = std::nullopt},
             .joint = {.kind = session::JointKind::floating,
                       .fasteners = 10,
                       .bolt_circle = 0.174,
                       .fastener_diameter = 0.008,
                       .material = "bolt",
                       .preload = 9000,
                       .float_clearance = 0.35e-3,
                       .axial_float = 0.25e-3}};
  b.pads = {.name = "invented pads",
            .material = "pad",
            .area = 0.0052,
            .thickness = 0.011,
            .backing_thickness = 0.0055,
            .backing_material = "carbon_steel",
            .friction = {{293.15, 573.15, 1073.15}, {0.36, 0.48, 0.32}},
            .window_low = 423.15,
            .window_high = 953.15};
  b.caliper = {.material = "caliper_aluminium",
               .mass = 2.4,
               .pistons = 4,
               .piston_diameter = 0.04,
               .piston_length = 0.026,
               .piston_wall = 0.004,
               .piston_material = "caliper_aluminium",
               .fluid_volume = 28e-6,
               .surface_area = 0.06};
  b.fluid = {.name = "invented fluid", .dry_boiling = 533, .wet_boiling = 455};
  b.cooling.duct_area = 0.003;
  return b;
}

}  // namespace

session::Case track_case(session::Mesh mesh) {
  session::Case c;
  c.name = "invented track day";
  c.car.mass = 1140;
  c.physics.mesh = mesh;
  add_materials(c);
  c.brakes.front = front_brake();
  c.brakes.rear = front_brake();
  session::Rotor& rear = c.brakes.rear.rotor;
  rear.name = "invented rear";
  rear.ring.kind = session::RingKind::solid;
  rear.ring.thickness = 0.011;
  rear.ring.cheek_thickness = 0;
  rear.ring.vanes = {};
  rear.joint.kind = session::JointKind::rigid;
  c.brakes.rear.cooling.duct_area = 0;
  c.brakes.rear.cooling.shield = true;
  return c;
}

}  // namespace hatring::test
