// SPDX-License-Identifier: MIT
//! \file
//! Where the energy of each braking goes, and the ramps that carry it. Checked by
//! tests/sim/session/test_drive_energy.cpp.
#pragma once

#include <vector>

#include "sim/session/course.hpp"

namespace hatring::session {

struct Ledger {
  std::vector<Braking> brakings;
  std::vector<BrakeRamp> ramps;
  DriveEnergy energy;
};

//! \param slip_share share of the braking power that heats the tyres [-]  \param rise_time of the brakes [s]
//! Integrals are Gauss-Legendre on smooth parts (cut where the demand changes sign, at the engine's blend and at ramp
//! edges), so that the sums close to round-off.
[[nodiscard]] Ledger make_ledger(const Course& course, const Road& road, double slip_share, double rise_time);

}  // namespace hatring::session
