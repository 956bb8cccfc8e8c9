// SPDX-License-Identifier: MIT
//! \file
//! Where each number of a network comes from, in words for people. Checked by tests/sim/network/test_origin.cpp.
#pragma once

#include <string_view>

#include "sim/session/case.hpp"

namespace hatring::network {

//! What a family of links (Link::family) conducts by, in one phrase. Ring and hat meet differently in each kind of
//! joint. Empty for a family that assemble() does not make.
[[nodiscard]] std::string_view origin(std::string_view family, session::JointKind joint);

//! What a law of convection (Surface::law) rests on.
struct LawOrigin {
  std::string_view phrase;
  bool by_area = true;  //!< Surface::scale is an area [m2]; otherwise a share of a whole [-]
};
//! The phrase is empty for a law that assemble() does not make.
[[nodiscard]] LawOrigin origin_of_law(std::string_view law);

}  // namespace hatring::network
