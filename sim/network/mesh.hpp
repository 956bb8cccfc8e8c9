// SPDX-License-Identifier: MIT
//! \file
//! How finely each part is cut.
#pragma once

#include <vector>

#include "sim/session/case.hpp"

namespace hatring::network {

struct MeshCounts {
  bool lump = false;    //!< ring one node, hat one node
  int layers = 0;       //!< through one cheek (or half a solid ring), graded toward the friction face
  int inner_bands = 0;  //!< radial bands inside the rubbed track
  int swept_bands = 0;  //!< radial bands of the rubbed track
  int bell = 0;         //!< along the bell wall
  int pad_layers = 0;   //!< through the friction layer
};

[[nodiscard]] MeshCounts mesh_counts(session::Mesh mesh);

//! Thicknesses that sum to `total`, each `growth` times the one before; the first is the thinnest [m].
[[nodiscard]] std::vector<double> graded(double total, int count, double growth);

//! The innermost of n layers is about this many times as thick as the one under the face. Growth from layer to layer is
//! its n-th root: at a fixed growth, more layers would not converge (two-face slab,
//! tests/checks/check_02_two_face_slab.py).
inline constexpr double kLayerSpread = 1.7;

}  // namespace hatring::network
