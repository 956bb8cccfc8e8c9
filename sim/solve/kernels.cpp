// SPDX-License-Identifier: MIT
// Chooses a kernel for the machine at hand. No code of a wider instruction set runs before its presence is known.
#include "sim/solve/kernel.hpp"

namespace hatring::solve {

#ifdef __x86_64__

const WheelKernel& sse2_kernel();
const WheelKernel& avx2_kernel();
const WheelKernel& avx512_kernel();

const WheelKernel& widest_kernel(int most) {
  if (most >= 8 && __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
      __builtin_cpu_supports("avx512vl"))
    return avx512_kernel();
  if (most >= 4 && __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma")) return avx2_kernel();
  return most >= 2 ? sse2_kernel() : scalar_kernel();
}

#else

const WheelKernel& widest_kernel(int) {
  return scalar_kernel();
}

#endif

}  // namespace hatring::solve
