// SPDX-License-Identifier: MIT
//! \file
//! Which runs of a sweep a shard holds: every n-th group of consecutive runs. A group is what is solved side by side
//! (sim/answer/run_many.hpp), so that it comes out the same in whichever shard. Checked by
//! tests/sim/io/test_sweep_file.cpp.
#pragma once

#include <cstdint>

#include "sim/answer/run_many.hpp"

namespace hatring::io {

//! Shard `index` (from 1) of so many.
struct Shard {
  int index = 1, of = 1;

  //! Number of the run in a row of the shard; both from 0.
  [[nodiscard]] std::uint64_t run_of_row(std::uint64_t row) const {
    return (row / kGroup * count() + first()) * kGroup + row % kGroup;
  }
  //! Rows of the shard that hold runs below a number.
  [[nodiscard]] std::uint64_t rows_below(std::uint64_t run) const {
    const std::uint64_t group = run / kGroup, whole = (group + count() - 1 - first()) / count();
    return whole * kGroup + (group % count() == first() ? run % kGroup : 0);
  }

  static constexpr std::uint64_t kGroup = answer::kTogether;

 private:
  [[nodiscard]] std::uint64_t first() const { return static_cast<std::uint64_t>(index - 1); }
  [[nodiscard]] std::uint64_t count() const { return static_cast<std::uint64_t>(of); }
};

}  // namespace hatring::io
