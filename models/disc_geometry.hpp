// SPDX-License-Identifier: MIT
//! \file
//! Areas and volumes of ring and hat. Mass is volume times the material's density at 20 degC.
//! Every function throws std::invalid_argument when a shape cannot be built (negative or crossing dimensions).
//! Checked by tests/models/test_disc_geometry.cpp.
#pragma once

namespace hatring::models {

//! Straight radial vanes between two cheeks.
struct VaneGeometry {
  double outer_radius = 0;  //!< [m]
  double inner_radius = 0;  //!< [m]
  double height = 0;        //!< axial gap between the cheeks [m]
  double thickness = 0;     //!< circumferential thickness of one vane [m]
  int count = 0;

  [[nodiscard]] bool operator==(const VaneGeometry&) const = default;
};

[[nodiscard]] double annulus_area(double inner_radius, double outer_radius);                      //!< [m2]
[[nodiscard]] double annulus_volume(double inner_radius, double outer_radius, double thickness);  //!< [m3]

//! Open area at a radius: circumference less the vanes, times the gap [m2].
[[nodiscard]] double vane_open_area(const VaneGeometry& vanes, double radius);
[[nodiscard]] double vane_inlet_area(const VaneGeometry& vanes);   //!< open area at the bore [m2]
[[nodiscard]] double vane_outlet_area(const VaneGeometry& vanes);  //!< open area at the rim [m2]
//! Four times area over perimeter of one passage at the mean radius [m].
[[nodiscard]] double vane_hydraulic_diameter(const VaneGeometry& vanes);
//! Walls that the passage air touches: both cheeks' inner sides less the vane roots, and both sides of every vane [m2].
[[nodiscard]] double vane_wetted_area(const VaneGeometry& vanes);
[[nodiscard]] double vane_volume(const VaneGeometry& vanes);  //!< iron of all vanes [m3]
//! Two cheeks and the vanes between them [m3].
[[nodiscard]] double vented_ring_volume(double cheek_thickness, const VaneGeometry& vanes);

//! A hat: flange outside the bell wall, bell wall, mounting face with the hub's bore in it.
struct HatGeometry {
  double bell_outer_radius = 0;    //!< [m]
  double wall_thickness = 0;       //!< [m]
  double flange_outer_radius = 0;  //!< [m]
  double flange_thickness = 0;     //!< axial [m]
  double face_bore_radius = 0;     //!< hub register, 0 for a full face [m]
  double face_thickness = 0;       //!< axial [m]
  double depth = 0;                //!< over all, from the flange's outer side to the outer side of the face [m]
};

struct HatVolumes {
  double flange = 0;  //!< annulus outside the bell wall [m3]
  double wall = 0;    //!< tube of length depth less face thickness [m3]
  double face = 0;    //!< annulus from the bore out to the bell's outside [m3]
};

[[nodiscard]] HatVolumes hat_volumes(const HatGeometry& hat);

// Polar moment of inertia about the axle over mass, for one density throughout [m2]. Any textbook of dynamics.
[[nodiscard]] double annulus_gyration(double inner_radius, double outer_radius);  //!< (r1^2 + r2^2) / 2
[[nodiscard]] double vane_gyration(const VaneGeometry& vanes);                    //!< (r1^2 + r1 r2 + r2^2) / 3
[[nodiscard]] double vented_ring_gyration(double cheek_thickness, const VaneGeometry& vanes);
[[nodiscard]] double hat_gyration(const HatGeometry& hat);

}  // namespace hatring::models
