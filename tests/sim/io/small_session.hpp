// SPDX-License-Identifier: MIT
//! \file
//! A small valid session.
#pragma once

#include <string>

namespace hatring::io::testing {

//! Everything that has no default, and little else; numbers invented.
inline const std::string kSample = R"(car:
  mass: 1140 kg
brakes:
  front_share: 0.66
  front: &wheel
    rotor:
      ring:
        outer_diameter: 310 mm
        inner_diameter: 190 mm
        thickness: 28 mm
        swept_inner_diameter: 212 mm
        cheek_thickness: 8 mm
        vanes: {count: 40, thickness: 5 mm}
      hat:
        material: al_6061_t6
        outer_diameter: 150 mm
        wall_thickness: 5 mm
        flange_thickness: 7 mm
        face_thickness: 6 mm
        depth: 35 mm
      joint:
        kind: floating
        fasteners: 10
        bolt_circle: 172 mm
        fastener_diameter: 8 mm
        float: 0.30 mm
    pads: {area: 55 cm2, thickness: 14 mm}
  rear: *wheel
session:
  - laps: 3
    trace:
      time: {unit: s, values: [0, 10, 20, 30]}
      speed: {unit: km/h, values: [100, 150, 60, 100]}
  - {park: 20 min}
)";

}  // namespace hatring::io::testing
