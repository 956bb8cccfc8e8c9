// SPDX-License-Identifier: MIT
//! \file
//! A fastener that clamps ring and hat: stress area, springs, and what heat does to its preload. Forces in N, springs
//! as compliances [m/N]. Its load across the joint is in joint_load.hpp. The program never turns any of this into a
//! tightening torque. Checked by tests/models/test_bolted_joint.cpp.
#pragma once

#include <span>

namespace hatring::models {

//! Pitch of the coarse metric thread at or next below a diameter, M3 to M20 (ISO 261, from memory) [m].
//! \throws std::invalid_argument outside 3 to 20 mm
[[nodiscard]] double coarse_pitch(double diameter);
//! pi/4 ((d2 + d3)/2)^2 with d2 = d - 0.64952 P, d3 = d - 1.22687 P (ISO 898-1 with ISO 724, from memory) [m2].
//! \throws std::invalid_argument when no core is left
[[nodiscard]] double stress_area(double diameter, double pitch);

//! One fastener, through bolt with a nut.
struct Fastener {
  double diameter = 0;       //!< nominal, also of the shank [m]
  double pitch = 0;          //!< [m]
  double shank = 0;          //!< clamped length without thread [m]
  double head_diameter = 0;  //!< outside of the bearing face under head or nut; the smaller [m]
  double hole_diameter = 0;  //!< [m]
};

//! One of the parts that are clamped.
struct ClampedLayer {
  double thickness = 0;  //!< [m]
  double modulus = 0;    //!< at its temperature [Pa]
};

//! Bolt's axial spring after VDI 2230 (from memory, guideline not opened), in series: head 0.5 d, shank, free thread on
//! the core d3, engaged thread 0.5 d on d3, nut 0.4 d. Simplified: the nut's modulus is the bolt's. \param grip clamped
//! length, at least the shank [m]  \param modulus at the bolt's temperature [Pa] \throws std::invalid_argument for a
//! bolt that is none
[[nodiscard]] double bolt_compliance(const Fastener& fastener, double grip, double modulus);

//! Clamped parts' axial spring: pressure cones of VDI 2230 from both ends, cut off where the part ends (from memory).
//! Simplified: the cone's slope is fixed at tan phi = 0.6 (the guideline has 0.4 to 0.7 by shape), one modulus by which
//! the layers' thicknesses add in series, and a round part of one outside diameter for the lug.
//! \param outside diameter of a round part as wide as the narrowest [m]
//! \throws std::invalid_argument when there is no material under the head
[[nodiscard]] double clamped_compliance(const Fastener& fastener, std::span<const ClampedLayer> layers, double outside);

//! Change of preload with temperature, plus = gain: l (alpha_P dT_P - alpha_S dT_S) / (delta_S + delta_P), springs at
//! temperature (VDI 2230 in simplified form, from memory).
//! \param mismatch thermal elongation of the parts less that of the bolt over the grip, l_P eps_P - l eps_S [m]
[[nodiscard]] double preload_change(double mismatch, double bolt_compliance, double clamped_compliance);

//! Bearing area under head or nut [m2]. \throws std::invalid_argument when the hole is not the smaller
[[nodiscard]] double bearing_area(const Fastener& fastener);
//! Pressure under a head that yields the part, over its tensile strength: VDI 2230's tables have about 1.15 to 1.45 for
//! wrought aluminium and steel; grey iron stands about its compressive strength (840 over 250 MPa). From memory.
inline constexpr double kBearingOverStrength = 1.2;
inline constexpr double kBearingOverStrengthIron = 3.4;

//! Clamping force of one fastener, stepped through time:
//!     F = (F_0 (delta_S + delta_P)_cold + mismatch - set) / (delta_S + delta_P)_now,  0 <= F <= what bears or yields
//!     now
//! The first term is VDI 2230's with moduli that fall (from memory). What is pressed in or stretched while hot is
//! `set`, never comes back, and is missing when cold. Without creep, relaxation and embedding, so the loss is a lower
//! bound.
class Preload {
 public:
  struct Now {
    double mismatch = 0;     //!< see preload_change [m]
    double compliance = 0;   //!< bolt and parts together at temperature [m/N]
    double limit = 0;        //!< least of bearing pressure times area and the bolt's proof stress times its area [N]
    double temperature = 0;  //!< of the clamped part, for the memory of the hottest only [K]
  };

  //! \param cold as assembled [N]  \param cold_compliance bolt and parts together [m/N]
  //! \throws std::invalid_argument when cold < 0 or a compliance <= 0
  Preload(double cold, double cold_compliance);

  //! \returns the force now [N]
  double step(const Now& now);
  [[nodiscard]] double force() const { return force_; }
  //! What is left when all is at 20 degC again, at least 0 [N].
  [[nodiscard]] double cold() const;
  //! Hottest that the clamped part has been, and the temperature at which set last grew; 0 = never [K].
  [[nodiscard]] double hottest() const { return hottest_; }
  [[nodiscard]] double yielded_at() const { return yielded_at_; }

 private:
  double assembled_, cold_compliance_, force_;
  double set_ = 0, hottest_ = 0, yielded_at_ = 0;
};

}  // namespace hatring::models
