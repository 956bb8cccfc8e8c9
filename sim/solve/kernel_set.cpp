// SPDX-License-Identifier: MIT
// The kernels of one instruction set: one scenario by itself in double precision, and several side by side in vectors
// of floats by the compiler's own extension (g++ and clang share it). Compiled once for each instruction set with
// HATRING_KERNEL, the prefix of its functions' names, set, and HATRING_SINGLE where one scenario uses it, too
// (CMakeLists.txt here).
#include "sim/solve/kernel_impl.hpp"

namespace hatring::solve {
namespace {

#ifdef HATRING_SINGLE
struct Single {
  static constexpr int kWidth = 1;
  using Real = double;
  using V = double;  // one number of every lane
  using D = double;  // and of the state, which is double throughout
  static V narrow(D a) { return a; }
  static D widen(V a) { return a; }
  static int truncated(D a) { return static_cast<int>(a); }
  static int lane(int a, int) { return a; }
  struct Four {
    V of[4];
    V operator[](int i) const { return of[i]; }
  };
  // Four columns of a table with a row for each lane.
  static Four columns(const double* const* row) { return {{row[0][0], row[0][1], row[0][2], row[0][3]}}; }
  static Real root(Real a) { return __builtin_sqrt(a); }
  static Real magnitude(Real a) { return __builtin_fabs(a); }
  static Real signed_as(Real a, Real sign) { return __builtin_copysign(a, sign); }
  static bool all_positive(V a) { return a > 0; }
  static bool all_finite(V a) { return __builtin_isfinite(a); }
  static double greatest(V a) { return a; }
};
#endif

// Vectors of so many numbers. Any address will do: the arrays of others are aligned to 16 bytes only.
template <int kLanes>
struct Vectors;
template <>
struct Vectors<4> {
  typedef float V __attribute__((vector_size(16), aligned(4), may_alias));
  typedef double D __attribute__((vector_size(32), aligned(8), may_alias));
  typedef int I __attribute__((vector_size(16)));
  static V joined(const V (&q)[1]) { return q[0]; }
};
template <>
struct Vectors<8> {
  typedef float V __attribute__((vector_size(32), aligned(4), may_alias));
  typedef double D __attribute__((vector_size(64), aligned(8), may_alias));
  typedef int I __attribute__((vector_size(32)));
  static V joined(const Vectors<4>::V (&q)[2]) { return __builtin_shufflevector(q[0], q[1], 0, 1, 2, 3, 4, 5, 6, 7); }
};

template <int kLanes>
struct Lanes {
  static constexpr int kWidth = kLanes;
  using Real = float;
  using Quad = Vectors<4>::V;
  using V = typename Vectors<kLanes>::V;
  using D = typename Vectors<kLanes>::D;
  using I = typename Vectors<kLanes>::I;
  static V narrow(const D& a) { return __builtin_convertvector(a, V); }
  static D widen(const V& a) { return __builtin_convertvector(a, D); }
  static I truncated(const D& a) { return __builtin_convertvector(a, I); }
  static D widen(const I& a) { return __builtin_convertvector(a, D); }
  static int lane(const I& a, int i) { return a[i]; }
  struct Four {
    V of[4];
    const V& operator[](int i) const { return of[i]; }
  };
  template <class Number>
  static Four columns(const Number* const* row) {
    typedef Number Row __attribute__((vector_size(4 * sizeof(Number)), aligned(sizeof(Number)), may_alias));
    constexpr int kBlocks = kWidth / 4;
    Quad column[4][kBlocks];
    for (int block = 0; block < kBlocks; ++block) {
      Quad r[4];
      for (int i = 0; i < 4; ++i)
        r[i] = __builtin_convertvector(*reinterpret_cast<const Row*>(row[4 * block + i]), Quad);
      const Quad a = __builtin_shufflevector(r[0], r[1], 0, 4, 1, 5),
                 b = __builtin_shufflevector(r[0], r[1], 2, 6, 3, 7),
                 c = __builtin_shufflevector(r[2], r[3], 0, 4, 1, 5),
                 d = __builtin_shufflevector(r[2], r[3], 2, 6, 3, 7);
      column[0][block] = __builtin_shufflevector(a, c, 0, 1, 4, 5);
      column[1][block] = __builtin_shufflevector(a, c, 2, 3, 6, 7);
      column[2][block] = __builtin_shufflevector(b, d, 0, 1, 4, 5);
      column[3][block] = __builtin_shufflevector(b, d, 2, 3, 6, 7);
    }
    using Joined = Vectors<kLanes>;
    return {
        {Joined::joined(column[0]), Joined::joined(column[1]), Joined::joined(column[2]), Joined::joined(column[3])}};
  }
  static Real root(Real a) { return __builtin_sqrtf(a); }
  static Real magnitude(Real a) { return __builtin_fabsf(a); }
  static Real signed_as(Real a, Real sign) { return __builtin_copysignf(a, sign); }
  static bool all_positive(const V& a) {
    for (int i = 0; i < kWidth; ++i)
      if (!(a[i] > 0)) return false;
    return true;
  }
  static bool all_finite(const V& a) {
    for (int i = 0; i < kWidth; ++i)
      if (!__builtin_isfinite(a[i])) return false;
    return true;
  }
  static double greatest(const V& a) {
    float most = a[0];
    for (int i = 1; i < kWidth; ++i) most = a[i] > most ? a[i] : most;
    return most;
  }
};

}  // namespace

#define HATRING_JOINED(a, b) a##b
#define HATRING_NAME(a, b) HATRING_JOINED(a, b)

#ifdef HATRING_SINGLE
const WheelKernel<double>& HATRING_NAME(HATRING_KERNEL, _single_kernel)() {
  return kernel_of<Single>();
}
#endif

const WheelKernel<float>& HATRING_NAME(HATRING_KERNEL, _lanes_kernel)(bool wide) {
  return wide ? kernel_of<Lanes<8>>() : kernel_of<Lanes<4>>();
}

}  // namespace hatring::solve
