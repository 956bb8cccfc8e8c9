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
  using Real = typename L::Real;
  using V = typename L::V;
  using D = typename L::D;
  using Four = typename L::Four;
  // The coefficients of a cubic, as tables and as kernels have them.
  typedef double Row __attribute__((vector_size(4 * sizeof(double)), aligned(sizeof(double)), may_alias));
  typedef Real Cubic __attribute__((vector_size(4 * sizeof(Real)), aligned(sizeof(Real)), may_alias));

  static V* of(Real* p) { return reinterpret_cast<V*>(p); }
  static const V* of(const Real* p) { return reinterpret_cast<const V*>(p); }
  static D* whole(double* p) { return reinterpret_cast<D*>(p); }
  static const D* whole(const double* p) { return reinterpret_cast<const D*>(p); }
  template <class T>
  static T larger(T a, T b) {
    return a > b ? a : b;
  }
  template <class T>
  static T smaller(T a, T b) {
    return a < b ? a : b;
  }
  // NaN comes out as 0, so that it never becomes an index.
  template <class T>
  static T inside(T place, T last) {
    return place > T{} ? smaller(last, place) : T{};
  }

  // network::HeatContent at every node.
  static void warm(const WheelPlan& p, const WheelArrays<Real>& s, const double* x) {
    const D *heat = whole(x), *scale = whole(s.cell_scale), *offset = whole(s.cell_offset);
    D* base = whole(s.base);
    V *slope = of(s.warming), *t = of(s.temperature), *bend = of(s.bend), *reach = of(s.inverse_reach);
    for (int k = 0; k < p.nodes; ++k) {
      const D place = heat[k] * scale[k] + offset[k];
      const auto index = L::truncated(inside(place, D{} + p.last_cell));
      const V part = L::narrow(place - L::widen(index));
      const double *cell[L::kWidth], *rest[L::kWidth];
      for (int lane = 0; lane < L::kWidth; ++lane) {
        cell[lane] = s.cells[k * L::kWidth + lane] + p.cell * L::lane(index, lane);
        rest[lane] = cell[lane] + 4;
      }
      const Four c = L::columns(cell), d = L::columns(rest);
      const V bounded = larger(smaller(part, V{} + 1), V{});
      t[k] = value(c, part);
      slope[k] = c[1] + part * (2 * c[2] + part * 3 * c[3]);
      bend[k] = c[2] + 3 * c[3] * part;
      of(s.resistivity)[k] = d[0] + bounded * d[1];
      of(s.resistivity_slope)[k] = bounded == part ? d[1] : V{};
      reach[k] = d[2];
      base[k] = heat[k];
    }
    HATRING_APART
    for (int k = 0; k < p.nodes; ++k) {
      const V inverse = 1 / slope[k];
      of(s.factor.capacity)[k] = inverse * of(s.inverse_cell_scale)[k];
      reach[k] = 1 / smaller(reach[k], of(s.farthest)[k]);
      of(s.moved)[k] = V{};
      slope[k] *= L::narrow(scale[k]);
      bend[k] *= inverse * inverse;
      of(s.resistivity_slope)[k] *= inverse;
    }
  }

  // The cubics of all surfaces at the speed of each lane, place(lane).
  template <class Place>
  static void find_cubics(const WheelPlan& p, const WheelArrays<Real>& s, const Place& place) {
    Cubic* __restrict out = reinterpret_cast<Cubic*>(s.cubic);
    const int count = p.surfaces * L::kWidth, rows = p.table.rows;
    const int* interval = s.interval;
    const double* const* table = s.table;
    for (int lane = 0; lane < L::kWidth; ++lane) {
      const SpeedPlace& speed = place(lane);
      const double* w = speed.weight;
      for (int here = lane; here < count; here += L::kWidth) {
        const Row* row = reinterpret_cast<const Row*>(table[here]) + interval[here] * rows + speed.row;
        out[here] = __builtin_convertvector((w[0] * row[0] + w[1] * row[1]) + (w[2] * row[2] + w[3] * row[3]), Cubic);
      }
    }
  }

  static Four cubic(const WheelArrays<Real>& s, int k) {
    const Real* row[L::kWidth];
    for (int lane = 0; lane < L::kWidth; ++lane) row[lane] = s.cubic + 4 * (k * L::kWidth + lane);
    return L::columns(row);
  }
  static V value(const Four& c, V x) { return c[0] + x * (c[1] + x * (c[2] + x * c[3])); }

  // Members of the flows, summed over the surfaces: add(flow, surface).
  template <class Add>
  static void gather(const WheelPlan& p, std::initializer_list<Real*> members, const Add& add) {
    for (Real* const member : members)
      for (int i = 0; i < p.flows(); ++i) of(member)[i] = V{};
    for (int k = 0; k < p.surfaces; ++k) add(p.surface[k].flow, k);
  }

  static void cool(const WheelPlan& p, const WheelArrays<Real>& s, const SpeedPlace* speed) {
    for (int k = 0; k < p.surfaces; ++k) {
      const Cooled& c = p.surface[k];
      const V air = c.air < 0 ? *of(s.ambient) : of(s.temperature)[c.air];
      of(s.difference)[k] = of(s.temperature)[c.node] - air;
    }
    const int count = p.surfaces * L::kWidth;
    const auto lowest = static_cast<Real>(p.table.lowest), inverse_step = static_cast<Real>(p.table.inverse_step),
               intervals = static_cast<Real>(p.table.intervals);
    HATRING_APART
    for (int k = 0; k < count; ++k) {
      const Real root = L::root(L::magnitude(s.difference[k]));
      const Real u = inside((L::signed_as(root, s.difference[k]) - lowest) * inverse_step, intervals);
      const int j = static_cast<int>(smaller(u, intervals - 1));
      s.root[k] = root;
      s.interval[k] = j;
      s.place[k] = u - static_cast<Real>(j);
    }
    find_cubics(p, s, [speed](int lane) -> const SpeedPlace& { return speed[lane]; });
    for (int k = 0; k < p.surfaces; ++k) {
      const Four c = cubic(s, k);
      const V x = of(s.place)[k];
      of(s.surface_conductance)[k] = value(c, x);
      of(s.surface_slope)[k] = c[1] + x * (2 * c[2] + x * 3 * c[3]);
      of(s.surface_curvature)[k] = 2 * c[2] + x * 6 * c[3];
    }
    const Real floor = static_cast<Real>(0.1);
    HATRING_APART
    for (int k = 0; k < count; ++k) {
      // d(place)/d(difference) = inverse step / (2 root), bounded so that derivatives stay finite at no difference.
      const Real over = s.difference[k], area = s.area[k], g = s.surface_conductance[k];
      const Real wide = larger<Real>(s.root[k], 1), by_place = inverse_step / (2 * wide);
      const Real slope = s.surface_slope[k] * inverse_step / (2 * larger(s.root[k], floor));
      const Real bend =
          s.surface_curvature[k] * by_place * by_place - L::signed_as(slope, over * slope) / (2 * wide * wide);
      s.surface_conductance[k] = g * area;
      // Flow against difference is monotone; a floor keeps the matrix positive where the table's slope is not.
      s.surface_slope[k] = larger(g + slope * over, floor * g) * area;
      s.surface_curvature[k] = (slope + bend * over / 2) * area;
    }
    const LaneFlow<Real>& to = s.convection;
    gather(p, {to.flow, to.slope, to.curvature}, [&s, &to](int item, int k) {
      of(to.flow)[item] += of(s.surface_conductance)[k] * of(s.difference)[k];
      of(to.slope)[item] += of(s.surface_slope)[k];
      of(to.curvature)[item] += of(s.surface_curvature)[k];
    });
  }

  // By which part conductances change from here to other speeds, place(lane).
  template <class Place>
  static void find_parts(const WheelPlan& p, const WheelArrays<Real>& s, const Place& place, Real* part) {
    find_cubics(p, s, place);
    HATRING_APART
    for (int k = 0; k < p.surfaces; ++k) {
      const V g = of(s.surface_conductance)[k];
      const V change = value(cubic(s, k), of(s.place)[k]) * of(s.area)[k] - g;
      of(part)[k] = g > V{} ? change / g : V{};
    }
  }

  // The slope of a flow over temperature changes by the same part as the flow.
  static void look_ahead(const WheelPlan& p, const WheelArrays<Real>& s, const SpeedChange* change, bool straight) {
    find_parts(
        p, s, [change](int lane) -> const SpeedPlace& { return change[lane].end; }, s.part);
    if (straight)
      for (int k = 0; k < p.surfaces; ++k) of(s.half_part)[k] = of(s.part)[k] / 2;
    else
      find_parts(
          p, s, [change](int lane) -> const SpeedPlace& { return change[lane].half; }, s.half_part);
    const LaneFlow<Real>& to = s.convection;
    gather(p, {to.flow_by_speed, to.slope_by_speed, to.bend_by_speed}, [&s, &to](int item, int k) {
      const V part = of(s.part)[k], flow = of(s.surface_conductance)[k] * of(s.difference)[k];
      of(to.flow_by_speed)[item] += part * flow;
      of(to.slope_by_speed)[item] += part * of(s.surface_slope)[k];
      of(to.bend_by_speed)[item] += (2 * part - 4 * of(s.half_part)[k]) * flow;
    });
  }
};

}  // namespace
}  // namespace hatring::solve
