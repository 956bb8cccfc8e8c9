// SPDX-License-Identifier: MIT
//! \file
//! A realistic case built in code: an invented light car with two-piece vented discs on an invented lap.
#pragma once

#include "sim/session/case.hpp"

namespace hatring::test {

//! Car, brakes, materials and air; no session yet. Front floating on an aluminium hat, rear solid and rigid.
[[nodiscard]] session::Case track_case(session::Mesh mesh);

}  // namespace hatring::test
