// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "sim/io/log/reading.hpp"
#include "sim/io/tree.hpp"
#include "sim/io/yaml_text.hpp"

namespace hatring::io {

std::string trace_yaml(const LogReading& r) {
  const session::Trace& t = r.trace;
  const std::size_t channels = 2 + (t.grade.empty() ? 0 : 1) + (t.brake.empty() ? 0 : 1);
  if (t.speed.size() * channels > kMostNodes * 9 / 10)
    refuse_log(r.source, 0,
               fmt::format("the trace would hold {} values, more than a session file takes", t.speed.size() * channels),
               "take one lap (--lap N), or a shorter log");
  const std::string next = "#    ";
  std::string out =
      yaml_comment(fmt::format("Speed trace read from {} by `hatring trace`. What it guessed:", r.source), next);
  for (const LogGuess& g : r.guesses)
    out += yaml_comment(fmt::format("  {}: {} ({})", g.what, g.choice, g.reason), next);
  if (!r.faults.empty())
    out += yaml_comment(
        fmt::format("{} values or rows of the log could not be used; `hatring trace` names them.", r.faults.size()),
        next);
  out += fmt::format("trace:\n  name: {}\n", yaml_quoted(t.name));
  const auto channel = [&out](const char* name, const std::string& unit, const std::vector<double>& values,
                              double scale, int digits) {
    if (!values.empty()) out += yaml_channel(name, unit, values, scale, digits);
  };
  channel("time", "s", t.time, 1, 4);
  channel("distance", "m", t.distance, 1, 3);
  channel("speed", "km/h", t.speed, 3.6, 2);
  channel("grade", "", t.grade, 1, 4);
  channel("brake", t.brake.empty() || r.brake_unit.empty() ? "" : yaml_quoted(r.brake_unit), t.brake, 1, 3);
  if (!t.brake.empty()) out += fmt::format("  brake_threshold: {:.4g}\n", t.brake_threshold);
  return out;
}

}  // namespace hatring::io
