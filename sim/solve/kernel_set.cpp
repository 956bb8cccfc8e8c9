// SPDX-License-Identifier: MIT
// The kernels of one instruction set: one scenario by itself, and several side by side in vectors of doubles by the
// compiler's own extension (g++ and clang share it). Compiled once for each instruction set with HATRING_WIDTH and
// HATRING_KERNEL, its function's name, set (CMakeLists.txt here).
#include "sim/solve/kernel_impl.hpp"

namespace hatring::solve {
namespace {

struct Single {
  using V = double;
  static constexpr int kWidth = 1;
  static V lesser(V a, V b) { return a < b ? a : b; }
  static V greater(V a, V b) { return a > b ? a : b; }
  static V choose_negative(V sign, V negative, V positive) { return sign < 0 ? negative : positive; }
  static bool all_positive(V a) { return a > 0; }
  static bool all_finite(V a) { return __builtin_isfinite(a); }
  static double greatest(V a) { return a; }
};

struct Lanes {
  static constexpr int kWidth = HATRING_WIDTH;
  // Any address will do: the arrays are aligned to 16 bytes only.
  typedef double V __attribute__((vector_size(kWidth * sizeof(double)), aligned(sizeof(double)), may_alias));
  static V lesser(V a, V b) { return a < b ? a : b; }
  static V greater(V a, V b) { return a > b ? a : b; }
  static V choose_negative(V sign, V negative, V positive) { return sign < V{} ? negative : positive; }
  static bool all_positive(V a) {
    for (int i = 0; i < kWidth; ++i)
      if (!(a[i] > 0)) return false;
    return true;
  }
  static bool all_finite(V a) {
    for (int i = 0; i < kWidth; ++i)
      if (!__builtin_isfinite(a[i])) return false;
    return true;
  }
  static double greatest(V a) {
    double most = a[0];
    for (int i = 1; i < kWidth; ++i) most = a[i] > most ? a[i] : most;
    return most;
  }
};

}  // namespace

const WheelKernel& HATRING_KERNEL(bool wide) {
  return wide ? kernel_of<Lanes>() : kernel_of<Single>();
}

}  // namespace hatring::solve
