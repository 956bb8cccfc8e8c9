// SPDX-License-Identifier: MIT
// Chooses a kernel for the machine at hand. No code of a wider instruction set runs before its presence is known.
#include <algorithm>
#include <utility>

#include "sim/solve/kernel.hpp"

namespace hatring::solve {

const WheelKernel& baseline_kernel(bool wide);

namespace {

int limit = 0;  // 0: none

}  // namespace

int limit_lanes(int most) {
  return std::exchange(limit, most);
}

const WheelKernel& scalar_kernel() {
  return baseline_kernel(false);
}

#ifdef __x86_64__

const WheelKernel& avx2_kernel(bool wide);
const WheelKernel& avx512_kernel(bool wide);

const WheelKernel& widest_kernel(int most) {
  if (limit > 0) return baseline_kernel(std::min(most, limit) > 1);
  if (most >= 8 && __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
      __builtin_cpu_supports("avx512vl"))
    return avx512_kernel(true);
  const bool avx2 = __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma");
  if (avx2 && (most >= 4 || most == 1)) return avx2_kernel(most > 1);
  return baseline_kernel(most > 1);
}

#else

const WheelKernel& widest_kernel(int most) {
  return baseline_kernel((limit > 0 ? std::min(most, limit) : most) > 1);
}

#endif

}  // namespace hatring::solve
