// SPDX-License-Identifier: MIT
//! \file
//! Thermal stress in the friction ring and at the interference of ring and hat. Elastic unless it says otherwise; plane
//! stress; one modulus over the body. Stresses are positive in tension [Pa]; strains are thermal strains from 20 degC
//! [-]. Checked by tests/models/test_thermal_stress.cpp and tests/checks/check_07_annulus.cpp.
#pragma once

#include <vector>

namespace hatring::models {

//! Free annulus under a radial profile of thermal strain: with I(x,y) the integral of eps r dr,
//!     hoop   = E/r^2 [ (r^2+a^2)/(b^2-a^2) I(a,b) + I(a,r) - eps r^2 ]
//!     radial = E/r^2 [ (r^2-a^2)/(b^2-a^2) I(a,b) - I(a,r) ]
//! (Timoshenko and Goodier, Theory of Elasticity, thermal stress in a thin disc; from memory). A hot outside puts the
//! bore in tension. The profile is given at band centres, straight between them and held to both edges; its integrals
//! are exact, so that a stress is E times a weighted sum of the strains. Holding to the edges suits edges that lose
//! little heat; a profile that is straight to the edge reads low, with 5 bands by a fifth (tested).
class AnnulusStress {
 public:
  //! \param bore, outer radii a, b [m]  \param centres rising, within a to b, at least one [m]
  //! \throws std::invalid_argument otherwise
  AnnulusStress(double bore, double outer, std::vector<double> centres);

  //! Weights w of the hoop stress at a radius from a to b: stress = E sum(w_i eps_i). They add up to zero.
  [[nodiscard]] std::vector<double> hoop_weights(double radius) const;
  //! The same for the radial stress, which vanishes at both edges.
  [[nodiscard]] std::vector<double> radial_weights(double radius) const;

 private:
  [[nodiscard]] std::vector<double> shares(double radius) const;
  [[nodiscard]] std::vector<double> moments(double to) const;

  double bore_, outer_;
  std::vector<double> centres_;
};

//! Stress of a face that the rest of its cheek holds, equal in both directions: E (eps_mean - eps_face)/(1 - nu). A hot
//! face is in compression. For a thin hot skin; the cheek's own bending is held by the other cheek.
[[nodiscard]] double face_stress(double modulus, double poisson, double mean_strain, double face_strain);

//! A fibre whose total strain is imposed on it: elastic, then perfectly plastic, without hardening, creep or relaxation
//! (which sets in above about 450 degC in grey iron and leaves more tension). What yields in compression while hot is
//! pulled when cold, which is what cracks a ring. Stepped through time; steps must resolve the cycle's peaks.
class ConstrainedFibre {
 public:
  //! What the fibre is made of at its temperature now.
  struct Properties {
    double stiffness = 0;          //!< E, or E/(1-nu) where both directions are held [Pa]
    double tensile_yield = 0;      //!< [Pa]
    double compressive_yield = 0;  //!< positive [Pa]
  };

  //! \param strain imposed mechanical strain, positive in tension (eps_mean - eps_face for a face) [-]
  //! \returns the stress now [Pa]  \throws std::invalid_argument when a property is not positive
  double step(double strain, const Properties& now);
  [[nodiscard]] double stress() const { return stress_; }
  //! Negative when squeezed short for good [-].
  [[nodiscard]] double plastic_strain() const { return plastic_; }
  //! Stress that is left when nothing is imposed any more and the fibre is as cold as `cold` says; tension after
  //! compressive yield [Pa].
  [[nodiscard]] double residual(const Properties& cold) const;
  [[nodiscard]] friend bool operator==(const ConstrainedFibre&, const ConstrainedFibre&) = default;

 private:
  double plastic_ = 0, stress_ = 0;
};

//! A thick ring under pressure at one edge.
struct ThickRing {
  double inner = 0, outer = 0;  //!< radii [m]
  double modulus = 0;           //!< [Pa]
  double poisson = 0.3;
};

//! Radial growth of the bore under unit pressure in it (Lame 1852, as in Timoshenko and Goodier; from memory):
//! (a/E) [(b^2+a^2)/(b^2-a^2) + nu] [m/Pa]. \throws std::invalid_argument for a ring that is none
[[nodiscard]] double bore_compliance(const ThickRing& ring);
//! Radial shrinkage of the rim under unit pressure on it: (b/E) [(b^2+a^2)/(b^2-a^2) - nu] [m/Pa].
[[nodiscard]] double rim_compliance(const ThickRing& ring);
//! Radial force, all round, per radial movement of the bore: 2 pi a t / compliance [N/m].
[[nodiscard]] double bore_stiffness(const ThickRing& ring, double thickness);
//! The same at the rim [N/m].
[[nodiscard]] double rim_stiffness(const ThickRing& ring, double thickness);

struct Interference {
  double pressure = 0;          //!< [Pa]
  double ring_bore_hoop = 0;    //!< positive [Pa]
  double flange_bore_hoop = 0;  //!< negative; 0 bore: of a solid disc at its centre [Pa]
  double flange_rim_hoop = 0;   //!< negative [Pa]
};

//! Hat flange forced into the ring's bore over the whole circumference, equally thick: an upper bound for a bolted
//! joint. \param interference flange rim radius less ring bore radius, were both free; none below 0 [m] \throws
//! std::invalid_argument when a ring is none or bore and rim differ by over a tenth
[[nodiscard]] Interference lame_interference(const ThickRing& ring, const ThickRing& flange, double interference);

//! Slope and movement of a ring whose cheeks differ in mean strain.
struct Coning {
  double curvature = 0;       //!< [1/m]
  double slope = 0;           //!< of the outer edge against a flat ring, positive where the edge leans outboard [rad]
  double outer_movement = 0;  //!< axial, of the outer edge against the bore, positive outboard [m]
};

//! Free plate of two layers, each with its own strain, held together by vanes that do not shear:
//!     kappa = (eps_1 - eps_2) d A / (t1^3/12 + t2^3/12 + A d^2),  A = t1 t2/(t1 + t2),  d between the layers' centres;
//! 3/2 (eps_1 - eps_2)/h for a solid plate (Timoshenko 1925, bimetal of equal layers; from memory). The plate bends to
//! a sphere, w = kappa r^2/2, away from the hotter side: a hotter outboard cheek moves the outer edge inboard. Shear of
//! the vanes and the hat's hold, which cones a ring by itself, are left out.
//! \param gap between the cheeks, 0 for a solid ring [m]  \throws std::invalid_argument for impossible lengths
[[nodiscard]] Coning coning(double outboard_strain, double inboard_strain, double outboard_thickness,
                            double inboard_thickness, double gap, double bore, double outer);

//! Hoop stress at a small round hole over that around it, one direction loaded (Kirsch 1898, from memory).
inline constexpr double kHoleConcentration = 3;
//! Peak over nominal stress at the root of a notch: 1 + 2 sqrt(depth/root radius) (Inglis 1913, from memory); for a
//! deep notch in a wide plate; a lug's root lies below. \throws std::invalid_argument when depth < 0 or radius <= 0
[[nodiscard]] double notch_concentration(double depth, double root_radius);

//! What a metal feels of a stress peak: 1 + q (peak over nominal - 1). Grey iron, full of graphite notches already, has
//! q of about 0.2 (Peterson's notch sensitivity, from memory). \throws std::invalid_argument when q is not within 0 to
//! 1
[[nodiscard]] double felt_concentration(double concentration, double sensitivity);
inline constexpr double kIronNotchSensitivity = 0.2;

//! h L / k [-].
[[nodiscard]] double biot_number(double coefficient, double length, double conductivity);
//! Sudden surface temperature difference that the strength just bears, sigma (1-nu)/(E alpha) [K] (Kingery's R, from
//! memory): for ranking materials, not a limit.
[[nodiscard]] double shock_resistance(double strength, double poisson, double modulus, double expansion);
//! |stress| over strength [-]; infinite when no strength is left.
[[nodiscard]] double utilisation(double stress, double strength);

}  // namespace hatring::models
