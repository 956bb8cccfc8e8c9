// SPDX-License-Identifier: MIT
//! \file
//! A node, link or surface is numbered by an int, as Eigen does; the lists of the standard library want a size.
#pragma once

#include <cstddef>

namespace hatring::network {

//! \param i not negative
[[nodiscard]] constexpr std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace hatring::network
