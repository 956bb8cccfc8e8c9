// SPDX-License-Identifier: MIT
#include "sim/io/log/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <tuple>
#include <utility>

#include "models/constants.hpp"
#include "sim/io/log/evidence.hpp"
#include "sim/io/units.hpp"

namespace hatring::io {
namespace {

// How far a reading lies from a usual log: squared distance on a logarithmic scale, in steps of `width` times.
// Centres and widths are ours: a club racer's car reaches 100 to 250 km/h and slows with half to one and a half g, and
// loggers write 1 to 100 rows a second (common practice, no source).
double strange(double value, double usual, double width) {
  if (!(value > 0)) return 50;
  const double steps = std::log(value / usual) / std::log(width);
  return steps * steps;
}
constexpr double kUsualTop = 45, kTopWidth = 1.6;                     // [m/s]
constexpr double kUsualSlowing = 8, kSlowingWidth = 2;                // [m/s2]
constexpr double kUsualStep = 0.1, kUsualMetres = 3, kStepWidth = 5;  // [s], [m]
constexpr double kUsualSpeeding = 3, kSpeedingWidth = 2;              // [m/s2]
constexpr double kWayWidth = 1.07, kMostForWay = 60;                  // way by speed over way by position or odometer
constexpr double kPushWidth = 1.25, kMostForPush = 30;                // hills and a sensor that leans are in it
constexpr double kAgainstHeader = 6, kScaledTwice = 4, kRareUnit = 2;
constexpr double kCommaLand = 6;  // decimal commas and miles or feet are not written in the same countries
constexpr double kTooFast = 95;   // no club racer's car, whatever the header says [m/s]
constexpr double kNearlyAsGood = 2;

struct Unit {
  const char* name;
  double factor;
  std::vector<std::string_view> spellings;
};

const std::vector<Unit>& axis_units(bool time) {
  static const std::vector<Unit> times{{"s", 1, {"s", "sec", "secs", "second", "seconds"}},
                                       {"ms", 1e-3, {"ms", "msec", "msecs", "millis", "milliseconds"}},
                                       {"us", 1e-6, {"us", "\u00b5s", "micros", "microseconds"}},
                                       {"min", 60, {"min", "mins", "minutes"}}};
  static const std::vector<Unit> lengths{{"m", 1, {"m", "metres", "meters"}},
                                         {"km", 1e3, {"km"}},
                                         {"ft", 0.3048, {"ft", "feet"}},
                                         {"mile", 1609.344, {"mi", "mile", "miles"}}};
  return time ? times : lengths;
}

const std::vector<Unit>& speed_units() {
  static const std::vector<Unit> units{{"km/h", 1 / 3.6, {"km/h", "kmh", "kph", "kmph", "km/hr"}},
                                       {"mph", 0.44704, {"mph", "mi/h", "miles/h"}},
                                       {"m/s", 1, {"m/s", "mps", "m/sec", "ms-1", "m s-1", "meters/second"}},
                                       {"knot", 1852.0 / 3600, {"kn", "kt", "kts", "knot", "knots"}},
                                       {"0.27778 km/h", 1 / 3.6 / 3.6, {}}};
  return units;
}

// Unit in the header: brackets or row of units, else the end of the title ("speed_kmh", "Speed m/s").
std::optional<std::size_t> stated(const LogColumn& column, const std::vector<Unit>& units) {
  std::string text = column.unit;
  if (text.empty()) {
    const std::vector<std::string> words = words_of(column.title);
    if (words.size() > 1) text = words.back();
    if (words.size() > 2 && (text == "h" || text == "s")) text = fmt::format("{}/{}", words[words.size() - 2], text);
    if (words.size() == 1) text = words[0];
  }
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (std::size_t u = 0; u < units.size(); ++u)
    if (std::find(units[u].spellings.begin(), units[u].spellings.end(), text) != units[u].spellings.end()) return u;
  return std::nullopt;
}

// Factor of a column whose unit is told or stated.
std::optional<double> unit_of(const LogTable& table, const LogColumns& columns, LogRole role,
                              const std::map<LogRole, std::string>& told) {
  if (const auto u = told.find(role); u != told.end()) return told_factor(table, role, u->second);
  const auto column = columns.find(role);
  if (column == columns.end()) return std::nullopt;
  const std::vector<Unit>& units = axis_units(false);
  const auto known = stated(table.columns[column->second], units);
  return known ? std::optional(units[*known].factor) : std::nullopt;
}

// What a pair of units would mean.
struct Meaning {
  double step = 0;                   // between rows [s] or [m]
  double top = 0;                    // [m/s]
  double slowing = 0, speeding = 0;  // [m/s2]
  double way = kNothing;             // by speed over by position
  double odometer = kNothing;        // the same over that of the distance column
  double accelerometer = kNothing;   // acceleration by the speed over that of its own column
  double strangeness = 0;
};

class Search {
 public:
  Search(LogTable& table, const LogColumns& columns, const std::map<LogRole, std::string>& told)
      : table_(table),
        time_(columns.contains(LogRole::time)),
        role_(time_ ? LogRole::time : LogRole::distance),
        axis_(table.columns[columns.at(role_)]),
        speed_(table.columns[columns.at(LogRole::speed)]),
        points_(points_of(table, columns, role_)),
        odometer_(time_ ? unit_of(table, columns, LogRole::distance, told) : std::nullopt) {
    stated_axis_ = stated(axis_, axis_units(time_));
    stated_speed_ = stated(speed_, speed_units());
    if (const auto u = told.find(role_); u != told.end()) told_axis_ = u->second;
    if (const auto u = told.find(LogRole::speed); u != told.end()) told_speed_ = u->second;
    if (axis_.clock) told_axis_ = std::string("s");
    std::vector<double> steps, speeds;
    for (std::size_t i = 1; i < points_.axis.size(); ++i)
      if (points_.axis[i] > points_.axis[i - 1]) steps.push_back(points_.axis[i] - points_.axis[i - 1]);
    for (const double v : points_.speed)
      if (v > 0) speeds.push_back(v);
    if (steps.empty() || speeds.empty())
      refuse_log(table.name, table.header_line,
                 fmt::format("found no rows that move (column `{}` never rises, or `{}` is never above 0), expected a "
                             "drive",
                             axis_.title, speed_.title));
    step_ = percentile(steps, 0.5);
    top_ = percentile(speeds, 0.995);
  }

  LogScale run() {
    const std::vector<Unit> axes = candidates(told_axis_, role_, axis_units(time_));
    const std::vector<Unit> speeds = candidates(told_speed_, LogRole::speed, speed_units());
    std::vector<std::vector<Meaning>> all(axes.size());
    std::size_t a = 0, s = 0;
    for (std::size_t i = 0; i < axes.size(); ++i)
      for (std::size_t k = 0; k < speeds.size(); ++k) {
        all[i].push_back(meaning(axes[i], speeds[k]));
        if (all[i][k].strangeness < all[a][s].strangeness) a = i, s = k;
      }
    std::vector<std::pair<Unit, Meaning>> others;  // of the speed, the next best first
    for (std::size_t k = 0; k < speeds.size(); ++k)
      if (k != s) others.emplace_back(speeds[k], all[a][k]);
    std::sort(others.begin(), others.end(),
              [](const auto& x, const auto& y) { return x.second.strangeness < y.second.strangeness; });
    tell_axis(axes[a], all[a][s]);
    tell_speed(speeds[s], all[a][s], others);
    return {axes[a].factor, speeds[s].factor};
  }

 private:
  std::vector<Unit> candidates(const std::string& told, LogRole role, const std::vector<Unit>& units) {
    if (told.empty()) return units;
    told_name_[role] = told;
    return {{told_name_[role].c_str(), told_factor(table_, role, told), {}}};
  }

  Meaning meaning(const Unit& axis, const Unit& speed) const {
    Meaning m{.step = step_ * axis.factor, .top = top_ * speed.factor};
    std::tie(m.slowing, m.speeding) = hardest_changes(points_, axis.factor, speed.factor, time_);
    m.strangeness = strange(m.step, time_ ? kUsualStep : kUsualMetres, kStepWidth) +
                    strange(m.top, kUsualTop, kTopWidth) + strange(m.slowing, kUsualSlowing, kSlowingWidth) +
                    strange(m.speeding, kUsualSpeeding, kSpeedingWidth);
    if (m.top > kTooFast) m.strangeness += kAgainstHeader;
    if (time_) {
      m.way = way_ratio(points_, axis.factor, speed.factor);
      m.odometer = odometer_ratio(points_, axis.factor, speed.factor, odometer_);
      m.accelerometer = accelerometer_ratio(points_, axis.factor, speed.factor);
    }
    for (const double way : {m.way, m.odometer})
      if (!std::isnan(way)) m.strangeness += std::min(strange(way, 1, kWayWidth), kMostForWay);
    if (!std::isnan(m.accelerometer)) m.strangeness += std::min(strange(m.accelerometer, 1, kPushWidth), kMostForPush);
    const auto& axes = axis_units(time_);
    if (told_axis_.empty() && stated_axis_ && axes[*stated_axis_].factor != axis.factor)
      m.strangeness += kAgainstHeader;
    const auto& speeds = speed_units();
    if (told_speed_.empty() && stated_speed_ && speeds[*stated_speed_].factor != speed.factor)
      m.strangeness += kAgainstHeader;
    if (told_speed_.empty() && speed.spellings.empty()) m.strangeness += kScaledTwice;
    if (told_speed_.empty() && !stated_speed_) {
      if (speed.name == std::string_view("knot")) m.strangeness += kRareUnit;
      const bool sea_or_mile = speed.name == std::string_view("mph") || speed.name == std::string_view("knot");
      if (sea_or_mile && table_.decimal_comma) m.strangeness += kCommaLand;
    }
    return m;
  }

  std::string rate_text(double step) const {
    return time_ ? fmt::format("{:.3g} rows a second", 1 / step) : fmt::format("{:.3g} m between rows", step);
  }

  void tell_axis(const Unit& unit, const Meaning& m) {
    LogGuess g{
        fmt::format("{} unit", name_of(role_)), unit.name, {}, fmt::format("--unit {}=UNIT", name_of(role_)), false};
    const Unit* header = stated_axis_ ? &axis_units(time_)[*stated_axis_] : nullptr;
    if (axis_.clock)
      g.choice = "clock time", g.reason = fmt::format("written with colons; {}", rate_text(m.step));
    else if (!told_axis_.empty())
      g.reason = fmt::format("as told; {}", rate_text(m.step));
    else if (header == nullptr)
      g.reason = fmt::format("no unit in the header; this makes {}", rate_text(m.step));
    else if (header->factor == unit.factor)
      g.reason = fmt::format("the header says so; {}", rate_text(m.step));
    else
      g.reason = fmt::format("the header says {}, but that would be {}; this makes {}", header->name,
                             rate_text(step_ * header->factor), rate_text(m.step)),
      g.doubtful = true;
    table_.guesses.push_back(std::move(g));
  }

  // Less than this much apart, two ways of the car are the same: a satellite speed and jagged positions (our choice).
  static bool differs(double way) { return std::abs(way - 1) > 0.1; }
  static bool ways_differ(const Meaning& m) { return differs(m.way) || differs(m.odometer); }
  static bool confirmed(const Meaning& m) { return !std::isnan(m.way) || !std::isnan(m.odometer); }

  static std::string meant(const Meaning& m) {
    std::string out =
        fmt::format("top speed {:.0f} km/h, hardest slowing {:.1f} g", 3.6 * m.top, m.slowing / models::kGravity);
    if (!std::isnan(m.way)) out += fmt::format(", {:.2f} of the way that the positions show", m.way);
    if (!std::isnan(m.odometer)) out += fmt::format(", {:.2f} of the way in the distance column", m.odometer);
    if (!std::isnan(m.accelerometer)) out += fmt::format(", {:.2f} of the acceleration logged", m.accelerometer);
    return out;
  }

  void tell_speed(const Unit& unit, const Meaning& m, const std::vector<std::pair<Unit, Meaning>>& others) {
    constexpr double kWorthAWord = 15;  // more strange than that is out of the question
    constexpr std::size_t kMostWords = 2;
    const double lead = others.empty() ? kWorthAWord : others.front().second.strangeness - m.strangeness;
    LogGuess g{"speed unit", unit.name, {}, "--unit speed=UNIT", false};
    const Unit* header = stated_speed_ ? &speed_units()[*stated_speed_] : nullptr;
    if (!told_speed_.empty()) {
      g.reason = fmt::format("as told; {}", meant(m));
    } else if (header != nullptr && header->factor == unit.factor) {
      g.reason = fmt::format("the header says so; {}", meant(m));
      g.doubtful = lead < kNearlyAsGood;
    } else if (header != nullptr) {
      g.reason = fmt::format("the header says {}, but that would be {}; read like this: {}", header->name,
                             meant(meaning(axis_as(m), *header)), meant(m));
      g.doubtful = true;
    } else {
      g.reason = fmt::format("no unit in the header; {}", meant(m));
      if (table_.decimal_comma && unit.factor == 1 / 3.6) g.reason += "; decimal commas go with km/h";
      for (std::size_t k = 0; k < std::min(kMostWords, others.size()); ++k)
        if (const auto& [other, as] = others[k]; k == 0 || as.strangeness - m.strangeness < kWorthAWord)
          g.reason += fmt::format("; as {} it would be {}", other.name, meant(as));
      g.doubtful = !confirmed(m) || lead < kNearlyAsGood;
    }
    g.doubtful = g.doubtful || ways_differ(m);
    if (unit.factor < 0.1 && told_speed_.empty()) g.reason += "; it looks as if km/h had been multiplied by 3.6 twice";
    table_.guesses.push_back(std::move(g));
  }

  // The unit of the axis that a meaning was found with.
  Unit axis_as(const Meaning& m) const { return {"", m.step / step_, {}}; }

  LogTable& table_;
  bool time_;
  LogRole role_;
  const LogColumn &axis_, &speed_;
  Points points_;
  std::optional<double> odometer_;  // factor of the distance column, where its unit is known
  std::optional<std::size_t> stated_axis_, stated_speed_;
  std::string told_axis_, told_speed_;
  std::map<LogRole, std::string> told_name_;  // what the names of told units point into
  double step_ = 0, top_ = 0;                 // raw
};

}  // namespace

double told_factor(const LogTable& table, LogRole role, const std::string& unit) {
  const Quantity kind = role == LogRole::time                                    ? Quantity::time
                        : role == LogRole::speed                                 ? Quantity::speed
                        : role == LogRole::distance || role == LogRole::altitude ? Quantity::length
                                                                                 : Quantity::number;
  const bool has_factor = !unit.empty() && (std::isdigit(static_cast<unsigned char>(unit[0])) != 0 || unit[0] == '.');
  try {
    return parse_quantity(has_factor ? unit : fmt::format("1 {}", unit), kind);
  } catch (const UnitError& e) {
    refuse_log(table.name, 0, fmt::format("--unit {}={}: {}", name_of(role), unit, e.what()), e.hint());
  }
}

LogScale guess_scale(LogTable& table, const LogColumns& columns, const std::map<LogRole, std::string>& told) {
  return Search(table, columns, told).run();
}

}  // namespace hatring::io
