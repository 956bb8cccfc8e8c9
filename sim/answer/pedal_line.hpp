// SPDX-License-Identifier: MIT
//! \file
//! From the heat of a wheel to line pressure and pedal force, and back.
#pragma once

#include <optional>

#include "models/hydraulic.hpp"
#include "models/pad.hpp"
#include "sim/session/case.hpp"

namespace hatring::answer {

//! One wheel's caliper and pads; the line pressure is that of the axle, so the heat of the hotter side is brought back
//! to the mean of both.
class PedalLine {
 public:
  PedalLine(const session::Case& c, session::Axle axle);

  //! Has friction and pistons to speak of.
  [[nodiscard]] bool applicable() const { return applicable_; }
  //! \param heat friction power of the hotter wheel [W]  \param speed of the car [m/s]  \param face of the disc [K]
  //! \returns 0 off the brakes [Pa]
  [[nodiscard]] double pressure(double heat, double speed, double face) const;
  [[nodiscard]] double friction(double line_pressure, double speed, double face) const;
  //! Retarding force of both wheels of the axle on the road [N].
  [[nodiscard]] double force(double line_pressure, double speed, double face) const;

 private:
  [[nodiscard]] double rubbing_speed(double speed) const;

  models::Clamp clamp_;
  double tyre_radius_, slip_, hot_;
  bool applicable_;
};

//! The pedal of the case; nothing where its cylinders have no size.
[[nodiscard]] std::optional<models::Hydraulics> pedal_of(const session::Case& c);
//! The same where the case knows it well enough to speak of pedal force.
[[nodiscard]] std::optional<models::Hydraulics> own_pedal_of(const session::Case& c);

}  // namespace hatring::answer
