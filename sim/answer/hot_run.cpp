// SPDX-License-Identifier: MIT
#include "sim/answer/hot_run.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "sim/answer/life.hpp"
#include "sim/answer/pedal.hpp"
#include "sim/answer/verdicts.hpp"
#include "sim/session/error.hpp"

namespace hatring::answer {

std::vector<Verdict> judge_part(const session::Case& c, const session::Drive& drive, const History& h,
                                bool from_start) {
  Answers answers;
  std::vector<Verdict> out;
  for (const auto& [axle, history, part] : {std::tuple{session::Axle::front, &h.front, &answers.front},
                                            std::tuple{session::Axle::rear, &h.rear, &answers.rear}}) {
    part->softening = softening(c, axle, h.time, *history);
    if (from_start) part->pads = pad_answer(c, drive, h.time, *history, axle);
    for (Verdict& v : judge(c, drive, h.time, *history, axle, *part)) out.push_back(std::move(v));
  }
  fill_pedal(c, drive, h, answers);
  for (Verdict& v : judge_pedal(c, drive, answers)) out.push_back(std::move(v));
  return out;
}

SharePart share_part(const History& before, double time) {
  constexpr double kSame = 1e-9;  // [s]
  const auto after = std::upper_bound(before.time.begin(), before.time.end(), time + kSame);
  const std::size_t row = static_cast<std::size_t>(after - before.time.begin()) - 1;
  return {.front_face = mean_face(before.front, row), .rear_face = mean_face(before.rear, row)};
}

std::vector<session::Soak> hat_soak(const session::Case& c, session::Axle axle, const History& h, double until) {
  constexpr double kBin = 2;  // temperatures closer than this age a hat alike [K]
  const Column* flange = (axle == session::Axle::front ? h.front : h.rear).find("temperature", "hat_flange");
  if (flange == nullptr || flange->not_applicable) return {};
  std::map<long, double> bins;
  for (std::size_t i = 1; i < h.time.size() && h.time[i] <= until; ++i)
    bins[std::lround(0.5 * (flange->values[i - 1] + flange->values[i]) / kBin)] += h.time[i] - h.time[i - 1];
  std::vector<session::Soak> out;
  out.reserve(bins.size());
  const int sessions = 1 + c.wear(axle).hat_sessions;
  for (const auto& [bin, duration] : bins) out.push_back({static_cast<double>(bin) * kBin, sessions * duration});
  return out;
}

std::size_t last_hot_step(const session::Case& c) {
  for (std::size_t i = c.session.size(); i-- > 0;) {
    const auto* drive = std::get_if<session::DriveStep>(&c.session[i]);
    if (drive != nullptr && drive->kind == session::LapKind::hot) return i;
  }
  throw session::CaseError(
      "session: found no hot laps, so there is nothing to cool down from; expected a step such as "
      "`- {laps: 8, trace: TRACE}`");
}

namespace {

// As the session's own first cool-down lap after the hot ones, or else on the trace of these.
session::DriveStep cooldown_step(const session::Case& c, std::size_t hot) {
  session::DriveStep out = std::get<session::DriveStep>(c.session[hot]);
  for (std::size_t i = c.session.size(); i-- > hot;)
    if (const auto* drive = std::get_if<session::DriveStep>(&c.session[i]))
      if (drive->kind == session::LapKind::cooldown) out = *drive;
  // Plans have a pace of their own.
  if (out.kind == session::LapKind::cooldown) out.driver_pace.reset();
  out.kind = session::LapKind::cooldown;
  return out;
}

}  // namespace

HotRun run_hot(session::Case c, int laps, double convection, const RunOptions& options) {
  const std::size_t step = last_hot_step(c);
  session::DriveStep cool = cooldown_step(c, step);
  c.session.resize(step + 1);
  std::get<session::DriveStep>(c.session[step]).laps = laps;
  c.brakes.front.cooling.scale *= convection;
  c.brakes.rear.cooling.scale *= convection;

  HotRun hot{.c = c,
             .step = step,
             .cool = cool,
             .drive = session::Drive(c),
             .wheels = {},
             .history = {},
             .after = {},
             .verdicts = {}};
  hot.highest_speed = highest_speed(hot.drive);
  hot.wheels = assemble_wheels(hot.c, hot.highest_speed);
  // The laps of the last step are the last ones driven.
  std::vector<double> ends;
  for (const session::Span& span : hot.drive.spans())
    if (span.lap > 0) ends.push_back(span.end);
  hot.laps_before = static_cast<int>(ends.size()) - laps;
  ends.erase(ends.begin(), ends.begin() + hot.laps_before);
  Leg leg;
  settle_share(hot.c, hot.drive, leg.history, [&] {
    leg = record_leg(hot.c, hot.drive, hot.wheels, 0, hot.drive.duration(), nullptr, ends, options);
  });
  hot.history = std::move(leg.history);
  hot.after = std::move(leg.kept);
  hot.verdicts = judge_part(hot.c, hot.drive, hot.history, true);
  return hot;
}

}  // namespace hatring::answer
