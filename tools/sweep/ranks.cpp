// SPDX-License-Identifier: MIT
#include "tools/sweep/ranks.hpp"

#ifdef HATRING_MPI
#include <mpi.h>
#endif

namespace hatring::tools {

Ranks& Ranks::instance() {
  static Ranks ranks;
  return ranks;
}

#ifdef HATRING_MPI

Ranks::Ranks() {
  // Threads of the pool make no calls of MPI.
  int granted = 0;
  MPI_Init_thread(nullptr, nullptr, MPI_THREAD_FUNNELED, &granted);
  MPI_Comm_rank(MPI_COMM_WORLD, &rank_);
  MPI_Comm_size(MPI_COMM_WORLD, &size_);
}

Ranks::~Ranks() {
  if (size_ > 1 && !met_) MPI_Abort(MPI_COMM_WORLD, 1);
  MPI_Finalize();
}

std::uint64_t Ranks::total(std::uint64_t own) const {
  std::uint64_t sum = 0;
  MPI_Allreduce(&own, &sum, 1, MPI_UINT64_T, MPI_SUM, MPI_COMM_WORLD);
  met_ = true;
  return sum;
}

#else

Ranks::Ranks() = default;
Ranks::~Ranks() = default;

std::uint64_t Ranks::total(std::uint64_t own) const {
  met_ = true;
  return own;
}

#endif

}  // namespace hatring::tools
