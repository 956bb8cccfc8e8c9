// SPDX-License-Identifier: MIT
#include "sim/io/log/laps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hatring::io {
namespace {

constexpr double kStanding = 2;  // a lap in which the car is slower than this holds a stop [m/s]
constexpr double kRest = 1;      // what is left before the first or after the last line is not worth a row [s]
constexpr double kEdge = 1e-6;   // [s]

struct Cuts {
  std::vector<double> times;   // rising, inside the log
  std::vector<int> numbers;    // of the laps between them, one more than times; empty: counted
  bool ends_are_laps = false;  // what lies before the first and after the last cut may be a whole lap
  std::string how, reason;
};

class Cutter {
 public:
  Cutter(LogTable& table, const LogDrive& drive, const LapOptions& options)
      : table_(table), d_(drive), options_(options) {}

  LogLaps run() {
    const Cuts cuts = choose();
    table_.guesses.push_back({"laps", cuts.how, cuts.reason, "--laps WAY, --start-line LAT,LON", false});
    LogLaps out;
    if (!cuts.times.empty()) out.laps = laps_of(cuts);
    pick(out);
    return out;
  }

 private:
  [[noreturn]] void refuse(std::string message, std::string hint) const {
    refuse_log(table_.name, 0, std::move(message), std::move(hint));
  }

  Cuts choose() const {
    if (options_.start_line) return by_line(*options_.start_line, true);
    switch (options_.cut) {
      case LapCut::column:
        return needed(by_column(), "no lap column whose number changes", "name it with --column lap=NAME");
      case LapCut::clock:
        return needed(by_clock(), "no clock that begins again", "cut by another way: column, line, pattern, none");
      case LapCut::line:
        return needed(by_fastest_place(), "no place on the log's positions that is passed twice",
                      "give the line with --start-line LAT,LON");
      case LapCut::pattern:
        return needed(by_pattern(), "no repetition in the speed over distance", "use --laps none, or --start-line");
      case LapCut::none:
        return {{}, {}, false, "not cut", "as told"};
      case LapCut::guess:
        break;
    }
    for (Cuts cuts : {by_column(), by_clock()})
      if (!cuts.times.empty()) return cuts;
    for (Cuts cuts : {by_fastest_place(), by_pattern()})
      if (cuts.times.size() > 1) return cuts;
    return {{}, {}, false, "not cut", "no lap column, no place passed twice, no repetition in the speed over distance"};
  }

  Cuts needed(Cuts cuts, const char* lacks, const char* hint) const {
    if (cuts.times.empty()) refuse(fmt::format("found {}, which --laps asks for", lacks), hint);
    return cuts;
  }

  Cuts by_column() const {
    Cuts cuts{{}, {}, true, "by the lap column", "its number changes there"};
    if (d_.lap.empty()) return cuts;
    const auto number = [this](std::size_t i) {
      constexpr double kMost = 1e9;  // far more than any lap's number, and an int can hold it
      return std::isnan(d_.lap[i]) ? 0 : static_cast<int>(std::clamp(d_.lap[i], -kMost, kMost));
    };
    cuts.numbers.push_back(number(0));
    for (std::size_t i = 1; i < d_.lap.size(); ++i) {
      if (number(i) == number(i - 1)) continue;
      cuts.times.push_back(d_.time[i]);
      cuts.numbers.push_back(number(i));
    }
    return cuts;
  }

  Cuts by_clock() const {
    return {d_.restarts,
            {},
            true,
            d_.over_distance ? "where the distance begins again" : "where the clock begins again",
            "a logger that counts from 0 does so at each lap"};
  }

  Cuts by_line(const LatLon& place, bool told) const {
    Cuts cuts{{}, {}, false, fmt::format("at the line {:.5f},{:.5f}", place.latitude, place.longitude), {}};
    if (d_.position.empty()) {
      if (told)
        refuse("found no positions, which --start-line needs",
               "name them with --column latitude=NAME and longitude=NAME");
      return cuts;
    }
    cuts.times = passes_of(d_.time, d_.position, d_.speed, place);
    cuts.reason =
        fmt::format("{}, passed {} times", told ? "as told" : "a place out on the fastest straight", cuts.times.size());
    if (told && cuts.times.size() < 2)
      refuse(fmt::format("found {} passes within {:.0f} m of --start-line {},{}, expected two or more",
                         cuts.times.size(), kPassReach, place.latitude, place.longitude),
             fmt::format("the log's fastest place is near {:.5f},{:.5f}", fastest().latitude, fastest().longitude));
    return cuts;
  }

  LatLon fastest() const { return d_.position[straight_before_top_speed(d_)]; }

  Cuts by_fastest_place() const {
    if (d_.position.empty() || !is_place(fastest().latitude, fastest().longitude)) return {};
    return by_line(fastest(), false);
  }

  Cuts by_pattern() const {
    Cuts cuts{{}, {}, false, "by the repeated speed", {}};
    const Repetition r = repetition(d_);
    for (const double x : r.passes) cuts.times.push_back(at_place(d_.distance, d_.time, x));
    cuts.reason = fmt::format("over {:.0f} m it repeats itself (correlation {:.2f})", r.length, r.correlation);
    return cuts;
  }

  LogLap lap_between(double begin, double end) const {
    LogLap lap{.number = 0, .begin = begin, .end = end, .length = 0, .top = 0, .lowest = 1e9, .incomplete = {}};
    lap.length = at_place(d_.time, d_.distance, end) - at_place(d_.time, d_.distance, begin);
    const auto first = std::lower_bound(d_.time.begin(), d_.time.end(), begin) - d_.time.begin();
    for (auto i = static_cast<std::size_t>(first); i < d_.time.size() && d_.time[i] <= end; ++i) {
      lap.top = std::max(lap.top, d_.speed[i]);
      lap.lowest = std::min(lap.lowest, d_.speed[i]);
    }
    if (lap.lowest < kStanding) lap.incomplete = "the car stands";
    if (std::any_of(d_.hole_ends.begin(), d_.hole_ends.end(), [&](double t) { return t > begin && t - kHole < end; }))
      lap.incomplete = "a hole in the speed";
    return lap;
  }

  std::vector<LogLap> laps_of(const Cuts& cuts) const {
    std::vector<double> edges = {0};
    for (const double t : cuts.times)
      if (t > kEdge && t < d_.time.back() - kEdge) edges.push_back(t);
    edges.push_back(d_.time.back());
    const bool before = cuts.times.front() > kEdge;
    std::vector<LogLap> laps;
    for (std::size_t k = 0; k + 1 < edges.size(); ++k) {
      const bool at_end = k == 0 || k + 2 == edges.size();
      if (at_end && edges[k + 1] - edges[k] < kRest) continue;
      LogLap lap = lap_between(edges[k], edges[k + 1]);
      const std::size_t n = k + (before ? 0 : 1);  // cuts that lie before it
      lap.number = n < cuts.numbers.size() ? cuts.numbers[n] : static_cast<int>(n + (cuts.ends_are_laps ? 1 : 0));
      if (!cuts.ends_are_laps && n == 0) lap.incomplete = "before the first line";
      if (!cuts.ends_are_laps && k + 2 == edges.size()) lap.incomplete = "after the last line";
      laps.push_back(std::move(lap));
    }
    compare_lengths(laps);
    return laps;
  }

  // First and last parts decide what is usual only where there is nothing else.
  static void compare_lengths(std::vector<LogLap>& laps) {
    std::vector<double> lengths;
    for (const bool inner : {true, false}) {
      for (std::size_t k = 0; k < laps.size(); ++k)
        if (laps[k].incomplete.empty() && (!inner || (k > 0 && k + 1 < laps.size()))) lengths.push_back(laps[k].length);
      if (!lengths.empty()) break;
    }
    if (lengths.empty()) return;
    const double usual = percentile(lengths, 0.5);
    for (LogLap& lap : laps)
      if (lap.incomplete.empty() && std::abs(lap.length - usual) > kLapTolerance * usual)
        lap.incomplete = lap.length < usual ? "too short" : "too long";
  }

  void pick(LogLaps& out) {
    LogGuess g{"trace", "the whole log", "as told", "--lap N, --whole", false};
    if (options_.lap) {
      const auto it =
          std::find_if(out.laps.begin(), out.laps.end(), [this](const LogLap& l) { return l.number == *options_.lap; });
      if (it == out.laps.end())
        refuse(fmt::format("found no lap {}, which --lap asks for", *options_.lap),
               out.laps.empty() ? "the log is not cut into laps; see --laps"
                                : fmt::format("laps here: {} to {}", out.laps.front().number, out.laps.back().number));
      out.chosen = static_cast<std::size_t>(it - out.laps.begin());
      g.choice = fmt::format("lap {}", it->number);
    } else if (!options_.whole) {
      std::vector<std::size_t> complete;
      for (std::size_t k = 0; k < out.laps.size(); ++k)
        if (out.laps[k].incomplete.empty()) complete.push_back(k);
      std::stable_sort(complete.begin(), complete.end(), [&out](std::size_t a, std::size_t b) {
        return out.laps[a].end - out.laps[a].begin < out.laps[b].end - out.laps[b].begin;
      });
      if (complete.empty()) {
        g.reason = out.laps.empty() ? "it is not cut into laps" : "no lap is complete";
        g.doubtful = true;
      } else {
        out.chosen = complete[(complete.size() - 1) / 2];
        g.choice = fmt::format("lap {}", out.laps[*out.chosen].number);
        g.reason = complete.size() == 1
                       ? "the only complete lap"
                       : fmt::format("the typical one: median time of {} complete laps", complete.size());
      }
    }
    table_.guesses.push_back(std::move(g));
  }

  LogTable& table_;
  const LogDrive& d_;
  const LapOptions& options_;
};

}  // namespace

LogLaps find_laps(LogTable& table, const LogDrive& drive, const LapOptions& options) {
  return Cutter(table, drive, options).run();
}

}  // namespace hatring::io
