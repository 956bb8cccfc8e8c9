// SPDX-License-Identifier: MIT
// The source of every kernel, over what kernel_set.cpp says of the lanes: Real, the kind of number, V, one of every
// lane, and D, the same in double precision. All of it has internal linkage.
#pragma once

#include "sim/solve/kernel.hpp"
#include "sim/solve/kernel_tables_impl.hpp"

namespace hatring::solve {
namespace {

template <class L>
struct Kernel : Tables<L> {
  using Real = typename L::Real;
  using V = typename L::V;
  using D = typename L::D;
  using Tables<L>::of;
  using Tables<L>::whole;
  using Tables<L>::larger;
  using Tables<L>::smaller;

  static V square(V x) { return x * x; }

  struct Split {
    V conductance, ring_share;
  };
  // models::contact_split of whole pads; that part of them bears which the brake is applied by.
  static Split split(const WheelArrays<Real>& s, int k, V change_ring, V change_pad, V applied) {
    const V contact = of(s.rub_contact)[k];
    const V pad = of(s.pad_half)[k] + of(s.pad_change)[k] * change_pad;
    const V per_total = 1 / (contact + of(s.ring_half)[k] + of(s.ring_change)[k] * change_ring + pad);
    const V fixed = *of(s.fixed_share);
    return {applied * per_total, fixed < V{} ? (contact / 2 + pad) * per_total : fixed};
  }

  static V pressed_conductance(const WheelArrays<Real>& s, int k, V halves, V applied) {
    return 1 / (halves + 1 / (1 / of(s.contact)[k] + of(s.pressed)[k] * applied));
  }

  static void rates(const WheelPlan& p, const WheelArrays<Real>& s, const LaneLoad& load, const Real* increments,
                    Real* rates) {
    const V *w = of(increments), *bend = of(s.bend), *start = of(s.temperature), *radiance = of(s.radiance);
    V* __restrict f = of(rates);
    V* __restrict t = of(s.now), * __restrict d = of(s.change), * __restrict t4 = of(s.fourth);
    const V heat = L::narrow(*whole(load.heat)), applied = L::narrow(*whole(load.applied)),
            progress = L::narrow(*whole(load.progress));
    const V bow = progress * (progress - 1);
    const V ambient4 = square(square(*of(s.ambient)));
    const V *flow = of(s.convection.flow), *slope = of(s.convection.slope), *flow_v = of(s.convection.flow_by_speed),
            *slope_v = of(s.convection.slope_by_speed), *curvature = of(s.convection.curvature),
            *bend_v = of(s.convection.bend_by_speed);
    V* __restrict flow_now = of(s.flow_now), * __restrict slope_now = of(s.slope_now);
    if constexpr (L::kWidth == 1) {  // in a sweep over all flows; lanes would but move more memory
      const int flows = p.flows();
      HATRING_APART
      for (int k = 0; k < flows; ++k) {
        flow_now[k] = flow[k] + progress * flow_v[k] + bow * bend_v[k];
        slope_now[k] = slope[k] + progress * slope_v[k];
      }
    }
    const auto carried = [=](int k, V over) {
      if constexpr (L::kWidth == 1) return flow_now[k] + (slope_now[k] + curvature[k] * over) * over;
      return flow[k] + (slope[k] + curvature[k] * over) * over + progress * (flow_v[k] + slope_v[k] * over) +
             bow * bend_v[k];
    };
    V convection = {}, radiation = {}, wheel = {};
    HATRING_APART
    for (int i = 0; i < p.nodes; ++i) {
      d[i] = w[i] * (1 + w[i] * bend[i]);
      t[i] = start[i] + d[i];
      t4[i] = square(square(t[i]));
      const V radiated = radiance[i] * (t4[i] - ambient4);
      f[i] = -radiated;
      radiation += radiated;
    }
    for (int k = 0; k < p.losses; ++k) {
      const int i = p.loss[k];
      const V q = carried(k, d[i]);
      f[i] -= q;
      convection += q;
    }
    for (int k = 0; k < p.wheels; ++k) {
      const int i = p.wheel[k];
      const V radiated = radiance[i] * (t4[i] - ambient4);
      convection += f[i] + radiated;
      radiation -= radiated;
      wheel -= f[i];
    }
    const V *g = of(s.conductance), *by_a = of(s.change_a), *by_b = of(s.change_b);
    for (int k = 0; k < p.plain; ++k) {
      const Ends& e = p.conductor[k];
      const V more = by_a[k] * d[e.a] + by_b[k] * d[e.b];
      const V q = g[k] * (1 - more * (1 - more)) * (t[e.a] - t[e.b]);
      f[e.a] -= q;
      f[e.b] += q;
    }
    for (int k = p.plain; k < p.conductors; ++k) {  // change_a, change_b and conductance hold resistances here
      const Ends& e = p.conductor[k];
      const V q = pressed_conductance(s, k, g[k] + by_a[k] * d[e.a] + by_b[k] * d[e.b], applied) * (t[e.a] - t[e.b]);
      f[e.a] -= q;
      f[e.b] += q;
    }
    V to_ring = {}, friction = {};
    for (int k = 0; k < p.rubbings; ++k) {
      const Ends& e = p.rubbing[k];
      const V power = heat * of(s.share)[k];
      const Split part = split(s, k, d[e.a], d[e.b], applied);
      const V into = part.ring_share * power + part.conductance * (t[e.b] - t[e.a]);
      f[e.a] += into;
      f[e.b] += power - into;
      to_ring += into;
      friction += power;
    }
    int air = 0;  // that `taken` goes to: most exchanges in a row share one
    V taken = {};
    for (int k = 0; k < p.exchanges; ++k) {
      const Ends& e = p.exchange[k];
      if (e.b != air) {
        f[air] += taken;
        air = e.b;
        taken = V{};
      }
      const V q = carried(p.losses + k, d[e.a] - d[e.b]);
      f[e.a] -= q;
      taken += q;
    }
    f[air] += taken;
    const V* pair = of(s.factor_pair);
    for (int k = 0; k < p.pairs; ++k) {
      const Ends& e = p.pair[k];
      const V q = pair[k] * (t4[e.a] - t4[e.b]);
      f[e.a] -= q;
      f[e.b] += q;
    }
    V* integral = f + p.nodes;
    integral[kConvection] = convection;
    integral[kRadiation] = radiation;
    integral[kWheelLoss] = wheel;
    integral[kFriction] = friction;
    integral[kToRing] = to_ring;
  }

  static void expand(const WheelPlan& p, const WheelArrays<Real>& s) {
    const V *r = of(s.resistivity), *dr = of(s.resistivity_slope);
    for (int k = 0; k < p.conductors; ++k) {
      const Ends& e = p.conductor[k];
      const V a = of(s.shape_a)[k], b = of(s.shape_b)[k], halves = a * r[e.a] + b * r[e.b];
      if (k < p.plain) {
        const V g = 1 / (halves + of(s.contact)[k]);
        of(s.conductance)[k] = g;
        of(s.change_a)[k] = g * a * dr[e.a];
        of(s.change_b)[k] = g * b * dr[e.b];
      } else {
        of(s.conductance)[k] = halves;
        of(s.change_a)[k] = a * dr[e.a];
        of(s.change_b)[k] = b * dr[e.b];
      }
    }
    for (int k = 0; k < p.rubbings; ++k) {
      const Ends& e = p.rubbing[k];
      const V ring = of(s.shape_ring)[k], pad = of(s.shape_pad)[k];
      of(s.ring_half)[k] = ring * r[e.a];
      of(s.pad_half)[k] = pad * r[e.b];
      of(s.ring_change)[k] = ring * dr[e.a];
      of(s.pad_change)[k] = pad * dr[e.b];
    }
  }

  static void derive(const WheelPlan& p, const WheelArrays<Real>& s, const LaneLoad& load) {
    const V* t = of(s.temperature);
    const V applied = L::narrow(*whole(load.applied));
    V *convection = of(s.loss_rows), *radiation = convection + p.nodes, *wheel = radiation + p.nodes;
    HATRING_APART
    for (int i = 0; i < p.nodes; ++i) {
      const V radiated = 4 * of(s.radiance)[i] * t[i] * t[i] * t[i];
      of(s.outward)[i] = radiated;
      convection[i] = V{};
      radiation[i] = radiated;
      wheel[i] = V{};
    }
    const V* slope = of(s.convection.slope);
    for (int k = 0; k < p.losses; ++k) {
      of(s.outward)[p.loss[k]] += slope[k];
      convection[p.loss[k]] = slope[k];
    }
    for (int k = 0; k < p.wheels; ++k) {
      const int i = p.wheel[k];
      wheel[i] = convection[i] + radiation[i];
      convection[i] = radiation[i] = V{};
    }
    // The change of the conductivities is left out: a W-method needs no more.
    V* g = of(s.coupling);
    for (int k = 0; k < p.plain; ++k) *g++ = of(s.conductance)[k];
    for (int k = p.plain; k < p.conductors; ++k) *g++ = pressed_conductance(s, k, of(s.conductance)[k], applied);
    for (int k = 0; k < p.rubbings; ++k) *g++ = split(s, k, V{}, V{}, applied).conductance;
    for (int k = 0; k < p.exchanges; ++k) *g++ = slope[p.losses + k];
    for (int k = 0; k < p.pairs; ++k) {
      const V mean = (t[p.pair[k].a] + t[p.pair[k].b]) / 2;  // symmetric stand-in for the exact 4 T^3 of each side
      *g++ = 4 * of(s.factor_pair)[k] * mean * mean * mean;
    }
  }

  static void assemble(const WheelPlan& p, const MatrixPlan& matrix, const WheelArrays<Real>& s) {
    V* m = of(s.factor.matrix);
    const V *outward = of(s.outward), *g = of(s.coupling);
    HATRING_APART
    for (int i = 0; i < p.nodes; ++i) m[i] = outward[i];
    for (int i = p.nodes; i < p.nodes + matrix.factor.entries; ++i) m[i] = V{};
    for (int k = 0; k < matrix.entries; ++k) {
      const MatrixEntry& e = matrix.entry[k];
      m[e.aa] += g[e.coupling];
      m[e.bb] += g[e.coupling];
      m[e.ab] -= g[e.coupling];
    }
  }

  // Factorises the matrix with capacity / (h gamma) on its diagonal. \returns whether all pivots are positive
  static bool factorise(const FactorPlan& p, const FactorArrays<Real>& s, double per_step) {
    V *f = of(s.factor), *column = f + p.size, *l = of(s.lower);
    const V *m = of(s.matrix), *capacity = of(s.capacity);
    HATRING_APART
    for (int i = 0; i < p.size; ++i) f[i] = m[i] + static_cast<Real>(per_step) * capacity[i];
    for (int i = 0; i < p.entries; ++i) column[i] = m[p.size + i];
    V least = V{} + static_cast<Real>(1e30), sum = {};
    for (int level = 0; level < p.levels; ++level) {
      for (int k = p.pivot_start[level]; k < p.pivot_start[level + 1]; ++k) {
        V& pivot = f[p.pivot[k]];
        least = smaller(pivot, least);
        sum += pivot;       // catches what is not a number, which no comparison does
        pivot = 1 / pivot;  // the solve multiplies by it
      }
      for (int i = p.entry_start[level]; i < p.entry_start[level + 1]; ++i) l[i] = column[i] * f[p.entry[i].a];
      for (int k = p.update_start[level]; k < p.update_start[level + 1]; ++k) {
        const FactorUpdate& u = p.update[k];
        f[u.target] -= l[u.i] * column[u.j];
      }
    }
    return L::all_positive(least) && L::all_finite(sum);
  }

  static void solve(const FactorPlan& p, const FactorArrays<Real>& s, Real* right) {
    V* x = of(right);
    const V *inverse = of(s.factor), *l = of(s.lower);
    for (int i = 0; i < p.entries; ++i) x[p.entry[i].b] -= l[i] * x[p.entry[i].a];
    HATRING_APART
    for (int i = 0; i < p.size; ++i) x[i] *= inverse[i];
    for (int i = p.entries - 1; i >= 0; --i) x[p.entry[i].a] -= l[i] * x[p.entry[i].b];
  }

  // Temperature increments: the first `count` stages weighted.
  static void blend(int n, const V* u, const double* weights, int count, V* __restrict out) {
    Real weight[StepMethod::kStages] = {};
    for (int j = 0; j < count; ++j) weight[j] = static_cast<Real>(weights[j]);
    if (count == 1) HATRING_APART
    for (int i = 0; i < n; ++i) out[i] = weight[0] * u[i];
    else if (count == 2) HATRING_APART for (int i = 0; i < n; ++i) out[i] = weight[0] * u[i] + weight[1] * u[n + i];
    else if (count == 3) HATRING_APART for (int i = 0; i < n; ++i) out[i] =
        weight[0] * u[i] + weight[1] * u[n + i] + weight[2] * u[2 * n + i];
    else HATRING_APART for (int i = 0; i < n; ++i) out[i] =
        weight[0] * u[i] + weight[1] * u[n + i] + weight[2] * u[2 * n + i] + weight[3] * u[3 * n + i];
  }

  static double depart(const WheelPlan& p, const WheelArrays<Real>& s, const double* state) {
    const D *x = whole(state), *base = whole(s.base);
    const V *warming = of(s.warming), *reach = of(s.inverse_reach);
    V *w = of(s.moved), worst = {}, sum = {};
    HATRING_APART
    for (int i = 0; i < p.nodes; ++i) {
      w[i] = L::narrow(x[i] - base[i]) * warming[i];
      const V part = w[i] * reach[i];
      worst = larger(worst, larger(part, -part));
      sum += part;
    }
    return L::all_finite(sum) ? L::greatest(worst) : __builtin_huge_val();
  }

  static void add_up(const WheelPlan& p, double* state) {
    D* x = whole(state);
    D all = {}, wheel = {};
    for (int i = 0; i < p.nodes; ++i) all += x[i];
    for (int k = 0; k < p.wheels; ++k) wheel += x[p.wheel[k]];
    x[p.nodes + kAllHeat] = all;
    x[p.nodes + kWheelHeat] = wheel;
  }

  static void follow(const WheelPlan& p, const WheelArrays<Real>& s, Real* temperature, Real* warming) {
    V *t = of(temperature), *dt = of(warming);
    const V *now = of(s.now), *f = of(s.start), *w = of(s.moved), *bend = of(s.bend), *per_heat = of(s.warming);
    HATRING_APART
    for (int i = 0; i < p.nodes; ++i) {
      t[i] = now[i];
      dt[i] = f[i] * per_heat[i] * (1 + 2 * bend[i] * w[i]);
    }
  }

  static double attempt(const WheelPlan& p, const MatrixPlan& matrix, const WheelArrays<Real>& s,
                        const StepMethod& method, double h, double ahead, const LaneLoad* loads, const double* from,
                        double* to) {
    constexpr double kNone = __builtin_huge_val();
    const int n = p.nodes;
    const D* x = whole(from);
    D* next = whole(to);
    const V *capacity = of(s.factor.capacity), *moved = of(s.moved);
    V *u = of(s.stages), *w = of(s.increment), *fresh = of(s.rates), *right = of(s.right), *timed = of(s.time_slope),
      *flow = of(s.flow), *start = of(s.start);
    if (!factorise(matrix.factor, s.factor, 1 / (h * method.diagonal))) return kNone;
    if (method.timed) {
      rates(p, s, loads[StepMethod::kStages], s.moved, s.time_slope);
      HATRING_APART
      for (int i = 0; i < n + kIntegrals; ++i) timed[i] = (timed[i] - start[i]) / static_cast<Real>(ahead);
    }
    for (int i = 0; i < kIntegrals; ++i) flow[i] = V{};
    for (int stage = 0; stage < StepMethod::kStages && stage < method.stages; ++stage) {
      const V* f = start;
      if (!method.at_start[stage]) {
        blend(n, u, method.a[stage], stage, w);
        HATRING_APART
        for (int i = 0; i < n; ++i) w[i] += moved[i];
        rates(p, s, loads[stage], s.increment, s.rates);
        f = fresh;
      }
      const auto b = static_cast<Real>(method.b[stage]);
      for (int i = 0; i < kIntegrals; ++i) flow[i] += b * f[n + i];
      V* mine = u + stage * n;
      if (stage == 0) {
        HATRING_APART
        for (int i = 0; i < n; ++i) mine[i] = f[i];
      } else {
        double per_h[StepMethod::kStages];
        for (int j = 0; j < stage; ++j) per_h[j] = method.c[stage][j] / h;
        blend(n, u, per_h, stage, right);
        HATRING_APART
        for (int i = 0; i < n; ++i) mine[i] = f[i] + capacity[i] * right[i];
      }
      if (method.timed) {
        const auto part = static_cast<Real>(method.time_slope[stage] * h);
        HATRING_APART
        for (int i = 0; i < n; ++i) mine[i] += part * timed[i];
        for (int i = 0; i < kIntegrals; ++i) flow[i] += b * part * timed[n + i];
      }
      solve(matrix.factor, s.factor, s.stages + stage * n * L::kWidth);
    }
    // No rate depends on an integral and m = b Gamma^-1, so the integrals need no stages of their own.
    blend(n, u, method.b, StepMethod::kStages, right);
    for (int k = 0; k < kLossRows; ++k) {
      const V* row = of(s.loss_rows) + k * n;
      V sum = {};
      for (int i = 0; i < n; ++i) sum += row[i] * right[i];
      flow[k] += sum;
    }
    for (int i = 0; i < kIntegrals; ++i) next[n + i] = x[n + i] + h * L::widen(flow[i]);
    blend(n, u, method.m, StepMethod::kStages, w);
    HATRING_APART
    for (int i = 0; i < n; ++i) next[i] = x[i] + L::widen(capacity[i] * w[i]);
    blend(n, u, method.error, StepMethod::kStages, right);
    const V* unscale = of(s.unscale);
    V worst = {}, sum = {};
    HATRING_APART
    for (int i = 0; i < n; ++i) {
      const V e = right[i] * unscale[i];
      worst = larger(worst, larger(e, -e));
      sum += e;
    }
    return L::all_finite(sum) ? L::greatest(worst) : kNone;
  }
};

template <class L>
const WheelKernel<typename L::Real>& kernel_of() {
  using K = Kernel<L>;
  static constexpr WheelKernel<typename L::Real> kernel{L::kWidth, K::factorise, K::solve, K::warm,       K::depart,
                                                        K::follow, K::add_up,    K::cool,  K::look_ahead, K::expand,
                                                        K::derive, K::assemble,  K::rates, K::attempt};
  return kernel;
}

}  // namespace
}  // namespace hatring::solve
