// SPDX-License-Identifier: MIT
#include "sim/answer/answers.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "models/fatigue.hpp"
#include "sim/answer/beyond_tables.hpp"
#include "sim/answer/fluid_point.hpp"
#include "sim/answer/life.hpp"
#include "sim/answer/pedal.hpp"
#include "sim/answer/places.hpp"
#include "sim/answer/verdicts.hpp"

namespace hatring::answer {

std::string_view to_string(Level level) {
  switch (level) {
    case Level::within:
      return "within limits";
    case Level::near:
      return "near the limit";
    case Level::exceeded:
      return "over the limit";
    case Level::unknown:
      break;
  }
  return "not judged";
}

namespace {

void fill_peaks(AxleAnswers& out, const session::Drive& drive, const std::vector<double>& time, const AxleHistory& h) {
  for (const Column& column : h.columns) {
    if (column.group != "temperature" || column.not_applicable) continue;
    const std::size_t i = highest(column.values, {0, time.size()});
    out.peaks[column.name] = {column.values[i], place_at(drive, time[i])};
  }
}

void fill_balance(AxleAnswers& out, const AxleHistory& h) {
  Balance& b = out.balance;
  for (const auto& [name, member] :
       {std::pair{"friction", &b.friction}, std::pair{"to_ring", &b.to_ring}, std::pair{"to_pads", &b.to_pads},
        std::pair{"stored", &b.stored}, std::pair{"convection", &b.convection}, std::pair{"radiation", &b.radiation},
        std::pair{"to_wheel", &b.to_wheel}, std::pair{"residual", &b.residual}})
    *member = h.find("heat", name)->values.back();
}

void fill_laps(AxleAnswers& out, const session::Drive& drive, const std::vector<double>& time, const AxleHistory& h) {
  const std::vector<double>& friction = h.find("heat", "friction")->values;
  for (const session::Span& span : drive.spans()) {
    const Rows rows = rows_of(span, time);
    if (rows.first >= rows.last) continue;
    LapRow row{.span = span, .heat = friction[rows.last - 1] - friction[rows.first], .lowest = {}, .highest = {}};
    for (const Column& column : h.columns) {
      if (column.group != "temperature" || column.not_applicable) continue;
      row.lowest[column.name] = column.values[lowest(column.values, rows)];
      row.highest[column.name] = column.values[highest(column.values, rows)];
    }
    out.laps.push_back(std::move(row));
  }
}

void fill_rates(AxleAnswers& out, const session::Drive& drive, const std::vector<double>& time, const AxleHistory& h) {
  for (const Column& column : h.columns) {
    if (column.group != "rate" || column.not_applicable) continue;
    const std::size_t up = highest(column.values, {0, time.size()}), down = lowest(column.values, {0, time.size()});
    out.rates.push_back({.name = column.name,
                         .what = column.long_name,
                         .unit = column.unit,
                         .rise = std::max(0.0, column.values[up]),
                         .fall = std::min(0.0, column.values[down]),
                         .rise_place = place_at(drive, time[up]),
                         .fall_place = place_at(drive, time[down])});
  }
}

void fill_extremes(AxleAnswers& out, const session::Drive& drive, const std::vector<double>& time,
                   const AxleHistory& h) {
  for (const Column& column : h.columns) {
    if ((column.group != "joint" && column.group != "stress") || column.not_applicable) continue;
    const std::size_t up = highest(column.values, {0, time.size()}), down = lowest(column.values, {0, time.size()});
    out.extremes.push_back({.group = column.group,
                            .name = column.name,
                            .what = column.long_name,
                            // Kelvins among the stresses are differences.
                            .unit = column.unit == "K" ? "delta_K" : column.unit,
                            .highest = column.values[up],
                            .lowest = column.values[down],
                            .highest_place = place_at(drive, time[up]),
                            .lowest_place = place_at(drive, time[down])});
  }
}

void fill_joint(AxleAnswers& out, const session::Drive& drive, const std::vector<double>& time, const AxleHistory& h,
                const session::Joint& joint) {
  const Column* column = h.find("joint", "differential_expansion");
  JointAnswer& j = out.joint;
  j.applicable = column && !column->not_applicable;
  if (!j.applicable) return;
  const std::vector<double>& d = column->values;
  const std::size_t top = highest(d, {0, time.size()}), bottom = lowest(d, {0, time.size()});
  j.largest = d[top];
  j.smallest = d[bottom];
  j.largest_place = place_at(drive, time[top]);
  j.smallest_place = place_at(drive, time[bottom]);
  j.needed_float = std::max(j.largest, -j.smallest);
  j.float_clearance = joint.kind == session::JointKind::floating ? joint.float_clearance : 0;
  // Swings of more than a hundredth of a millimetre, as rainflow pairs them.
  constexpr double kSwing = 10e-6;
  for (const models::LoadCycle& cycle : models::rainflow(models::turning_points(d, kSwing))) {
    j.swings += cycle.count;
    j.largest_swing = std::max(j.largest_swing, cycle.range);
  }
  // A change of sign counts once the movement has left a band of 5 um about zero on the other side.
  constexpr double kBand = 5e-6;
  int side = 0;
  for (std::size_t i = 0; i < d.size(); ++i) {
    const int now = d[i] > kBand ? 1 : d[i] < -kBand ? -1 : 0;
    if (now == 0 || now == side) continue;
    if (side != 0) j.sign_changes.push_back(place_at(drive, time[i]));
    side = now;
  }
}

void fill_fluid(AxleAnswers& out, const session::Drive& drive, const session::Fluid& fluid) {
  const Peak& peak = out.peaks.at("fluid");
  bool standing = false;
  for (const session::Span& s : drive.spans())
    standing |= s.phase == session::Phase::parked && peak.place.time >= s.begin && peak.place.time <= s.end;
  const BoilingPoint boiling = boiling_point_of(fluid);
  out.fluid = {.peak = peak.value,
               .boiling_dry = fluid.dry_boiling,
               .boiling_wet = fluid.wet_boiling,
               .water = boiling.water,
               .boiling_aged = boiling.aged,
               .boiling_judged = boiling.judged,
               .basis = boiling.basis,
               .place = peak.place,
               .after_parking = standing};
}

AxleAnswers answer_axle(const session::Case& c, const session::Drive& drive, const std::vector<double>& time,
                        const AxleHistory& h, session::Axle axle) {
  AxleAnswers out;
  fill_peaks(out, drive, time, h);
  fill_balance(out, h);
  fill_laps(out, drive, time, h);
  fill_rates(out, drive, time, h);
  fill_extremes(out, drive, time, h);
  fill_joint(out, drive, time, h, c.brake(axle).rotor.joint);
  fill_fluid(out, drive, c.brake(axle).fluid);
  out.pads = pad_answer(c, drive, time, h, axle);
  out.bedding = bedding_answer(c, drive, time, h, axle);
  out.damage = damage(c, axle, h);
  out.softening = softening(c, axle, time, h);
  out.quenches = quenches(c, axle, drive, time, h);
  return out;
}

}  // namespace

Answers answer(const session::Case& c, const session::Drive& d, const History& h, const BrakeBalance& balance) {
  Answers a;
  a.brake_balance = balance;
  a.front = answer_axle(c, d, h.time, h.front, session::Axle::front);
  a.rear = answer_axle(c, d, h.time, h.rear, session::Axle::rear);
  a.warnings = c.warnings;
  a.soaked = d.spans().empty() || d.spans().back().phase != session::Phase::driving;
  if (!a.soaked)
    a.warnings.push_back(
        "the session ends while the car is moving: fluid, caliper and hat are often hottest minutes after it has "
        "stopped; end it with `- {park: 20 min}`");
  a.verdicts = judge(c, d, h.time, h.front, session::Axle::front, a.front);
  for (Verdict& v : judge(c, d, h.time, h.rear, session::Axle::rear, a.rear)) a.verdicts.push_back(std::move(v));
  for (const session::Axle axle : {session::Axle::front, session::Axle::rear}) {
    for (std::string& w : beyond_tables(c, axle, a.axle(axle))) a.warnings.push_back(std::move(w));
    if (c.brake(axle).rotor.joint.kind == session::JointKind::one_piece)
      a.warnings.push_back(
          fmt::format("{} disc of one piece: the stress of its neck, which the cold hat holds back, and its coning are "
                      "not computed; "
                      "that flatters it beside a disc with a joint",
                      axle == session::Axle::front ? "front" : "rear"));
  }
  fill_pedal(c, d, h, a);
  for (Verdict& v : judge_pedal(c, d, a)) a.verdicts.push_back(std::move(v));
  a.symptoms = symptoms(c, a);
  conclude(a);
  return a;
}

double share_left(const Verdict& v) {
  return v.scale > 0 ? v.margin / v.scale : v.margin;
}

bool same_limit(const Verdict& a, const Verdict& b) {
  return a.axle == b.axle && a.key == b.key && a.part == b.part && a.aspect == b.aspect;
}

namespace {

// What a limit stands for: boiling and breaking before fading, fading before wear, wear before comfort.
int consequence(const Verdict& v) {
  for (const char* key : {"cold_share", "most_play"})  // near at worst
    if (v.key == key) return 3;
  for (const char* key : {"hot_share", "pad_print", "bedding"})
    if (v.key == key) return 2;
  for (const char* key : {"pad", "fade", "pedal_growth", "effort", "rear_bias", "pad_left", "ring_left"})
    if (v.key == key) return 1;
  return 0;
}

}  // namespace

void conclude(Answers& a) {
  // Worst level first; within a level, the gravest; then the smallest margin by what it takes to use it up.
  std::stable_sort(a.verdicts.begin(), a.verdicts.end(), [](const Verdict& x, const Verdict& y) {
    const auto rank = [](Level level) { return level == Level::unknown ? -1 : static_cast<int>(level); };
    if (x.level != y.level) return rank(x.level) > rank(y.level);
    // Far from all limits, the closest is what matters.
    if (x.level != Level::within && consequence(x) != consequence(y)) return consequence(x) < consequence(y);
    return share_left(x) < share_left(y);
  });
  if (!a.verdicts.empty()) a.level = a.verdicts.front().level;
  a.sentence = first_sentence(a.verdicts);
  if (!a.soaked) a.sentence += kNotSoaked;
}

const std::vector<std::string>& cautions() {
  static const std::vector<std::string> text{
      "This is an estimate from a model and can be wrong. It does not approve brakes: inspect the discs, joints, pads "
      "and fluid before and after every session.",
      "Follow the part makers' limits, the event's rules and local law, and have safety-critical work checked by a "
      "qualified person.",
      "A long or soft pedal, pulling, vibration, smoke or a new noise: slow down, leave the line, come in, and stop "
      "for the day.",
      "Hot parts burn. No water or solvent on hot brakes, no handbrake and no foot on the pedal when parked hot."};
  return text;
}

}  // namespace hatring::answer
