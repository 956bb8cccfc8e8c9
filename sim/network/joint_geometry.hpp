// SPDX-License-Identifier: MIT
//! \file
//! Dimensions of the joint that follow from those the driver can measure, by the priors of assumed.hpp.
#pragma once

#include "sim/session/case.hpp"

namespace hatring::network {

struct JointGeometry {
  double bore_radius = 0;  //!< of the ring [m]
  double bolt_radius = 0;  //!< [m]
  double bell_radius = 0;  //!< outside of the bell wall [m]
  double flange_outer_radius =
      0;  //!< two-piece: metal outside the bolt circle; one piece: the neck at the ring's bore [m]
  // Lug of the ring around one fastener.
  double lug_width = 0;      //!< along the circle [m]
  double lug_length = 0;     //!< radial, from the bore to its end [m]
  double lug_thickness = 0;  //!< axial: one cheek, or the whole of a solid ring [m]
  double head_diameter = 0;  //!< of a fastener [m]
};

//! Joint dimensions are zero for a one-piece disc.
[[nodiscard]] JointGeometry joint_geometry(const session::Rotor& rotor);

}  // namespace hatring::network
