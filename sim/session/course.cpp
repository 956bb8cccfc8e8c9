// SPDX-License-Identifier: MIT
#include "sim/session/course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "sim/session/cubic.hpp"
#include "sim/session/driver_pace.hpp"
#include "sim/session/error.hpp"
#include "sim/session/lap_join.hpp"
#include "sim/session/maneuvers.hpp"

namespace hatring::session {
namespace {

class Composer {
 public:
  Composer(const Case& c, const Road& road) : case_(c), road_(road) {}

  Course run() {
    if (case_.session.empty()) throw CaseError("session: it has no entries, so there is nothing to run");
    for (; entry_ < case_.session.size(); ++entry_)
      std::visit(
          [this](const auto& step) {
            change_air(step.note);
            add(step);
          },
          case_.session[entry_]);
    course_.bounds.insert(course_.bounds.begin(), 0);
    course_.bounds.push_back(time_);
    collect_brakings();
    drop_idle();
    return std::move(course_);
  }

 private:
  [[noreturn]] void refuse(const std::string& what) const {
    const std::string place = std::visit([](const auto& step) { return step.note.place; }, case_.session[entry_]);
    throw CaseError(place.empty() ? fmt::format("session entry {}: {}", entry_ + 1, what)
                                  : fmt::format("{}: {}", place, what));
  }
  void require(bool good, const std::string& what) const {
    if (!good) refuse(what);
  }

  void change_air(const StepNote& note) {
    std::vector<AirSpell>& spells = course_.airs;
    if (spells.empty()) spells.push_back({0, case_.air});
    AirSpell next{time_, spells.back().air};
    next.air.temperature = note.air_temperature.value_or(next.air.temperature);
    next.air.wind = note.wind.value_or(next.air.wind);
    if (next.air.temperature == spells.back().air.temperature && next.air.wind == spells.back().air.wind) return;
    if (time_ > 0)
      course_.bounds.push_back(time_);
    else
      spells.clear();
    spells.push_back(next);
  }

  // Appends pieces that start at time 0 as one span. Each braking index of theirs becomes a new number.
  void append(const std::vector<Piece>& pieces, Span span) {
    span.begin = time_;
    span.begin_distance = distance_;
    require(course_.pieces.size() + pieces.size() <= kMostPieces,
            "the session gets too long: fewer laps, or a trace with fewer samples");
    for (Piece p : pieces) {
      const double lasts = length_of(p);
      p.begin = time_;
      p.end = time_ += lasts;
      p.distance = distance_;
      distance_ += travelled_at(p, lasts);
      if (p.braking >= 0) p.braking += next_braking_;
      course_.pieces.push_back(p);
    }
    next_braking_ += static_cast<int>(pieces.size());
    speed_ = speed_at(course_.pieces.back(), length_of(course_.pieces.back()));
    require(time_ <= kLongestSession, fmt::format("the session lasts more than {:.0f} days", kLongestSession / 86400));
    span.end = time_;
    span.end_distance = distance_;
    course_.spans.push_back(std::move(span));
  }

  void reach(double speed) {
    if (fresh_ || std::abs(speed - speed_) < 1e-9) return;
    std::vector<Piece> p = ramp(speed_, speed, speed > speed_ ? kPullAway : kStopDeceleration);
    if (speed < speed_) p[0].braking = 0;
    append(p, {.label = speed > speed_ ? "pull-away" : speed > 0 ? "slow-down" : "stop"});
  }

  // A trace as it is driven with this effort.
  const Profile& profile(std::size_t trace, const Effort& effort) {
    const std::tuple key(trace, effort.pace, effort.grip);
    const auto found = profiles_.find(key);
    if (found != profiles_.end()) return found->second;
    const bool as_driven = effort.pace == 1 && effort.grip == 1;
    const Trace& given = case_.traces[trace];
    try {
      return profiles_
          .emplace(key, make_profile(as_driven ? given : slower_lap(profile(trace, {}), road_, effort, given.name),
                                     road_, case_.brakes))
          .first->second;
    } catch (const CaseError& e) {
      refuse(e.what());
    }
  }

  void add(const DriveStep& step) {
    require(step.laps >= 1, fmt::format("it asks for {} laps; it must be 1 or more", step.laps));
    require(step.pace > 0, fmt::format("pace is {:g}; it must be above 0", step.pace));
    require(step.trace < case_.traces.size(), "its trace is not in the case");
    require(profile(step.trace, {}).length() > 1,
            fmt::format("trace '{}' does not move", case_.traces[step.trace].name));
    const Profile& whole = profile(step.trace, {.pace = step.driver_pace.value_or(1), .grip = step.grip});
    std::vector<Piece> lap;
    for (const Piece& p : whole.pieces) lap.push_back(at_pace(p, step.pace));
    for (int i = 0; i < step.laps; ++i) {
      const double start = lap.front().c[0];
      if ((speed_ < kStanding && start > speed_) || !has_room_to_join(lap)) reach(start);
      const std::string label = step.kind == LapKind::out_lap    ? "out lap"
                                : step.kind == LapKind::cooldown ? "cool-down lap"
                                                                 : fmt::format("lap {}", lap_ + 1);
      ++lap_;
      std::vector<Piece> driven = fresh_ ? lap : joined(lap, speed_);
      const bool flagged = step.red_flag && i + 1 == step.laps;
      const double left = flagged ? stop_at(driven, *step.red_flag) : 0;
      append(driven, {.lap = lap_, .label = label});
      fresh_ = false;
      if (flagged) roll_in(*step.red_flag, left);
    }
  }

  // Cuts the lap where the flag falls. Returns what is left of it [m].
  double stop_at(std::vector<Piece>& lap, const RedFlag& flag) const {
    double time = 0, distance = 0, length = 0;
    for (const Piece& p : lap) length += travelled_at(p, length_of(p));
    for (std::size_t i = 0; i < lap.size(); ++i) {
      const Piece& p = lap[i];
      const double lasts = length_of(p), covers = travelled_at(p, lasts);
      if (flag.time ? *flag.time < time + lasts : flag.distance.value_or(0) < distance + covers) {
        const double into = flag.time ? *flag.time - time : time_to_travel(p, flag.distance.value_or(0) - distance);
        constexpr double kTick = 1e-6;  // shorter pieces are none [s]
        if (i == 0 && into < kTick) break;
        const Piece part = part_of(p, 0, into);
        lap.resize(i);
        if (into >= kTick) lap.push_back(part);
        return length - distance - travelled_at(part, into);
      }
      time += lasts;
      distance += covers;
    }
    refuse(flag.time ? fmt::format("red_flag: at is {:g} s, expected a time within the lap, which lasts {:.1f} s",
                                   *flag.time, time)
                     : fmt::format("red_flag: at is {:g} m, expected a place within the lap, which is {:.0f} m long",
                                   flag.distance.value_or(0), length));
  }

  // Slows down and rolls what is left of the lap.
  void roll_in(const RedFlag& flag, double left) {
    require(flag.speed > 0 && flag.deceleration > 0, "red_flag: speed and deceleration must be above 0");
    const double begin = distance_;
    if (speed_ > flag.speed) {
      std::vector<Piece> slowing = ramp(speed_, flag.speed, flag.deceleration);
      slowing[0].braking = 0;
      append(slowing, {.label = "red flag"});
    }
    left -= distance_ - begin;
    if (left <= 0) return;
    reach(flag.speed);  // a car that was slower yet
    append(cruise(flag.speed, left / flag.speed), {.label = kRolling});
  }

  void add(const ParkStep& step) {
    require(step.duration > 0, fmt::format("park is {:g} s; it must be above 0", step.duration));
    reach(0);
    course_.bounds.push_back(time_);
    append(cruise(0, step.duration), {.label = "parked", .phase = Phase::parked});
    course_.bounds.push_back(time_);
    fresh_ = false;
  }

  void add(const RollStep& step) {
    require(step.duration > 0, fmt::format("roll is {:g} s; it must be above 0", step.duration));
    require(step.speed > 0, fmt::format("roll: speed is {:g} m/s; it must be above 0", step.speed));
    reach(step.speed);
    append(cruise(step.speed, step.duration), {.label = kRolling});
    fresh_ = false;
  }

  void add(const SnubStep& step) {
    require(step.count >= 1, fmt::format("snubs: count is {}; it must be 1 or more", step.count));
    require(step.to >= 0 && step.from > step.to,
            fmt::format("snubs: from {:g} to {:g} m/s is no braking; `from` must be above `to`", step.from, step.to));
    require(step.deceleration > 0,
            fmt::format("snubs: deceleration is {:g} m/s2; it must be above 0", step.deceleration));
    const double braking = (step.from - step.to) / step.deceleration, rest = step.every - braking;
    require(rest > 0,
            fmt::format("snubs: every {:g} s leaves no time to return to speed, as the braking alone takes {:g} s",
                        step.every, braking));
    reach(step.from);
    std::vector<Piece> snub = ramp(step.from, step.to, step.deceleration);
    snub[0].braking = 0;
    for (const auto& part :
         {constant_power(step.to, step.from, kReturnShare * rest), cruise(step.from, (1 - kReturnShare) * rest)})
      snub.insert(snub.end(), part.begin(), part.end());
    for (int i = 0; i < step.count; ++i) append(snub, {.label = fmt::format("snub {}", i + 1)});
    fresh_ = false;
  }

  void add(const HoldStep& step) {
    require(step.duration > 0, fmt::format("hold is {:g} s; it must be above 0", step.duration));
    require(step.speed >= 0, fmt::format("hold: speed is {:g} m/s; it must be 0 or more", step.speed));
    require(step.heat_from >= 0 && step.heat_to >= 0, "hold: heat must be 0 W or more");
    course_.bounds.push_back(time_);
    const double begin = time_;
    append(cruise(step.speed, step.duration), {.label = "hold", .phase = Phase::bench});
    course_.holds.push_back({.begin = begin,
                             .end = time_,
                             .from = step.heat_from,
                             .to = step.heat_to,
                             .front = step.axle != Axle::rear,
                             .rear = step.axle != Axle::front});
    course_.bounds.push_back(time_);
    fresh_ = true;
    speed_ = 0;  // a bench leaves no moving car behind
  }

  // Nothing but a blip of driving lies between the two times.
  bool together(double end, double begin) const {
    return begin - end < kBlip &&
           std::none_of(course_.bounds.begin(), course_.bounds.end(), [&](double t) { return t >= end && t <= begin; });
  }

  // A braking that asks nothing of the brakes (a slow lap, where drag and engine do it all) is none.
  void drop_idle() {
    auto& list = course_.brakings;
    std::vector<int> number(list.size(), -1);
    std::vector<double> loss(list.size(), 0);
    for (const Piece& p : course_.pieces)
      if (p.braking >= 0) loss[static_cast<std::size_t>(p.braking)] += speed_loss({p}, road_, {p.begin, p.end});
    std::vector<Interval> kept;
    for (std::size_t b = 0; b < list.size(); ++b)
      if (loss[b] > 0) {
        number[b] = static_cast<int>(kept.size());
        kept.push_back(list[b]);
      }
    for (Piece& p : course_.pieces)
      if (p.braking >= 0) p.braking = number[static_cast<std::size_t>(p.braking)];
    list = std::move(kept);
  }

  // Brakings that follow each other within a blip are one, also across the line between two laps.
  void collect_brakings() {
    auto& pieces = course_.pieces;
    int number = -1;
    std::size_t last = 0;  // last braking piece
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      if (pieces[i].braking < 0) continue;
      auto& list = course_.brakings;
      const bool same = pieces[i].braking == number;
      number = pieces[i].braking;
      if (!list.empty() && (same || together(list.back().end, pieces[i].begin))) {
        for (std::size_t k = last + 1; k < i; ++k) pieces[k].braking = static_cast<int>(list.size()) - 1;
        list.back().end = pieces[i].end;
      } else {
        list.push_back({pieces[i].begin, pieces[i].end});
      }
      pieces[i].braking = static_cast<int>(list.size()) - 1;
      last = i;
    }
  }

  const Case& case_;
  const Road& road_;
  Course course_;
  std::map<std::tuple<std::size_t, double, double>, Profile> profiles_;  // by trace and effort
  std::size_t entry_ = 0;
  double time_ = 0, distance_ = 0, speed_ = 0;
  int lap_ = 0, next_braking_ = 0;
  bool fresh_ = true;  // at the start of the session and after a bench the car is simply where the next step wants it
};

}  // namespace

Course compose(const Case& c, const Road& road) {
  return Composer(c, road).run();
}

}  // namespace hatring::session
