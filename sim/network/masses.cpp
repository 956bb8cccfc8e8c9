// SPDX-License-Identifier: MIT
// What one corner weighs, and how hard its disc is to spin up.
#include "models/disc_geometry.hpp"
#include "sim/network/builder.hpp"

namespace hatring::network {

void add_up_masses(Builder& b) {
  const session::Rotor& rotor = b.brake.rotor;
  const double bolt = rotor.joint.bolt_circle / 2;
  const double ring = rotor.ring.kind == session::RingKind::vented
                          ? models::vented_ring_gyration(rotor.ring.cheek_thickness, vane_geometry(rotor.ring))
                          : models::annulus_gyration(rotor.ring.inner_diameter / 2, rotor.ring.outer_diameter / 2);
  const double hat = models::hat_gyration(hat_geometry(rotor));
  for (const Node& n : b.net.nodes) {
    double gyration = 0;  // squared radius [m2]
    switch (n.part) {
      case Part::ring:
        gyration = ring;
        break;
      case Part::lug:
      case Part::fastener:
        gyration = bolt * bolt;
        break;
      case Part::hat:
        gyration = hat;
        break;
      case Part::pad:
      case Part::backing:
      case Part::piston:
      case Part::caliper:
      case Part::fluid:
        break;
      case Part::hub:
      case Part::air:
      case Part::wheel:
        continue;
    }
    b.net.corner_mass += n.mass;
    if (gyration > 0) b.net.rotating_mass += n.mass;
    b.net.rotating_inertia += n.mass * gyration;
  }
}

}  // namespace hatring::network
