// SPDX-License-Identifier: MIT
// A source of test programs that solve: HATRING_LANES in the environment limits them to so many lanes and to
// instructions that every machine has, as it does the program itself.
#include <algorithm>
#include <cstdlib>

#include "sim/solve/kernel.hpp"

namespace {

[[maybe_unused]] const bool limited = [] {
  const char* most = std::getenv("HATRING_LANES");
  if (most) (void)hatring::solve::limit_lanes(std::max(1, std::atoi(most)));
  return most != nullptr;
}();

}  // namespace
