// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "sim/io/read_case.hpp"

namespace hatring::test {

//! The demo with some of its keys set otherwise.
inline session::Case demo(const std::vector<std::string>& set = {}) {
  return io::read_case("configs/demo.yaml", {.set = set}).c;
}

}  // namespace hatring::test
