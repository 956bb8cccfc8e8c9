// SPDX-License-Identifier: MIT
//! \file
//! Which convection law cools which surface, and how road speed, wind, duct and shield enter it.
#pragma once

#include <limits>

#include "models/air.hpp"
#include "models/disc_geometry.hpp"
#include "sim/session/case.hpp"

namespace hatring::network {

//! Coefficients [W/m2/K] and conductances [W/K] of one wheel against car speed [m/s] and surface minus air temperature
//! [K]. All are finite at rest, and the heat flow they give is C1 in both. `physics: convection: {constant: h}`
//! replaces every coefficient by h. What depends on the difference alone is kept until another is asked for: not for
//! several threads at once.
class Cooling {
 public:
  Cooling(const session::Case& c, session::Axle axle);

  //! One face of the ring, a band from inner to outer radius. The disc spinning in free air and
  //! the disc on the road lie 4 to 7 times apart; the level between them follows measured evidence (see cooling.cpp).
  [[nodiscard]] double ring_face(double speed, double difference, double inner, double outer, bool inboard) const;
  //! Outer rim or bore of the ring.
  [[nodiscard]] double ring_edge(double speed, double difference, double radius) const;
  //! All vane passages of a vented ring together, wall to inlet air [W/K].
  [[nodiscard]] double vanes(double speed, double difference, const models::VaneGeometry& vanes) const;
  //! Bell wall, pads, caliper, wheel: a blunt body of that size in the air that moves through the wheel.
  [[nodiscard]] double body(double speed, double difference, double size) const;
  //! Forced air from the duct to the surface it is aimed at [W/K], on top of everything else: a plate along the stream,
  //! capped by what the hose's air can carry.
  //! \param area swept [m2] \param length along the stream [m] \param passage open area it runs through, 0 in the open
  //! [m2]
  [[nodiscard]] double duct(double speed, double difference, double area, double length, double passage = 0) const;
  //! Air in the wheel to outside [W/K].
  [[nodiscard]] double exchange(double speed, double difference) const;

  [[nodiscard]] bool pinned() const { return physics_.convection.has_value(); }
  [[nodiscard]] const session::Cooling& config() const { return cooling_; }

 private:
  [[nodiscard]] const models::Air& film(double difference) const;
  [[nodiscard]] double natural(double difference, double height) const;
  [[nodiscard]] double air_speed(double speed) const;

  const session::Physics& physics_;
  const session::Cooling& cooling_;
  double scale_, ambient_, pressure_, wind_, tyre_radius_, diameter_;
  static constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
  mutable struct {
    double difference = kNone;
    models::Air air;
  } film_;
  mutable struct { double difference = kNone, height = 0, coefficient = 0; } natural_;
};

}  // namespace hatring::network
