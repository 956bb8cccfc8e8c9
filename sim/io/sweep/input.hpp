// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "sim/io/schema/schema.hpp"
#include "sim/study/parameter.hpp"

namespace hatring::io {

inline constexpr int kDefaultRuns = 100;

//! The section `sweep` as written.
struct SweepInput {
  NodePtr vary;  //!< null when left out
  std::optional<study::DesignKind> design;
  std::optional<int> runs;
  int seed = 1;
};

//! How many runs may be asked for.
[[nodiscard]] const Range& runs_range();

}  // namespace hatring::io
