// SPDX-License-Identifier: MIT
//! \file
//! What ring and hat do to each fastener between them, from their free differential expansion and the brake's torque.
//! Radial loads have the sign of the expansion: positive when the ring outgrows the hat. Forces in N per fastener.
//! Checked by tests/models/test_joint_load.cpp.
#pragma once

namespace hatring::models {

//! Two plates that one fastener joins in single shear.
struct LapJoint {
  double diameter = 0;                    //!< [m]
  double thickness1 = 0, thickness2 = 0;  //!< [m]
  double modulus1 = 0, modulus2 = 0;      //!< [Pa]
  double modulus = 0;                     //!< of the fastener [Pa]
  double poisson = 0.3;                   //!< of the fastener
};

//! Sideways give of the fastener itself, shear plus bending, t = t1 + t2 (Tate and Rosenfeld 1946, NACA TN 1051: from
//! memory, the shear term confirmed in a secondary text) [m/N]:
//!     32 t (1+nu) / (9 E pi d^2) + 8 (t2^3 + 5 t2^2 t1 + 5 t2 t1^2 + t1^3) / (5 E pi d^4)
//! \throws std::invalid_argument when a measure is not positive
[[nodiscard]] double fastener_compliance(const LapJoint& lap);
//! Give of holes and fastener under bearing pressure, the same source: 1/(E1 t1) + 1/(E2 t2) + 1/(E t1) + 1/(E t2)
//! [m/N].
[[nodiscard]] double hole_compliance(const LapJoint& lap);
//! A lug that is pulled along its length: l/(E w t) [m/N]. \throws std::invalid_argument when a measure is not positive
[[nodiscard]] double lug_compliance(double length, double width, double thickness, double modulus);

//! Everything between ring and hat that gives way radially.
struct JointSprings {
  double ring = 0;      //!< bore_stiffness of the ring, all round [N/m]
  double flange = 0;    //!< rim_stiffness of the hat's flange, all round [N/m]
  double fastener = 0;  //!< compliance of one fastener with its holes [m/N]
  double lug = 0;       //!< compliance of one lug [m/N]
};

struct JointSetting {
  int fasteners = 0;
  double clearance = 0;  //!< radial, each way: half of hole less fastener, or the float [m]
  double friction = 0;   //!< between the clamped faces [-]
  int faces = 1;         //!< that slip
};

enum class JointRegime { gripping, slipping, bearing };

struct JointLoad {
  double radial = 0;   //!< [N]
  double total = 0;    //!< of radial and tangential as a vector [N]
  double carried = 0;  //!< by fastener, holes and lug, the rest being friction [N]
  double slip = 0;     //!< of the faces against each other, signed; with fasteners that bear it includes their give [m]
  JointRegime regime = JointRegime::gripping;
};

//! Load of one fastener. While sqrt(F_r^2+F_t^2) <= mu F_V faces, ring and flange follow each other and only they give
//! way; then the faces slide through the clearance under constant friction; then fasteners and lugs give way too, on
//! top of it (common practice, no source). Continuous and monotone in |expansion|, without memory: the same path back
//! and forth, so slip per cycle is the slip at its extremes. Tangential load beyond the friction goes straight into the
//! fasteners. \param expansion free differential expansion [m]  \param tangential from the brake's torque [N] \param
//! preload clamping force of one fastener; 0 for bobbins [N] \throws std::invalid_argument without fasteners or ring
//! and flange stiffness, or when a setting is negative
[[nodiscard]] JointLoad joint_load(const JointSprings& springs, const JointSetting& setting, double expansion,
                                   double tangential, double preload);

//! Tangential load of the hardest-worked fastener or bobbin: torque/(n r_b) times sharing.
//! \param sharing 1 when all carry alike; n/k when k of n do. Bobbins in slots rarely all carry (common practice, no
//! source). \throws std::invalid_argument when it lies outside 1 to n, or without fasteners or radius
[[nodiscard]] double tangential_load(double torque, double bolt_radius, int fasteners, double sharing);

//! Stresses that `carried` makes, all positive [Pa].
struct FastenerStress {
  double shear = 0;            //!< mean over the section
  double bending = 0;          //!< in the outermost fibre
  double bearing_hat = 0;      //!< hole of the hat, on diameter times thickness
  double bearing_ring = 0;     //!< hole or slot of the ring's lug
  double lug_net_section = 0;  //!< mean over the lug beside the hole
};

struct FastenerSection {
  double area = 0;      //!< that is sheared: stress_area where the thread lies in the joint [m2]
  double diameter = 0;  //!< for bearing and bending [m]
  double hat_thickness = 0, ring_thickness = 0;  //!< under the fastener [m]
  double gap = 0;                                //!< between them [m]
  double lug_width = 0;                          //!< across the load [m]
  double hole_diameter = 0;                      //!< [m]
};

//! Bending: clamped ends and a lever of half the plates' thicknesses plus the gap, so M = F (t1/2 + t2/2 + gap)/2 and
//! 32 M/(pi d^3) (common practice, no source; high where preload holds the plates together). Peaks at the hole and
//! lug root come from notch_concentration and kHoleConcentration.
//! \throws std::invalid_argument when a measure is not positive or the hole leaves no lug
[[nodiscard]] FastenerStress fastener_stress(const FastenerSection& section, double carried);

}  // namespace hatring::models
