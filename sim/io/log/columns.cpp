// SPDX-License-Identifier: MIT
#include "sim/io/log/columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <set>
#include <utility>

#include "sim/io/nearest.hpp"

namespace hatring::io {
namespace {

using Words = std::set<std::string>;

struct Vocabulary {
  Words means;            // one of them makes a column a candidate
  Words favours, spoils;  // make it a better one; rule it out
};

// Words of loggers' headers (common practice, no source), English and the plainest of other languages.
const Vocabulary& vocabulary(LogRole role) {
  static const std::map<LogRole, Vocabulary> table{
      {LogRole::time,
       {{"time", "timestamp", "elapsed", "seconds", "sec", "secs", "t", "clock", "utc", "zeit", "temps", "tiempo"},
        {"elapsed", "time", "session", "total"},
        {"date", "sector", "split", "delta", "best", "diff", "gap", "predicted", "zone", "sync"}}},
      {LogRole::distance,
       {{"distance", "dist", "odometer", "strecke"}, {"distance", "total"}, {"to", "delta", "fuel"}}},
      {LogRole::speed,
       {{"speed", "velocity", "vel", "v", "kph", "kmh", "mph", "geschwindigkeit", "vitesse", "velocidad"},
        {"gps", "ground", "vehicle", "car", "speed"},
        {"engine", "wind", "fan", "rpm", "limit", "min", "max", "avg", "average", "turbo", "pump", "vertical",
         "lateral", "corner", "rate", "delta", "vertvel", "downshift"}}},
      {LogRole::lap,
       {{"lap", "laps", "runde", "tour"},
        {"number", "no", "count", "index", "nr", "num"},
        {"time", "distance", "dist", "best", "delta", "fuel", "speed", "elapsed", "progress"}}},
      {LogRole::latitude, {{"latitude", "lat"}, {"latitude", "gps"}, {}}},
      {LogRole::longitude, {{"longitude", "lon", "lng", "long"}, {"longitude", "gps"}, {}}},
      {LogRole::altitude, {{"altitude", "alt", "elevation", "ele", "height"}, {"gps"}, {"ride", "fuel"}}},
      {LogRole::brake,
       {{"brake", "brakes", "brk"},
        {"pressure", "press", "front", "pedal"},
        {"temp", "temperature", "bias", "balance", "disc", "disk", "rotor", "duct", "wear", "hand", "handbrake", "pad",
         "fluid"}}},
  };
  return table.at(role);
}

// Of no use as any channel: they are about the measurement.
const Words kAboutQuality{"accuracy", "error", "err", "std", "stdev", "quality", "valid", "age", "hdop", "dop"};
const Words kAccelerations{"acc", "accel", "acceleration", "accelerometer", "g", "gforce", "force"};

// Whether numbers can be what the name says. \returns an empty text, or what is wrong with them
std::string unfit(LogRole role, const LogColumn& column) {
  std::vector<double> values = present(column.values);
  if (values.empty()) return "holds no numbers";
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  if (role == LogRole::time || role == LogRole::distance) {
    std::size_t rises = 0, falls = 0;
    for (std::size_t i = 1; i < values.size(); ++i) {
      rises += values[i] > values[i - 1] ? 1 : 0;
      falls += values[i] < values[i - 1] ? 1 : 0;
    }
    if (rises == 0 || falls * 10 > rises) return "does not rise from row to row";
  } else if (role == LogRole::lap) {
    const bool whole = std::all_of(values.begin(), values.end(), [](double v) { return v == std::floor(v); });
    if (!whole) return "holds numbers that are not whole";
  } else if (*low == *high) {
    return fmt::format("holds nothing but {:g}{}", *low, *low <= -200 ? " (no sensor)" : "");
  }
  return {};
}

double score(LogRole role, const LogColumn& column) {
  const Vocabulary& v = vocabulary(role);
  const std::vector<std::string> words = words_of(column.title);
  double sum = 0;
  bool named = false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (v.spoils.contains(word) || kAboutQuality.contains(word)) return 0;
    const bool place = role == LogRole::latitude || role == LogRole::longitude;
    if (place && kAccelerations.contains(word)) return 0;
    if (role == LogRole::time && word == "lap") sum -= 2;  // often the time of the lap before
    if (role == LogRole::speed && (word == "wheel" || word == "wheels")) sum -= 1;
    if (v.means.contains(word) && (word.size() > 1 || i == 0)) named = true;  // a single letter may be a unit
    if (v.favours.contains(word)) sum += 1;
  }
  return named ? std::max(4 + sum, 0.1) - 0.01 * static_cast<double>(words.size()) : 0;
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

std::vector<std::string> titles(const LogTable& table) {
  std::vector<std::string> out;
  for (const LogColumn& c : table.columns) out.push_back(c.title);
  return out;
}

std::size_t told_column(const LogTable& table, LogRole role, const std::string& told) {
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const std::string& title = table.columns[c].title;
    if (lower(title) == lower(told) || lower(split_name(title).name) == lower(told)) return c;
  }
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(told.data(), told.data() + told.size(), number);
  if (error == std::errc() && end == told.data() + told.size() && number >= 1 && number <= table.columns.size())
    return number - 1;
  const std::string meant = nearest(told, titles(table));
  refuse_log(table.name, table.header_line,
             fmt::format("found no column `{}` for --column {}={}, expected one of: {}", told, name_of(role), told,
                         joined(titles(table))),
             meant.empty() ? "" : fmt::format("did you mean `{}`?", meant));
}

void guess_column(LogTable& table, LogRole role, LogColumns& out) {
  std::size_t best = table.columns.size();
  double record = 0;
  std::string rejected;
  std::vector<std::string> others;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const double s = score(role, table.columns[c]);
    if (s <= 0) continue;
    if (const std::string why = unfit(role, table.columns[c]); !why.empty()) {
      rejected += fmt::format("{}`{}` {}", rejected.empty() ? "" : ", ", table.columns[c].title, why);
      continue;
    }
    if (best < table.columns.size()) others.push_back(table.columns[s > record ? best : c].title);
    if (s > record) record = s, best = c;
  }
  LogGuess guess{std::string(name_of(role)), "none", kNoSuchName, fmt::format("--column {}=NAME", name_of(role)),
                 false};
  if (!rejected.empty()) guess.reason = rejected;
  if (best < table.columns.size()) {
    out[role] = best;
    guess.choice = fmt::format("column `{}`", table.columns[best].title);
    guess.reason = others.empty() ? "by its name, and the values can be it"
                                  : fmt::format("its name fits better than, or comes before, `{}`", joined(others));
    guess.doubtful = !others.empty() && role == LogRole::speed;
  }
  table.guesses.push_back(std::move(guess));
}

}  // namespace

std::string_view name_of(LogRole role) {
  constexpr std::array<std::string_view, kLogRoles.size()> kNames{"time",     "distance",  "speed",    "lap",
                                                                  "latitude", "longitude", "altitude", "brake"};
  return kNames.at(static_cast<std::size_t>(role));
}

std::vector<std::string> words_of(std::string_view title) {
  const auto is = [&title](std::size_t i, int (*kind)(int)) {
    return i < title.size() && kind(static_cast<unsigned char>(title[i])) != 0;
  };
  std::vector<std::string> words;
  std::string word;
  for (std::size_t i = 0; i < title.size(); ++i) {
    // A new word also begins at "kP" in "BrakePressure" and at "Sp" in "GPSSpeed".
    const bool hump = is(i, std::isupper) && i > 0 &&
                      (is(i - 1, std::islower) || (is(i - 1, std::isupper) && is(i + 1, std::islower)));
    if ((hump || !is(i, std::isalpha)) && !word.empty()) words.push_back(std::exchange(word, {}));
    if (is(i, std::isalpha)) word += static_cast<char>(std::tolower(static_cast<unsigned char>(title[i])));
  }
  if (!word.empty()) words.push_back(word);
  return words;
}

std::vector<double> present(const std::vector<double>& values) {
  std::vector<double> out;
  std::copy_if(values.begin(), values.end(), std::back_inserter(out), [](double v) { return !std::isnan(v); });
  return out;
}

double percentile(std::vector<double>& values, double share) {
  const auto at = values.begin() + std::lround(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

LogColumns find_columns(LogTable& table, const std::map<LogRole, std::string>& told) {
  LogColumns out;
  for (const LogRole role : kLogRoles) {
    const auto given = told.find(role);
    if (given == told.end()) {
      guess_column(table, role, out);
      continue;
    }
    const std::string option = fmt::format("--column {}=NAME", name_of(role));
    if (lower(given->second) == "none") {
      table.guesses.push_back({std::string(name_of(role)), "none", "as told", option, false});
      continue;
    }
    out[role] = told_column(table, role, given->second);
    const LogColumn& column = table.columns[out[role]];
    if (const std::string why = unfit(role, column); !why.empty())
      refuse_log(
          table.name, table.header_line,
          fmt::format("found that column `{}` {}, expected one that can be the {}", column.title, why, name_of(role)));
    table.guesses.push_back(
        {std::string(name_of(role)), fmt::format("column `{}`", column.title), "as told", option, false});
  }
  const std::string all = fmt::format("columns here: {}", joined(titles(table)));
  const auto why = [&table](LogRole role) {
    return std::find_if(table.guesses.begin(), table.guesses.end(),
                        [role](const LogGuess& g) { return g.what == name_of(role); })
        ->reason;
  };
  if (!out.contains(LogRole::speed))
    refuse_log(table.name, table.header_line,
               fmt::format("found no column of speeds ({}), expected one; name it with --column speed=NAME",
                           why(LogRole::speed)),
               all);
  if (!out.contains(LogRole::time) && !out.contains(LogRole::distance))
    refuse_log(table.name, table.header_line,
               fmt::format("found no column of times ({}) or distances, expected one; name it with --column time=NAME",
                           why(LogRole::time)),
               all);
  return out;
}

}  // namespace hatring::io
