// SPDX-License-Identifier: MIT
#include "sim/session/ledger.hpp"

#include <algorithm>
#include <cmath>

#include "sim/session/cubic.hpp"

namespace hatring::session {
namespace {

double raw_power(const Piece& p, const Road& road, double s) {
  const double v = speed_at(p, s);
  return brake_demand(road, v, acceleration_at(p, s), grade_at(p, s)) * v;
}

// Adds the offsets at which f changes sign.
template <class F>
void add_roots(double length, const F& f, std::vector<double>& cuts) {
  constexpr int kSamples = 24;
  double s0 = 0, f0 = f(0.0);
  for (int i = 1; i <= kSamples; ++i) {
    const double s1 = length * i / kSamples, f1 = f(s1);
    if ((f0 < 0) != (f1 < 0)) {
      double lo = s0, hi = s1;
      for (int k = 0; k < 60; ++k) {
        const double middle = (lo + hi) / 2;
        ((f(middle) < 0) == (f0 < 0) ? lo : hi) = middle;
      }
      cuts.push_back((lo + hi) / 2);
    }
    s0 = s1, f0 = f1;
  }
}

// Offsets 0 .. length between which the power of a braking piece is smooth.
std::vector<double> smooth_parts(const Piece& p, const Road& road, const BrakeRamp& r) {
  const double h = length_of(p);
  std::vector<double> cuts = {0, h};
  for (const double t : {r.on_begin, r.on_end, r.off_begin, r.off_end})
    if (t > p.begin && t < p.end) cuts.push_back(t - p.begin);
  add_roots(
      h, [&](double s) { return raw_power(p, road, s); }, cuts);
  for (const double edge : {kEngineGone, kEngineFull})
    add_roots(
        h, [&](double s) { return speed_at(p, s) - edge; }, cuts);
  std::sort(cuts.begin(), cuts.end());
  return cuts;
}

// Ramps as wide as the rise time, centred on begin and end of the braking; narrower in a short braking, and moved
// inside where the session, a parking or a bench begins or ends there.
BrakeRamp place_ramp(const Course& course, std::size_t b, double rise_time) {
  const Interval& i = course.brakings[b];
  const double lasts = i.end - i.begin, half = std::min(rise_time, lasts) / 2;
  const auto next = std::lower_bound(course.bounds.begin(), course.bounds.end(), i.end);
  const auto previous = std::upper_bound(course.bounds.begin(), course.bounds.end(), i.begin);
  double before = i.begin - *(previous - 1), after = *next - i.end;
  if (b > 0) before = std::min(before, (i.begin - course.brakings[b - 1].end) / 2);
  if (b + 1 < course.brakings.size()) after = std::min(after, (course.brakings[b + 1].begin - i.end) / 2);
  const double width = 2 * half, inside = std::min(width, lasts / 2);
  BrakeRamp r;
  r.on_begin = i.begin - std::min(half, before);
  r.on_end = r.on_begin + (before < half ? inside : width);
  r.off_end = i.end + std::min(half, after);
  r.off_begin = r.off_end - (after < half ? inside : width);
  return r;
}

struct Range {
  std::size_t first = 0, last = 0;
};

// Fills one braking and its ramp; adds to the engine's part of the session's energy.
Braking close_braking(const Course& course, const Road& road, Range range, double slip_share, BrakeRamp& r) {
  const auto& pieces = course.pieces;
  const Piece &head = pieces[range.first], &tail = pieces[range.last];
  Braking b{.begin = head.begin, .end = tail.end, .begin_distance = head.distance};
  b.entry_speed = head.c[0];
  b.exit_speed = std::max(0.0, speed_at(tail, length_of(tail)));
  r.power_on = std::max(0.0, raw_power(head, road, 0));
  r.power_off = std::max(0.0, raw_power(tail, road, length_of(tail)));
  const auto level = [&r](double t) { return r.level(t); };
  double wanted = 0, ramped = 0, peak = std::max(r.power_on * r.level(b.begin), r.power_off * r.level(b.end));
  ramped += r.power_on * integrate(r.on_begin, std::min(r.on_end, b.begin), level);
  ramped += r.power_off * integrate(std::max(r.off_begin, b.end), r.off_end, level);
  for (std::size_t i = range.first; i <= range.last; ++i) {
    const Piece& p = pieces[i];
    b.kinetic +=
        models::kinetic_energy(road.load, p.c[0]) - models::kinetic_energy(road.load, speed_at(p, length_of(p)));
    const std::vector<double> cuts = smooth_parts(p, road, r);
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
      const double s0 = cuts[k], s1 = cuts[k + 1];
      const double part = integrate(s0, s1, [&](double s) { return raw_power(p, road, s); });
      b.resisted += integrate(s0, s1, [&](double s) {
        const double v = speed_at(p, s);
        const auto f = models::resistances(road.load, v, acceleration_at(p, s), grade_at(p, s));
        return (f.drag + f.rolling + f.grade + engine_force(road, v)) * v;
      });
      (part > 0 ? wanted : b.clipped) += part;
      if (part <= 0) continue;
      ramped += integrate(s0, s1, [&](double s) {
        const double power = raw_power(p, road, s) * r.level(p.begin + s);
        peak = std::max(peak, power);
        return power;
      });
      peak = std::max(
          {peak, raw_power(p, road, s0) * r.level(p.begin + s0), raw_power(p, road, s1) * r.level(p.begin + s1)});
    }
  }
  b.tyre_slip = slip_share * wanted;
  b.brake = wanted - b.tyre_slip;
  r.scale = ramped > 0 ? b.brake / ramped : 0;
  b.peak_power = peak * r.scale;
  return b;
}

bool on_bench(const Course& course, const Piece& p) {
  return std::any_of(course.holds.begin(), course.holds.end(),
                     [&p](const BenchHeat& h) { return p.begin >= h.begin && p.end <= h.end; });
}

// Resistances over the whole session; demand outside brakings.
void add_road(const Course& course, const Road& road, DriveEnergy& e) {
  for (const Piece& p : course.pieces) {
    if (on_bench(course, p)) continue;
    const double h = length_of(p);
    const auto work = [&](auto pick) {
      return integrate(0, h, [&](double s) {
        const double v = speed_at(p, s);
        return pick(models::resistances(road.load, v, acceleration_at(p, s), grade_at(p, s))) * v;
      });
    };
    using R = models::Resistances;
    e.kinetic += models::kinetic_energy(road.load, p.c[0]) - models::kinetic_energy(road.load, speed_at(p, h));
    e.drag += work([](const R& r) { return r.drag; });
    e.rolling += work([](const R& r) { return r.rolling; });
    e.grade += work([](const R& r) { return r.grade; });
    if (p.braking < 0) e.off_brake += work([](const R& r) { return r.inertia - r.drag - r.rolling - r.grade; });
  }
}

void add_engine(const Course& course, const Road& road, DriveEnergy& e) {
  for (const Piece& p : course.pieces) {
    if (p.braking < 0) continue;
    const std::vector<double> cuts = smooth_parts(p, road, {});
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k)
      e.engine += integrate(cuts[k], cuts[k + 1], [&](double s) {
        const double v = speed_at(p, s);
        return engine_force(road, v) * v;
      });
  }
}

}  // namespace

Ledger make_ledger(const Course& course, const Road& road, double slip_share, double rise_time) {
  std::vector<Range> ranges(course.brakings.size());
  for (std::size_t i = 0; i < course.pieces.size(); ++i) {
    const int b = course.pieces[i].braking;
    if (b < 0) continue;
    Range& r = ranges[static_cast<std::size_t>(b)];
    if (i == 0 || course.pieces[i - 1].braking != b) r.first = i;
    r.last = i;
  }
  Ledger out;
  for (std::size_t b = 0; b < ranges.size(); ++b) {
    BrakeRamp r = place_ramp(course, b, rise_time);
    Braking braking = close_braking(course, road, ranges[b], slip_share, r);
    const auto span = std::upper_bound(course.spans.begin(), course.spans.end(), braking.begin,
                                       [](double t, const Span& s) { return t < s.end; });
    if (span != course.spans.end()) {
      braking.lap = span->lap;
      braking.lap_distance = braking.begin_distance - span->begin_distance;
    }
    out.energy.brake += braking.brake;
    out.energy.tyre_slip += braking.tyre_slip;
    out.energy.clipped += braking.clipped;
    out.brakings.push_back(braking);
    out.ramps.push_back(r);
  }
  add_road(course, road, out.energy);
  add_engine(course, road, out.energy);
  return out;
}

}  // namespace hatring::session
