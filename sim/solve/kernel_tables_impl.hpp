// SPDX-License-Identifier: MIT
// The part of every kernel that looks up tables; part of kernel_impl.hpp. A look-up goes by one surface or node after
// the other, so as much as can be is done before and after it, in sweeps over all of them.
#pragma once

#include <initializer_list>

#include "sim/solve/kernel.hpp"

// Before a loop whose arrays do not overlap: g++ gives up where there are many.
#ifdef __clang__
#define HATRING_APART
#else
#define HATRING_APART _Pragma("GCC ivdep")
#endif

namespace hatring::solve {
namespace {

template <class L>
struct Tables {
  using V = typename L::V;
  // The coefficients of a cubic.
  typedef double Row __attribute__((vector_size(4 * sizeof(double)), aligned(sizeof(double)), may_alias));

  static V* of(double* p) { return reinterpret_cast<V*>(p); }
  static const V* of(const double* p) { return reinterpret_cast<const V*>(p); }
  static double larger(double a, double b) { return a > b ? a : b; }
  static double smaller(double a, double b) { return a < b ? a : b; }
  // NaN comes out as 0, so that it never becomes an index.
  static double inside(double place, double last) { return place > 0 ? smaller(last, place) : 0; }

  // network::HeatContent at every node, whose cells are of seven numbers.
  static void warm(const WheelPlan& p, const WheelArrays& s, const double* x) {
    const int count = p.nodes * L::kWidth;
    double *slope = s.warming, *t = s.temperature;
    for (int k = 0; k < count; ++k) {
      const double u = x[k] * s.cell_scale[k] + s.cell_offset[k];
      const int i = static_cast<int>(inside(u, p.last_cell));
      const double* c = s.cells[k] + 7 * i;
      const double part = u - i, bounded = inside(part, 1);
      t[k] = c[0] + part * (c[1] + part * (c[2] + part * c[3]));
      slope[k] = c[1] + part * (2 * c[2] + part * 3 * c[3]);
      s.bend[k] = c[2] + 3 * c[3] * part;
      s.resistivity[k] = c[4] + bounded * c[5];
      s.resistivity_slope[k] = bounded == part ? c[5] : 0;
      s.inverse_reach[k] = c[6];
    }
    HATRING_APART
    for (int k = 0; k < count; ++k) {
      const double inverse = 1 / slope[k];
      s.factor.capacity[k] = inverse * s.inverse_cell_scale[k];
      s.inverse_reach[k] = 1 / smaller(s.inverse_reach[k], s.farthest[k]);
      s.base[k] = x[k];
      s.moved[k] = 0;
      s.warming[k] = slope[k] * s.cell_scale[k];
      s.bend[k] *= inverse * inverse;
      s.resistivity_slope[k] *= inverse;
    }
  }

  // Every surface with the cubic of its table at a speed: take(slot, coefficients, place in the interval). Many in a
  // row lie in one interval of one table, whose cubic is found but once.
  template <class Take>
  static void with_cubics(const WheelPlan& p, const WheelArrays& s, const SpeedPlace& speed, int lane,
                          const Take& take) {
    const double* table = nullptr;
    int interval = -1;
    Row cubic = {};
    for (int here = lane; here < p.surfaces * L::kWidth; here += L::kWidth) {
      const int j = static_cast<int>(smaller(s.place[here], p.table.intervals - 1));
      if (s.table[here] != table || j != interval) {
        table = s.table[here];
        interval = j;
        const Row* row = reinterpret_cast<const Row*>(table) + j * p.table.rows + speed.row;
        const double* w = speed.weight;
        cubic = (w[0] * row[0] + w[1] * row[1]) + (w[2] * row[2] + w[3] * row[3]);
      }
      take(here, cubic, s.place[here] - j);
    }
  }

  static double value(const Row& c, double x) { return c[0] + x * (c[1] + x * (c[2] + x * c[3])); }

  // Members of the flows, summed over the surfaces: add(flow, surface).
  template <class Add>
  static void gather(const WheelPlan& p, std::initializer_list<double*> members, const Add& add) {
    for (double* const member : members)
      for (int i = 0; i < p.flows() * L::kWidth; ++i) member[i] = 0;
    for (int k = 0; k < p.surfaces; ++k) add(p.surface[k].flow, k);
  }

  static void cool(const WheelPlan& p, const WheelArrays& s, const SpeedPlace* speed) {
    for (int k = 0; k < p.surfaces; ++k) {
      const Cooled& c = p.surface[k];
      const V air = c.air < 0 ? *of(s.ambient) : of(s.temperature)[c.air];
      of(s.difference)[k] = of(s.temperature)[c.node] - air;
    }
    const int count = p.surfaces * L::kWidth;
    HATRING_APART
    for (int k = 0; k < count; ++k) {
      const double root = __builtin_sqrt(__builtin_fabs(s.difference[k]));
      s.root[k] = root;
      s.place[k] = inside((__builtin_copysign(root, s.difference[k]) - p.table.lowest) * p.table.inverse_step,
                          p.table.intervals);
    }
    for (int lane = 0; lane < L::kWidth; ++lane)
      with_cubics(p, s, speed[lane], lane, [&s](int here, const Row& c, double x) {
        s.surface_conductance[here] = value(c, x);
        s.surface_slope[here] = c[1] + x * (2 * c[2] + x * 3 * c[3]);
        s.surface_curvature[here] = 2 * c[2] + x * 6 * c[3];
      });
    HATRING_APART
    for (int k = 0; k < count; ++k) {
      // d(place)/d(difference) = inverse step / (2 root), bounded so that derivatives stay finite at no difference.
      const double over = s.difference[k], area = s.area[k], g = s.surface_conductance[k];
      const double wide = larger(s.root[k], 1.0), by_place = p.table.inverse_step / (2 * wide);
      const double slope = s.surface_slope[k] * p.table.inverse_step / (2 * larger(s.root[k], 0.1));
      const double bend =
          s.surface_curvature[k] * by_place * by_place - __builtin_copysign(slope, over * slope) / (2 * wide * wide);
      s.surface_conductance[k] = g * area;
      // Flow against difference is monotone; a floor keeps the matrix positive where the table's slope is not.
      s.surface_slope[k] = larger(g + slope * over, 0.1 * g) * area;
      s.surface_curvature[k] = (slope + 0.5 * bend * over) * area;
    }
    const LaneFlow& to = s.convection;
    gather(p, {to.flow, to.slope, to.curvature}, [&s, &to](int item, int k) {
      of(to.flow)[item] += of(s.surface_conductance)[k] * of(s.difference)[k];
      of(to.slope)[item] += of(s.surface_slope)[k];
      of(to.curvature)[item] += of(s.surface_curvature)[k];
    });
  }

  // The slope of a flow over temperature changes by the same part as the flow.
  static void look_ahead(const WheelPlan& p, const WheelArrays& s, const SpeedChange* change) {
    for (int lane = 0; lane < L::kWidth; ++lane) {
      with_cubics(p, s, change[lane].end, lane, [&s](int here, const Row& c, double x) { s.part[here] = value(c, x); });
      if (!change[lane].straight)
        with_cubics(p, s, change[lane].half, lane,
                    [&s](int here, const Row& c, double x) { s.half_part[here] = value(c, x); });
    }
    const int count = p.surfaces * L::kWidth;
    HATRING_APART
    for (int k = 0; k < count; ++k) {
      const double g = s.surface_conductance[k], scale = g > 0 ? s.area[k] / g : 0, less = g > 0 ? 1 : 0;
      s.part[k] = s.part[k] * scale - less;
      s.half_part[k] = s.half_part[k] * scale - less;
    }
    for (int lane = 0; lane < L::kWidth; ++lane)
      if (change[lane].straight)
        for (int k = lane; k < count; k += L::kWidth) s.half_part[k] = 0.5 * s.part[k];
    const LaneFlow& to = s.convection;
    gather(p, {to.flow_by_speed, to.slope_by_speed, to.bend_by_speed}, [&s, &to](int item, int k) {
      const V part = of(s.part)[k], flow = of(s.surface_conductance)[k] * of(s.difference)[k];
      of(to.flow_by_speed)[item] += part * flow;
      of(to.slope_by_speed)[item] += part * of(s.surface_slope)[k];
      of(to.bend_by_speed)[item] += (2.0 * part - 4.0 * of(s.half_part)[k]) * flow;
    });
  }
};

}  // namespace
}  // namespace hatring::solve
