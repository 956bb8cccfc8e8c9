// SPDX-License-Identifier: MIT
#include "sim/answer/hot_laps.hpp"

#include <algorithm>
#include <cmath>

namespace hatring::answer {
namespace {

constexpr int kEvery[] = {1, 2, 4};
constexpr double kSettled = 0.002;  // change of any node's heat from round to round over what it took in

// The verdict that is first passed in a part of a session; null when none is. The bias is what it is on any lap.
const Verdict* first_passed(const std::vector<Verdict>& verdicts) {
  const Verdict* out = nullptr;
  for (const Verdict& v : verdicts)
    if (v.level == Level::exceeded && v.key != "rear_bias" && v.since &&
        (out == nullptr || v.since->time < out->since->time))
      out = &v;
  return out;
}

MostLaps while_driving(const HotRun& hot) {
  const Verdict* v = first_passed(hot.verdicts);
  if (v == nullptr) return {static_cast<int>(hot.after.size()), std::nullopt};
  const auto done = std::count_if(hot.after.begin(), hot.after.end(),
                                  [&](const Checkpoint& at) { return at.time <= v->since->time; });
  return {static_cast<int>(done), *v};
}

MostLaps with_cooldown(const HotRun& hot, const MostLaps& driving, const Plan& plan, const RunOptions& options) {
  for (int n = 1; n <= driving.laps; ++n) {
    const Outcome o = PlanRunner(hot, static_cast<std::size_t>(n - 1), options).run(plan);
    if (!o.holds) return {n - 1, *o.tightest()};
  }
  return driving;
}

bool alike(const Checkpoint& a, const Checkpoint& b, const Checkpoint& cold) {
  const auto wheel = [](const AxleState& x, const AxleState& y, const AxleState& z) {
    return ((x.heat - y.heat).array().abs() <= kSettled * (y.heat - z.heat).array().abs()).all();
  };
  return wheel(a.front, b.front, cold.front) && wheel(a.rear, b.rear, cold.rear);
}

// Hot laps that a round of a drive completes before a time of it.
int hot_laps_before(const session::Drive& drive, std::size_t first_span, double time) {
  int out = 0;
  for (std::size_t i = first_span; i < drive.spans().size(); ++i)
    out += drive.spans()[i].label.starts_with("lap ") && drive.spans()[i].end <= time ? 1 : 0;
  return out;
}

// Rounds of hot laps with a lift-and-coast lap after each, until a limit is passed, a round is like the one before, or
// there have been enough.
RestRow rounds(const HotRun& hot, int every, double pace, double lap_time, int most, const RunOptions& options) {
  RestRow row{.every = every, .pace = pace};
  row.rest_costs = lap_time / pace - lap_time;
  row.lap_costs = row.rest_costs / (every + 1);
  session::Case c = hot.c;
  session::DriveStep laps = std::get<session::DriveStep>(c.session[hot.step]), rest = laps;
  laps.laps = every;
  rest.laps = 1;
  rest.kind = session::LapKind::cooldown;
  rest.pace *= pace;
  c.session[hot.step] = laps;
  c.session.emplace_back(rest);
  session::Drive first(c);
  c.session = {rest, laps, rest};
  session::Drive next(c);

  const Leg cold = record_leg(c, first, hot.wheels, 0, first.spans().front().begin + 1e-3, nullptr, {}, options);
  std::optional<Checkpoint> before;
  Leg round;
  while (row.hot.laps < most) {
    session::Drive& drive = before ? next : first;
    const double begin = before ? next.spans().front().end : 0;
    SharePart part = before ? share_part(round.history, round.history.time.back()) : SharePart{};
    part.begin = begin;
    Leg leg;
    settle_share(
        c, drive, leg.history,
        [&] {
          leg = record_leg(c, drive, hot.wheels, begin, drive.duration(), before ? &*before : nullptr, {}, options);
        },
        part);
    round = std::move(leg);
    const std::vector<Verdict> verdicts = judge_part(c, drive, round.history, !before);
    if (const Verdict* v = first_passed(verdicts)) {
      row.hot.laps += hot_laps_before(drive, before ? 1 : static_cast<std::size_t>(hot.laps_before), v->since->time);
      row.hot.limit = *v;
      return row;
    }
    row.hot.laps += every;
    if (before && alike(round.kept.back(), *before, cold.kept.back())) {
      row.settled = true;
      return row;
    }
    before = round.kept.back();
  }
  return row;
}

}  // namespace

int laps_to_search(const session::Case& c) {
  return std::max(c.cooldown.most_laps, std::get<session::DriveStep>(c.session[last_hot_step(c)]).laps);
}

HotLaps search_hot_laps(const session::Case& c, const HotRun& hot, const Plan& chosen, const RunOptions& options) {
  HotLaps out;
  out.planned = std::get<session::DriveStep>(c.session[last_hot_step(c)]).laps;
  out.searched = static_cast<int>(hot.after.size());
  const std::size_t n = hot.after.size();
  out.lap_time = n > 1 ? hot.after[n - 1].time - hot.after[n - 2].time
                       : hot.drive.spans().back().end - hot.drive.spans().back().begin;
  out.driving = while_driving(hot);
  out.with_plan = with_cooldown(hot, out.driving, chosen, options);
  out.with_park_now = chosen.park_now() ? out.with_plan : with_cooldown(hot, out.driving, Plan{}, options);
  for (const double pace : c.cooldown.rest_pace)
    for (const int every : kEvery) out.rests.push_back(rounds(hot, every, pace, out.lap_time, out.searched, options));
  return out;
}

}  // namespace hatring::answer
