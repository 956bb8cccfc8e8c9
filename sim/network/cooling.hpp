// SPDX-License-Identifier: MIT
//! \file
//! Which convection law cools which surface, and how road speed, wind, duct and shield enter it.
#pragma once

#include <optional>
#include <variant>

#include "models/disc_geometry.hpp"
#include "sim/network/conductance_table.hpp"
#include "sim/session/case.hpp"

namespace hatring::network {

// A law says all there is to say of a surface's convection, so that equal laws in equal cooling have equal tables.

//! One face of the ring, a band from inner to outer radius [m]. The disc spinning in free air and the disc on the road
//! lie 4 to 7 times apart; the level between them follows measured evidence (see cooling.cpp).
struct RingFace {
  double inner, outer;
  bool shielded;  //!< by a dust shield
  [[nodiscard]] bool operator==(const RingFace&) const = default;
};
//! Outer rim or bore of the ring.
struct RingEdge {
  double radius;  //!< [m]
  [[nodiscard]] bool operator==(const RingEdge&) const = default;
};
//! All vane passages of a vented ring together, wall to inlet air.
struct VanePassages {
  models::VaneGeometry vanes;
  [[nodiscard]] bool operator==(const VanePassages&) const = default;
};
//! Bell wall, pads, caliper, wheel: a blunt body in the air that moves through the wheel.
struct BluntBody {
  double size;  //!< [m]
  [[nodiscard]] bool operator==(const BluntBody&) const = default;
};
//! Forced air from the duct to the surface it is aimed at, on top of everything else: a plate along the stream, capped
//! by what the hose's air can carry.
struct DuctedAir {
  double area;         //!< swept [m2]
  double length;       //!< along the stream [m]
  double passage = 0;  //!< open area it runs through, 0 in the open [m2]
  [[nodiscard]] bool operator==(const DuctedAir&) const = default;
};
//! Air in the wheel to outside.
struct AirExchange {
  [[nodiscard]] bool operator==(const AirExchange&) const = default;
};
using Law = std::variant<RingFace, RingEdge, VanePassages, BluntBody, DuctedAir, AirExchange>;

//! Convection of one wheel. All coefficients are finite at rest, and the heat flow they give is C1 in speed and
//! difference. `physics: convection: {constant: h}` replaces every coefficient by h, and there is no AirExchange then.
class Cooling {
 public:
  Cooling(const session::Case& c, session::Axle axle);

  //! Coefficient [W/m2/K] of face, edge or body, conductance [W/K] of passages, duct or exchange.
  //! \param speed of the car [m/s]  \param difference surface minus air temperature [K]
  [[nodiscard]] double at(const Law& law, double speed, double difference) const;
  //! The same over a grid. Equal ones share their numbers (Kept), whatever the scale of the cooling.
  [[nodiscard]] ConductanceTable table(const Law& law, const ConductanceGrid& grid) const;

  [[nodiscard]] bool pinned() const { return air_.pinned.has_value(); }
  [[nodiscard]] const session::Cooling& config() const { return cooling_; }

 private:
  //! What the laws know beside their own numbers.
  struct Surroundings {
    std::optional<double> pinned;        // [W/m2/K]
    double temperature, pressure, wind;  // of the outside air [K], [Pa], [m/s]
    double tyre_radius, diameter;        // of the ring [m]
    double duct_area, duct_efficiency;   // [m2], [-]
    [[nodiscard]] bool operator==(const Surroundings&) const = default;
  };
  struct Tabulated;
  class Laws;
  [[nodiscard]] double scale() const;

  session::Cooling cooling_;
  Surroundings air_;
};

}  // namespace hatring::network
