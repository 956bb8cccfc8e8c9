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

Ranks::Ranks() {
#ifdef HATRING_MPI
  // Threads of the pool make no calls of MPI.
  int granted = 0;
  MPI_Init_thread(nullptr, nullptr, MPI_THREAD_FUNNELED, &granted);
  MPI_Comm_rank(MPI_COMM_WORLD, &rank_);
  MPI_Comm_size(MPI_COMM_WORLD, &size_);
#endif
}

Ranks::~Ranks() {
#ifdef HATRING_MPI
  if (size_ > 1 && !met_) MPI_Abort(MPI_COMM_WORLD, 1);
  MPI_Finalize();
#endif
}

std::uint64_t Ranks::total(std::uint64_t own) {
  met_ = true;
#ifdef HATRING_MPI
  std::uint64_t sum = 0;
  MPI_Allreduce(&own, &sum, 1, MPI_UINT64_T, MPI_SUM, MPI_COMM_WORLD);
  return sum;
#else
  return own;
#endif
}

}  // namespace hatring::tools
