// SPDX-License-Identifier: MIT
#include "sim/network/joint_geometry.hpp"

#include <algorithm>
#include <cmath>

#include "sim/network/assumed.hpp"

namespace hatring::network {

JointGeometry joint_geometry(const session::Rotor& rotor) {
  constexpr double kNeck = 0.001;  // least radial length of a one-piece disc's neck [m]
  JointGeometry g{.bore_radius = rotor.ring.inner_diameter / 2, .bell_radius = rotor.hat.outer_diameter / 2};
  const session::Joint& joint = rotor.joint;
  if (joint.kind == session::JointKind::one_piece) {
    g.flange_outer_radius = std::max(g.bore_radius, g.bell_radius + kNeck);
    return g;
  }
  const double d = joint.fastener_diameter;
  g.bolt_radius = joint.bolt_circle / 2;
  g.flange_outer_radius = g.bolt_radius + assumed::kFlangeOverhang * d;
  g.lug_width = assumed::kLugWidth * d;
  g.lug_length = std::abs(g.bore_radius - g.bolt_radius) + assumed::kLugOverhang * d;
  g.lug_thickness = rotor.ring.kind == session::RingKind::vented ? rotor.ring.cheek_thickness : rotor.ring.thickness;
  g.head_diameter = assumed::kHeadDiameter * d;
  return g;
}

}  // namespace hatring::network
