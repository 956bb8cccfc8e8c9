// SPDX-License-Identifier: MIT
// Pads, pistons, caliper and fluid, and the rubbing between pads and ring.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/disc_geometry.hpp"
#include "models/friction.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/builder.hpp"

namespace hatring::network {
namespace {

constexpr double kPadLayerSpread = 8;  // as kLayerSpread, but pads conduct badly: heat stays near the rubbed face

struct PadNodes {
  NodeId surface = -1, backing = -1;
  double surface_thickness = 0;  // of the first layer [m]
};

PadNodes build_pad(Builder& b, const char* side) {
  const session::Pads& pads = b.brake.pads;
  const double density = b.material(pads.material).density;
  const std::vector<double> layers =
      graded(pads.thickness, b.counts.pad_layers, std::pow(kPadLayerSpread, 1.0 / b.counts.pad_layers));
  const double perimeter = assumed::kPadPerimeter * std::sqrt(pads.area);
  const BluntBody law{std::sqrt(pads.area)};
  PadNodes out;
  NodeId last = -1;
  for (std::size_t k = 0; k < layers.size(); ++k) {
    const NodeId node =
        b.add(fmt::format("pad.{}.layer{}", side, k + 1), Part::pad, density * pads.area * layers[k], pads.material);
    if (k == 0)
      out.surface = node;
    else
      b.net.link(
          {last, node, Builder::half(layers[k - 1], pads.area), Builder::half(layers[k], pads.area), 0, 0, "pad"});
    b.cool(node, b.air, perimeter * layers[k], "pad edge", law);
    last = node;
  }
  out.surface_thickness = layers.front();
  out.backing =
      b.add(fmt::format("backing.{}", side), Part::backing,
            b.material(pads.backing_material).density * pads.area * pads.backing_thickness, pads.backing_material);
  b.net.link({last, out.backing, Builder::half(layers.back(), pads.area),
              Builder::half(pads.backing_thickness, pads.area), 0, 0, "pad"});
  b.cool(out.backing, b.air, assumed::kBareBacking * pads.area + perimeter * pads.backing_thickness, "pad edge", law);
  return out;
}

// One pad on one side of the ring, band by band.
void rub(Builder& b, const RingNodes& ring, const PadNodes& pad, bool inboard) {
  const session::Pads& pads = b.brake.pads;
  const session::Ring& rotor = b.brake.rotor.ring;
  const auto power =
      models::radial_weights(ring.swept_edges, rotor.swept_inner_diameter / 2, rotor.outer_diameter / 2,
                             b.c.physics.pad_pressure == session::Physics::PadPressure::uniform_pressure);
  // A pad of constant arc fraction covers each band in proportion to the band's rubbed area.
  const auto cover =
      models::radial_weights(ring.swept_edges, rotor.swept_inner_diameter / 2, rotor.outer_diameter / 2, false);
  // A fixed split says all about the heat between pad and ring while they rub; contact would count it twice.
  const double contact =
      b.c.physics.partition == session::Physics::Partition::contact ? pads.contact.value_or(assumed::kPadContact) : 0.0;
  std::size_t band = 0;
  for (const Face& face : b.net.faces) {
    if (face.inboard != inboard) continue;
    const double area = pads.area * cover[band];
    b.net.rubbings.push_back({face.cell, pad.surface, 0.5 * power[band], contact * area, 0.5 * face.shape,
                              Builder::half(pad.surface_thickness, area)});
    b.net.link({face.cell, pad.surface, 0.5 * face.shape, Builder::half(pad.surface_thickness, area),
                1 / (assumed::kPadGap * area), 0, "ring_pad"});
    ++band;
  }
}

// The share that two semi-infinite bodies in perfect contact would give the ring, by their properties at 20 degC.
double share_by_effusivity(const Builder& b) {
  const session::Ring& ring = b.brake.rotor.ring;
  const auto effusivity = [&](const std::string& name) {
    const models::Material& m = b.material(name);
    return models::effusivity(m.conductivity(models::kReferenceTemperature), m.density,
                              m.specific_heat(models::kReferenceTemperature));
  };
  const double rubbed = models::annulus_area(ring.swept_inner_diameter / 2, ring.outer_diameter / 2);
  return models::effusivity_share(rubbed, effusivity(ring.material), b.brake.pads.area,
                                  effusivity(b.brake.pads.material));
}

}  // namespace

void build_caliper(Builder& b, const RingNodes& ring) {
  const session::Caliper& cal = b.brake.caliper;
  const session::Pads& pads = b.brake.pads;
  const PadNodes sides[] = {build_pad(b, "outboard"), build_pad(b, "inboard")};
  for (const std::size_t side : {0U, 1U}) b.net.pads[side] = sides[side].surface;
  rub(b, ring, sides[0], false);
  rub(b, ring, sides[1], true);
  if (b.c.physics.partition == session::Physics::Partition::fixed) b.net.fixed_ring_share = b.c.physics.ring_share;
  if (b.c.physics.partition == session::Physics::Partition::effusivity) b.net.fixed_ring_share = share_by_effusivity(b);

  const double n = cal.pistons, d = cal.piston_diameter;
  const double rim = M_PI * (d - cal.piston_wall) * cal.piston_wall, crown = M_PI / 4 * d * d,
               skirt = M_PI * d * cal.piston_length;
  const NodeId piston =
      b.add("piston", Part::piston,
            b.material(cal.piston_material).density * n * (rim * cal.piston_length + crown * cal.piston_wall),
            cal.piston_material);
  const NodeId fluid = b.add("fluid", Part::fluid, b.material("brake_fluid").density * cal.fluid_volume, "brake_fluid");
  const NodeId body = b.add("caliper", Part::caliper, cal.mass, cal.material);

  const bool sliding = cal.kind == session::CaliperKind::sliding;
  for (const PadNodes& pad : sides) {
    // Pressure makes the contact; released, the plate only rests on the piston's rim. A shim lies in series with both.
    const double seat = rim * cal.pistons_of_a_pad(), shim = pads.shim_resistance / pads.area;
    const double resting = 1 / (1 / (assumed::kBackingPistonReleased * seat) + shim),
                 clamped = 1 / (1 / (assumed::kBackingPiston * seat) + shim);
    const double plate = Builder::half(pads.backing_thickness, pads.area);
    // The fingers of a sliding caliper press the outboard plate on about as much metal as the pistons' rims do.
    if (sliding && &pad == &sides[0])
      b.net.link({pad.backing, body, plate, {}, 1 / resting, clamped - resting, "pad_fingers"});
    else
      b.net.link({pad.backing, piston, plate, Builder::half(cal.piston_length, seat), 1 / resting, clamped - resting,
                  "pad_piston"});
    b.net.link(pad.backing, body, assumed::kPadCaliper, "pad_caliper");
  }
  b.net.link(piston, fluid, assumed::kPistonFluid * crown * n, "piston_fluid");
  b.net.link(piston, body, assumed::kPistonCaliper * skirt * n, "piston_caliper");
  b.net.link(fluid, body, assumed::kFluidCaliper * assumed::kFluidWall * crown * n, "fluid_caliper");
  b.net.link(body, b.wheel, assumed::kCaliperUpright, "caliper_wheel");

  constexpr double kSize = 0.12;  // [m]
  b.cool(body, b.air, cal.surface_area, "caliper", BluntBody{kSize});
  b.radiate(body, kAmbient, assumed::kCaliperEmissivity * cal.surface_area);
  if (b.cooling.config().aim == session::DuctAim::caliper && b.cooling.config().duct_area > 0)
    b.cool(body, kAmbient, 1, "duct on the caliper", DuctedAir{assumed::kDuctOnCaliper * cal.surface_area, kSize});
  for (const Face& face : b.net.faces)
    b.radiate(face.cell, body,
              b.brake.rotor.ring.emissivity * assumed::kCaliperEmissivity * assumed::kCaliperSeesRing *
                  assumed::kCoveredFace * face.area);
}

}  // namespace hatring::network
