// SPDX-License-Identifier: MIT
// One scenario at a time.
#include "sim/solve/kernel_impl.hpp"

namespace hatring::solve {
namespace {

struct Scalar {
  using V = double;
  static constexpr int kWidth = 1;
  static V lesser(V a, V b) { return a < b ? a : b; }
  static V greater(V a, V b) { return a > b ? a : b; }
  static V choose_negative(V sign, V negative, V positive) { return sign < 0 ? negative : positive; }
  static bool all_positive(V a) { return a > 0; }
  static bool all_finite(V a) { return __builtin_isfinite(a); }
  static double greatest(V a) { return a; }
};

}  // namespace

const WheelKernel& scalar_kernel() {
  return kernel_of<Scalar>();
}

}  // namespace hatring::solve
