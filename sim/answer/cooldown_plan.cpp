// SPDX-License-Identifier: MIT
#include "sim/answer/cooldown_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "sim/answer/half_lap.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {

std::vector<Plan> plans_of(const session::CooldownPlans& space) {
  std::vector<double> laps{0}, rolls{0};
  for (const auto& [to, from] : {std::pair{&laps, &space.laps}, std::pair{&rolls, &space.roll}})
    for (const double v : *from)
      if (v > 0) to->push_back(v);
  std::vector<Plan> out;
  for (const double n : laps)
    for (const double pace : n > 0 ? space.pace : std::vector<double>{1})
      for (const double roll : rolls)
        for (const bool fan : {false, true})
          if (!fan || space.fan > 0) out.push_back({n, pace, roll, fan});
  return out;
}

bool counts_for_plan(const Verdict& v) {
  // These are about getting hot, or about the session as a whole; looseness is no danger.
  constexpr std::array kOther{"face_rate", "sessions_left", "most_play"};
  constexpr double kFlag = 1e-6;  // [s]
  return v.level != Level::unknown && v.place.time > kFlag &&
         std::find(kOther.begin(), kOther.end(), v.key) == kOther.end();
}

const Verdict* Outcome::tightest() const {
  const auto found = std::find_if(verdicts.begin(), verdicts.end(), counts_for_plan);
  return found == verdicts.end() ? nullptr : &*found;
}

namespace {

constexpr double kSameRow = 1e-9;    // [s]
constexpr double kSoakInterval = 5;  // between rows at rest: the soak is slow, and there are many plans [s]

double highest_of(const AxleHistory& h, const char* name) {
  const Column* column = h.find("temperature", name);
  if (!column || column->not_applicable) return std::nan("");
  return *std::max_element(column->values.begin(), column->values.end());
}

Soak soak_of(const History& whole, const AxleHistory& h, double rest) {
  Soak s;
  const auto row = static_cast<std::size_t>(std::lower_bound(whole.time.begin(), whole.time.end(), rest - kSameRow) -
                                            whole.time.begin());
  s.at_rest = h.find("temperature", "ring_mean")->values[row];
  s.fluid = highest_of(h, "fluid");
  s.piston = highest_of(h, "piston");
  s.caliper = highest_of(h, "caliper");
  s.hat = highest_of(h, "hat_flange");
  if (const Column* fluid = h.find("temperature", "fluid"); !std::isnan(s.fluid))
    s.fluid_after = whole.time[highest(fluid->values, {0, whole.time.size()})] - rest;
  const std::vector<double>& rate = h.find("rate", "ring_face")->values;
  s.cooling = std::max(0.0, -*std::min_element(rate.begin(), rate.end()));
  if (const Column* growth = h.find("joint", "differential_expansion"); growth && !growth->not_applicable) {
    const auto [low, high] = std::minmax_element(growth->values.begin(), growth->values.end());
    s.largest_growth = *high;
    s.smallest_growth = *low;
  }
  return s;
}

}  // namespace

PlanRunner::PlanRunner(const HotRun& hot, std::size_t lap, RunOptions options)
    : hot_(hot),
      lap_(static_cast<int>(lap)),
      start_(hot.after.at(lap)),
      options_(std::move(options)),
      c_(hot.c),
      cool_(hot.cool) {
  c_.output.parked_interval = std::max(c_.output.parked_interval, kSoakInterval);
  for (const auto& [axle, wear] :
       {std::pair{session::Axle::front, &c_.history.front}, std::pair{session::Axle::rear, &c_.history.rear}})
    for (const session::Soak& soak : hat_soak(c_, axle, hot.history, start_.time)) wear->hat_soak.push_back(soak);
  run_up_ = std::get<session::DriveStep>(hot.c.session[hot.step]);
  run_up_.laps = 1;
  half_trace_ = c_.traces.size();
  const std::vector<double>& laps = c_.cooldown.laps;
  if (std::any_of(laps.begin(), laps.end(), [](double n) { return n != std::floor(n); }))
    c_.traces.push_back(first_half(c_.traces[cool_.trace]));
  if (c_.cooldown.fan > 0) {
    session::Case fanned = c_;
    fanned.air.wind = std::max(c_.air.wind, c_.cooldown.fan);
    fanned_ = assemble_wheels(fanned, hot.highest_speed);
  }
}

std::vector<session::Step> PlanRunner::steps(const Plan& plan) const {
  std::vector<session::Step> out;
  session::DriveStep cool = cool_;
  cool.pace = plan.pace;
  cool.laps = static_cast<int>(plan.laps);
  if (cool.laps > 0) out.emplace_back(cool);
  if (plan.laps > cool.laps) {
    cool.laps = 1;
    cool.trace = half_trace_;
    out.emplace_back(cool);
  }
  if (plan.roll > 0) out.emplace_back(session::RollStep{plan.roll, c_.cooldown.roll_speed});
  out.emplace_back(session::ParkStep{c_.cooldown.soak});
  return out;
}

PlanRunner::Kept PlanRunner::drive_on(const Plan& plan, session::Drive& drive, const Kept& from, double begin,
                                      double end) const {
  Kept out{plan, from.history, from.end, from.share};
  if (end <= begin) return out;
  SharePart part = from.history.time.empty() ? share_part(hot_.history, start_.time) : share_part(from.history, begin);
  part.begin = begin;
  part.end = end;
  part.before = from.share;
  Leg leg;
  settle_share(
      c_, drive, leg.history, [&] { leg = record_leg(c_, drive, hot_.wheels, begin, end, &from.end, {}, options_); },
      part, &out.share);
  if (out.history.time.empty())
    out.history = std::move(leg.history);
  else
    append(c_, out.history, leg.history);
  out.end = std::move(leg.kept.back());
  return out;
}

Outcome PlanRunner::run(const Plan& plan, History* history) {
  c_.session.assign(1, run_up_);
  for (session::Step& step : steps(plan)) c_.session.push_back(step);
  session::Drive drive(c_);
  const std::vector<session::Span>& spans = drive.spans();
  const double flag = spans.front().end, rest = spans.back().begin;
  double in = flag;  // end of the laps
  for (const session::Span& span : spans)
    if (span.lap > 0) in = span.end;

  const bool same_laps = laps_.plan && laps_.plan->laps == plan.laps && laps_.plan->pace == plan.pace;
  if (!same_laps) {
    rolled_.plan.reset();
    laps_ = drive_on(plan, drive, {.plan = {}, .history = {}, .end = start_}, flag, in);
  }
  if (!rolled_.plan || rolled_.plan->roll != plan.roll) rolled_ = drive_on(plan, drive, laps_, in, rest);
  // What is kept was driven on another plan's clock, which agrees up to here.
  if (!rolled_.share.time.empty()) drive.set_front_share({rolled_.share.time, rolled_.share.share});
  const Leg parked =
      record_leg(c_, drive, plan.fan ? fanned_ : hot_.wheels, rest, drive.duration(), &rolled_.end, {}, options_);
  History whole = rolled_.history;
  append(c_, whole, parked.history);

  Outcome out{.plan = plan, .driving = rest - flag, .cost = rest - flag + (plan.fan ? c_.cooldown.fan_time : 0)};
  out.verdicts = judge_part(c_, drive, whole);
  out.front = soak_of(whole, whole.front, rest);
  out.rear = soak_of(whole, whole.rear, rest);
  conclude(out, flag);
  if (history != nullptr) {
    for (double& t : whole.time) t -= flag;
    *history = std::move(whole);
  }
  return out;
}

void PlanRunner::conclude(Outcome& out, double flag) const {
  // The drive of a plan counts its laps from the last hot one.
  const int before = hot_.laps_before + lap_;
  const auto shift = [&](Place& p) {
    p.time = std::max(0.0, p.time - flag);  // a braking across the line began before it
    if (p.lap > 0) p.lap += before;
    if (p.lap == before + 1) p.span = fmt::format("lap {}", p.lap);
  };
  // Nowhere: the way down asks nothing of that limit.
  std::erase_if(out.verdicts, [](const Verdict& v) { return v.place.span.empty(); });
  for (Verdict& v : out.verdicts) {
    shift(v.place);
    if (v.since) shift(*v.since);
  }
  std::stable_sort(out.verdicts.begin(), out.verdicts.end(), [&](const Verdict& a, const Verdict& b) {
    if ((a.level == Level::unknown) != (b.level == Level::unknown)) return b.level == Level::unknown;
    return a.level != Level::unknown && share_left(a) < share_left(b);
  });
  const Verdict* v = out.tightest();
  out.left = v != nullptr ? share_left(*v) : 1;
  out.holds = out.left >= 0;
}

}  // namespace hatring::answer
