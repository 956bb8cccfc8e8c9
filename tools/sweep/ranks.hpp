// SPDX-License-Identifier: MIT
//! \file
//! Processes that share one sweep under MPI (CMake option HATRING_MPI). Without the option, or without mpirun, there is
//! one. Checked by tests/tools/test_sweep_mpi.py.
#pragma once

#include <cstdint>

namespace hatring::tools {

class Ranks {
 public:
  //! Starts MPI, once.
  static Ranks& instance();
  Ranks(const Ranks&) = delete;
  Ranks& operator=(const Ranks&) = delete;

  [[nodiscard]] int rank() const { return rank_; }
  [[nodiscard]] int size() const { return size_; }
  //! The sum over all processes; waits for all of them.
  [[nodiscard]] std::uint64_t total(std::uint64_t own);

 private:
  Ranks();
  //! At the end of the program. A process that ends before total() ends the others too: they would wait for ever.
  ~Ranks();

  int rank_ = 0, size_ = 1;
  bool met_ = false;
};

}  // namespace hatring::tools
