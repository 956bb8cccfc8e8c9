// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/io/log/channels.hpp"

namespace hatring::io {
namespace {

constexpr double kDay = 86400;
constexpr double kCoarseShare = 0.3;  // of the rows share their stamp: the stamps are coarse, not repeated by mistake
constexpr std::size_t kStays = 3;     // rows after a jump that must follow it, for the jump to be real

std::vector<std::size_t> rows_with_value(const std::vector<double>& values) {
  std::vector<std::size_t> rows;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (!std::isnan(values[i])) rows.push_back(i);
  return rows;
}

double median_step(const std::vector<double>& t, const std::vector<std::size_t>& rows) {
  std::vector<double> steps;
  for (std::size_t k = 1; k < rows.size(); ++k)
    if (t[rows[k]] > t[rows[k - 1]]) steps.push_back(t[rows[k]] - t[rows[k - 1]]);
  return steps.empty() ? 0 : percentile(steps, 0.5);
}

// Whether the rows after k go on from it and not from the row before it.
bool stays(const std::vector<double>& t, const std::vector<std::size_t>& rows, std::size_t k, double last) {
  const bool ahead = t[rows[k]] > last;
  const std::size_t end = std::min(rows.size(), k + 1 + kStays);
  for (std::size_t j = k + 1; j < end; ++j) {
    if (t[rows[j]] < t[rows[k]]) return false;
    if (!ahead && t[rows[j]] > last) return false;
  }
  return end > k + 1 || ahead;
}

// Rows with one stamp are spread over the time to the next stamp.
void spread(std::vector<double>& t, const std::vector<std::size_t>& rows, double step) {
  for (std::size_t k = 0; k < rows.size();) {
    std::size_t end = k + 1;
    while (end < rows.size() && t[rows[end]] == t[rows[k]]) ++end;
    const double begin = t[rows[k]];
    const double next = end < rows.size() ? std::min(t[rows[end]], begin + 2 * step) : begin + step;
    for (std::size_t j = k; j < end; ++j)
      t[rows[j]] = begin + (next - begin) * static_cast<double>(j - k) / static_cast<double>(end - k);
    k = end;
  }
}

}  // namespace

LogClock repaired_clock(LogTable& table, std::size_t column, double factor, bool distance) {
  LogClock out{table.columns[column].values, {}};
  std::vector<double>& t = out.time;
  for (double& v : t) v *= factor;
  const std::vector<std::size_t> rows = rows_with_value(t);
  const double step = median_step(t, rows);
  const double far = std::max(20 * step, 2.0);
  double offset = 0, last_raw = kNothing;
  std::vector<std::size_t> good;
  std::size_t shared = 0, midnights = 0;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::size_t i = rows[k];
    const double raw = t[i];
    if (!good.empty()) {
      const bool back = raw < last_raw;
      if ((back || raw > last_raw + far) && !stays(t, rows, k, last_raw)) {
        table.faults.push_back(
            {table.lines[i], "its time (or distance) is out of line with the rows around it; row left out"});
        t[i] = kNothing;
        continue;
      }
      if (back && table.columns[column].clock && last_raw - raw > kDay / 2) {
        offset += kDay;
        ++midnights;
      } else if (back) {
        out.restarts.push_back(last_raw + offset + step);
        offset = out.restarts.back() - raw;
      }
      shared += raw == last_raw ? 1 : 0;
    }
    last_raw = raw;
    t[i] = raw + offset;
    good.push_back(i);
  }
  const char* what = distance ? "distance axis" : "clock";
  const auto tell = [&table, what](std::string choice, std::string reason) {
    table.guesses.push_back({what, std::move(choice), std::move(reason), "", false});
  };
  if (midnights > 0) tell("passes midnight", "the clock falls by about a day");
  if (!out.restarts.empty())
    tell(fmt::format("strung together at {} places", out.restarts.size()),
         "it begins again there, as loggers do that count each lap from 0; one step is put between");
  // A car that stands writes its distance again, which is no fault of the stamps.
  if (!distance && static_cast<double>(shared) > kCoarseShare * static_cast<double>(good.size())) {
    tell("rows that share a stamp spread evenly", fmt::format("{} of {} rows have the stamp of the row before: the "
                                                              "stamps are coarser than the rows",
                                                              shared, good.size()));
    spread(t, good, step);
  }
  return out;
}

}  // namespace hatring::io
