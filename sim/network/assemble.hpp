// SPDX-License-Identifier: MIT
//! \file
//! Builds one wheel's network from a Case: geometry in, nodes and links out.
#pragma once

#include "sim/network/mesh.hpp"
#include "sim/network/network.hpp"
#include "sim/session/case.hpp"

namespace hatring::network {

//! \param highest_speed of the session; convection is tabulated up to it [m/s]
//! \throws session::CaseError for an unknown material, link family or node name, naming the ones there are
[[nodiscard]] Network assemble(const session::Case& c, session::Axle axle, double highest_speed);
//! The same, cut as given instead of by the mesh of the case.
[[nodiscard]] Network assemble(const session::Case& c, session::Axle axle, double highest_speed,
                               const MeshCounts& counts);

}  // namespace hatring::network
