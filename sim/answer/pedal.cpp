// SPDX-License-Identifier: MIT
#include "sim/answer/pedal.hpp"

#include <algorithm>
#include <cmath>

#include "models/constants.hpp"
#include "sim/answer/pedal_line.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

// What the brakings are read from.
struct Reading {
  const session::Case& c;
  const session::Drive& drive;
  const History& h;
  std::optional<models::Hydraulics> pedal;
  models::LinePressures strongest;  // by the driver's largest effort
};

const std::vector<double>* values(const AxleHistory& h, const char* group, const char* name) {
  const Column* column = h.find(group, name);
  return column && !column->not_applicable ? &column->values : nullptr;
}

CornerAxle corner_axle(const AxleHistory& h, const session::Pads& pads, Rows rows) {
  CornerAxle out;
  const auto *out_face = values(h, "temperature", "ring_face_outboard"),
             *in_face = values(h, "temperature", "ring_face_inboard");
  const std::vector<double>& bulk = *values(h, "temperature", "ring_mean");
  const auto *friction = values(h, "pedal", "friction_coefficient"), *pressure = values(h, "pedal", "pressure");
  double faces = 0, frictions = 0, pressures = 0;
  std::size_t braked = 0;
  for (std::size_t i = rows.first; i < rows.last; ++i) {
    const double face = std::max((*out_face)[i], (*in_face)[i]);
    faces += face;
    out.face_peak = i == rows.first ? face : std::max(out.face_peak, face);
    if (!friction || !pressure || (*pressure)[i] <= 0) continue;
    ++braked;
    frictions += (*friction)[i];
    pressures += (*pressure)[i];
    out.lowest_friction = braked == 1 ? (*friction)[i] : std::min(out.lowest_friction, (*friction)[i]);
    out.pressure = braked == 1 ? (*pressure)[i] : std::max(out.pressure, (*pressure)[i]);
  }
  out.face_rise = out.face_peak - std::max((*out_face)[rows.first], (*in_face)[rows.first]);
  out.bulk_rise = bulk[rows.last - 1] - bulk[rows.first];
  out.face_mean = faces / static_cast<double>(rows.last - rows.first);
  if (braked == 0) return out;
  out.friction = frictions / static_cast<double>(braked);
  out.mean_pressure = pressures / static_cast<double>(braked);
  if (pads.reference_friction > 0) out.fade = 1 - out.friction / pads.reference_friction;
  return out;
}

// Share of the tyres' grip, reach of the brakes and what it costs where they do not reach.
void fill_reach(const Reading& r, Rows rows, Corner& corner) {
  const auto *front = values(r.h.front, "pedal", "pressure"), *rear = values(r.h.rear, "pedal", "pressure"),
             *effort = values(r.h.front, "pedal", "effort");
  const double weight = r.c.car.mass * models::kGravity;
  // With a fixed share the rear line is not tied to the pedal: it reaches as far as the front one does.
  const double grip = r.c.car.grip > 0 ? r.c.car.grip : r.c.limits.tyre_grip;
  const bool tied = r.c.brakes.share_law == session::ShareLaw::hydraulic;
  double missing = 0, given = 0, way = 0;
  std::size_t hint = 0;
  for (std::size_t i = rows.first; i < rows.last; ++i) {
    const double t = r.h.time[i];
    const session::Moment m = r.drive.at(t, hint);
    if (m.brake_power <= 0 || m.speed < 1) continue;
    const double force = m.brake_power / (m.speed * (1 - r.c.car.tyre_slip_share));
    corner.tyres_used = std::max(corner.tyres_used, force / (weight * grip));
    if (!effort) continue;
    corner.effort = std::isnan(corner.effort) ? (*effort)[i] : std::max(corner.effort, (*effort)[i]);
    const auto part = [](double needed, double most) { return needed > most ? most / needed : 1.0; };
    const double p_front = front ? (*front)[i] : 0, p_rear = rear ? (*rear)[i] : 0;
    const double of_front = part(p_front, r.strongest.front);
    const double of_rear = tied || p_front <= 0 ? part(p_rear, r.strongest.rear) : of_front;
    const double used = p_front > 0 ? p_front / r.strongest.front : p_rear / r.strongest.rear;
    corner.brakes_used = std::isnan(corner.brakes_used) ? used : std::max(corner.brakes_used, used);
    const double share = r.drive.front_share(t), reached = share * of_front + (1 - share) * of_rear;
    const double step = i + 1 < r.h.time.size() ? r.h.time[i + 1] - t : 0;
    missing += force * (1 - reached) * m.speed * step;
    given += force * reached * m.speed * step;
    way += m.speed * step;
  }
  // Energy left over at the end of the braking, taken by the mean force that the brakes can give.
  corner.reachable = !(corner.brakes_used > 1);
  if (!corner.reachable && given > 0) corner.longer = missing * way / given;
}

// The same corner at the same speeds, driven earlier: the first time counts.
const Corner* first_like(const std::vector<Corner>& earlier, const Corner& now) {
  constexpr double kSamePlace = 30;  // [m]
  constexpr double kSameSpeed = 0.02;
  const std::string kind = kind_of_span(now.place.span);
  for (const Corner& c : earlier)
    if (kind_of_span(c.place.span) == kind && std::abs(c.place.lap_distance - now.place.lap_distance) < kSamePlace &&
        std::abs(c.entry_speed - now.entry_speed) < kSameSpeed * now.entry_speed &&
        std::abs(c.exit_speed - now.exit_speed) < kSameSpeed * now.entry_speed)
      return &c;
  return nullptr;
}

std::vector<Corner> corners(const Reading& r) {
  std::vector<Corner> out;
  const auto &front_heat = r.h.front.find("heat", "friction")->values,
             &rear_heat = r.h.rear.find("heat", "friction")->values;
  for (const session::Braking& b : r.drive.brakings()) {
    const Rows rows = rows_of({.begin = b.begin, .end = b.end}, r.h.time);
    if (rows.first >= rows.last) continue;
    Corner corner;
    corner.place = place_of(r.drive, b);
    corner.duration = b.end - b.begin;
    corner.entry_speed = b.entry_speed;
    corner.exit_speed = b.exit_speed;
    corner.number = !out.empty() && out.back().place.span == corner.place.span ? out.back().number + 1 : 1;
    corner.front = corner_axle(r.h.front, r.c.brakes.front.pads, rows);
    corner.rear = corner_axle(r.h.rear, r.c.brakes.rear.pads, rows);
    const std::size_t first = rows.first > 0 ? rows.first - 1 : 0, last = std::min(rows.last, r.h.time.size() - 1);
    const double front = front_heat[last] - front_heat[first], rear = rear_heat[last] - rear_heat[first];
    if (front + rear > 0) {
      corner.front.share = front / (front + rear);
      corner.rear.share = rear / (front + rear);
    }
    corner.ideal_front_share =
        models::ideal_front_share(r.c.car.front_mass_fraction, r.c.car.cg_height, r.c.car.wheelbase,
                                  (b.entry_speed - b.exit_speed) / corner.duration);
    fill_reach(r, rows, corner);
    if (driven_in_anger(corner.place.span))
      if (const Corner* before = first_like(out, corner)) {
        corner.front.growth = corner.front.mean_pressure / before->front.mean_pressure - 1;
        corner.rear.growth = corner.rear.mean_pressure / before->rear.mean_pressure - 1;
      }
    out.push_back(std::move(corner));
  }
  return out;
}

double larger(double a, double b) {
  return std::isnan(a) ? b : std::isnan(b) ? a : std::max(a, b);
}

std::vector<PedalLap> laps(const session::Drive& drive, const std::vector<Corner>& corners) {
  std::vector<PedalLap> out;
  for (const session::Span& span : drive.spans()) {
    PedalLap lap{.lap = span.lap, .label = span.label};
    double time = 0, front = 0, rear = 0, share = 0, front_growth = 0, rear_growth = 0;
    int grown = 0;
    for (const Corner& c : corners) {
      if (c.place.time < span.begin || c.place.time >= span.end) continue;
      lap.effort = larger(lap.effort, c.effort);
      lap.front_pressure = larger(lap.front_pressure, c.front.pressure);
      lap.rear_pressure = larger(lap.rear_pressure, c.rear.pressure);
      time += c.duration;
      front += c.duration * c.front.friction;
      rear += c.duration * c.rear.friction;
      share += c.duration * c.front.share;
      if (std::isnan(c.front.growth) && std::isnan(c.rear.growth)) continue;
      ++grown;
      front_growth += c.front.growth;
      rear_growth += c.rear.growth;
    }
    if (time <= 0) continue;
    lap.front_friction = front / time;
    lap.rear_friction = rear / time;
    lap.front_share = share / time;
    if (grown > 0) lap.growth = larger(front_growth, rear_growth) / grown;
    out.push_back(std::move(lap));
  }
  return out;
}

void fill_axle(const session::Drive& drive, const std::vector<double>& time, const AxleHistory& h,
               const session::Pads& pads, const std::vector<Corner>& corners, CornerAxle Corner::*side,
               PedalAnswer& p) {
  const auto *friction = values(h, "pedal", "friction_coefficient"), *pressure = values(h, "pedal", "pressure");
  if (!friction || !pressure) return;
  for (std::size_t i = 0; i < time.size(); ++i) {
    if ((*pressure)[i] <= 0) continue;
    const double mu = (*friction)[i];
    p.lowest_friction = p.applicable ? std::min(p.lowest_friction, mu) : mu;
    p.highest_friction = p.applicable ? std::max(p.highest_friction, mu) : mu;
    p.applicable = true;
  }
  const std::size_t top = highest(*pressure, {0, time.size()});
  p.highest_pressure = (*pressure)[top];
  p.highest_pressure_place = place_at(drive, time[top]);
  p.reference_friction = pads.reference_friction;
  for (const Corner& c : corners) {
    const CornerAxle& a = c.*side;
    if (const double fade = hot_fade(a, pads); fade > p.fade) {
      p.fade = fade;
      p.fade_place = c.place;
    }
    if (a.growth > p.growth) {
      p.growth = a.growth;
      p.growth_place = c.place;
    }
  }
}

void fill_balance(const std::vector<Corner>& corners, BrakeBalance& b) {
  bool any = false;
  for (const Corner& c : corners) {
    if (std::isnan(c.front.share)) continue;
    b.lowest = any ? std::min(b.lowest, c.front.share) : c.front.share;
    b.highest = any ? std::max(b.highest, c.front.share) : c.front.share;
    const double excess = c.ideal_front_share - c.front.share;
    if (!any || excess > b.rear_excess) {
      b.rear_excess = excess;
      b.rear_excess_place = c.place;
    }
    any = true;
  }
}

}  // namespace

double hot_fade(const CornerAxle& corner, const session::Pads& pads) {
  const bool hot = corner.face_mean > 0.5 * (pads.window_low + pads.window_high);
  return hot && corner.fade > 0 ? corner.fade : 0;
}

Place place_of(const session::Drive& drive, const session::Braking& braking) {
  constexpr double kInside = 1e-6;  // [s]
  Place place = place_at(drive, braking.begin + kInside);
  place.time = braking.begin;
  return place;
}

std::string kind_of_span(const std::string& label) {
  return label.substr(0, label.find(' '));
}

bool driven_in_anger(const std::string& label) {
  const std::string kind = kind_of_span(label);
  return kind == "lap" || kind == "snub";
}

void add_effort(const session::Case& c, History& h) {
  const auto *front = values(h.front, "pedal", "pressure"), *rear = values(h.rear, "pedal", "pressure");
  const std::optional<models::Hydraulics> pedal = own_pedal_of(c);
  Column column{"pedal",
                "effort",
                "N",
                "Pedal force behind that pressure; 0 off the brakes",
                std::vector<double>(h.time.size(), kNone),
                !pedal || (!front && !rear)};
  if (!column.not_applicable)
    for (std::size_t i = 0; i < h.time.size(); ++i)
      column.values[i] = front && (!rear || (*front)[i] > 0) ? pedal->effort_for_front((*front)[i])
                                                             : pedal->effort_for_rear((*rear)[i]);
  for (AxleHistory* axle : {&h.front, &h.rear}) {
    // Beside its like, so that the columns of a group stand together.
    const auto after = std::find_if(axle->columns.begin(), axle->columns.end(),
                                    [](const Column& x) { return x.group == "pedal" && x.name == "pressure"; });
    axle->columns.insert(after == axle->columns.end() ? after : after + 1, column);
  }
}

void fill_pedal(const session::Case& c, const session::Drive& drive, const History& h, Answers& a) {
  Reading r{c, drive, h, own_pedal_of(c), {}};
  PedalCar& p = a.pedal;
  p.largest_effort = c.brakes.hydraulic.largest_effort;
  p.effort_known = r.pedal.has_value() && values(h.front, "pedal", "effort") != nullptr;
  if (r.pedal) r.strongest = r.pedal->pressures(p.largest_effort);
  p.corners = corners(r);
  p.laps = laps(drive, p.corners);
  for (const Corner& corner : p.corners) {
    if (corner.effort > p.highest_effort) {
      p.highest_effort = corner.effort;
      p.highest_effort_place = corner.place;
    }
    if (!corner.reachable) ++p.unreachable;
    if (corner.longer > p.longer) {
      p.longer = corner.longer;
      p.longer_place = corner.place;
    }
  }
  fill_axle(drive, h.time, h.front, c.brakes.front.pads, p.corners, &Corner::front, a.front.pedal);
  fill_axle(drive, h.time, h.rear, c.brakes.rear.pads, p.corners, &Corner::rear, a.rear.pedal);
  fill_balance(p.corners, a.brake_balance);
}

}  // namespace hatring::answer
