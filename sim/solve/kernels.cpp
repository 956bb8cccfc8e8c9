// SPDX-License-Identifier: MIT
// Chooses a kernel for the machine at hand. No code of a wider instruction set runs before its presence is known.
#include <utility>

#include "sim/solve/kernel.hpp"

namespace hatring::solve {

const WheelKernel<double>& baseline_single_kernel();
const WheelKernel<float>& baseline_lanes_kernel(bool wide);
const WheelKernel<double>& avx2_single_kernel();
const WheelKernel<float>& avx2_lanes_kernel(bool wide);
const WheelKernel<float>& avx512_lanes_kernel(bool wide);

namespace {

int limit = 0;  // 0: none

#ifdef __x86_64__

bool has_avx2() {
  return __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma");
}

bool has_avx512() {
  return has_avx2() && __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
         __builtin_cpu_supports("avx512vl");
}

const WheelKernel<double>& fastest_single() {
  return has_avx2() ? avx2_single_kernel() : baseline_single_kernel();
}

const WheelKernel<float>& fastest_lanes(bool wide) {
  if (has_avx512()) return avx512_lanes_kernel(wide);
  return has_avx2() ? avx2_lanes_kernel(wide) : baseline_lanes_kernel(wide);
}

#else

const WheelKernel<double>& fastest_single() {
  return baseline_single_kernel();
}

const WheelKernel<float>& fastest_lanes(bool wide) {
  return baseline_lanes_kernel(wide);
}

#endif

}  // namespace

int limit_lanes(int most) {
  return std::exchange(limit, most);
}

const WheelKernel<double>& single_kernel() {
  return limit > 0 ? baseline_single_kernel() : fastest_single();
}

const WheelKernel<float>* lanes_kernel(int scenarios) {
  constexpr int kNarrow = 4, kWide = 8;
  if (limit == 0) return &fastest_lanes(scenarios > kNarrow);
  return limit < kNarrow ? nullptr : &baseline_lanes_kernel(scenarios > kNarrow && limit >= kWide);
}

}  // namespace hatring::solve
