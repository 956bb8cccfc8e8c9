// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>

#include "sim/io/log_reading.hpp"
#include "sim/io/tree.hpp"

namespace hatring::io {
namespace {

constexpr std::size_t kWidth = 118;

// One comment paragraph; a byte that is no text would end the comment or the file.
std::string comment(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; }, ' ');
  std::string out, line = "#";
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t end = std::min(text.find(' ', i), text.size());
    if (line.size() > 1 && line.size() + 1 + end - i > kWidth) out += line + "\n", line = "#    ";
    line += fmt::format(" {}", text.substr(i, end - i));
    i = end + 1;
  }
  return out + line + "\n";
}

std::string quoted(const std::string& text) {
  YAML::Emitter out;
  out << YAML::DoubleQuoted << text;
  return out.c_str();
}

void channel(std::string& out, const char* name, const std::string& unit, const std::vector<double>& values,
             double scale, int digits) {
  if (values.empty()) return;
  out += fmt::format("  {}:\n", name);
  if (!unit.empty()) out += fmt::format("    unit: {}\n", unit);
  std::string line = "    values: [";
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::string number = fmt::format("{:.{}f}{}", values[i] * scale, digits, i + 1 < values.size() ? "," : "]");
    if (line.size() + 1 + number.size() > kWidth) out += line + "\n", line = "     ";
    line += fmt::format("{}{}", line.back() == '[' ? "" : " ", number);
  }
  out += line + "\n";
}

}  // namespace

std::string trace_yaml(const LogReading& r) {
  const session::Trace& t = r.trace;
  const std::size_t channels = 2 + (t.grade.empty() ? 0 : 1) + (t.brake.empty() ? 0 : 1);
  if (t.speed.size() * channels > kMostNodes * 9 / 10)
    refuse_log(r.source, 0,
               fmt::format("the trace would hold {} values, more than a session file takes", t.speed.size() * channels),
               "take one lap (--lap N), or a shorter log");
  std::string out = comment(fmt::format("Speed trace read from {} by `hatring trace`. What it guessed:", r.source));
  for (const LogGuess& g : r.guesses) out += comment(fmt::format("  {}: {} ({})", g.what, g.choice, g.reason));
  if (!r.faults.empty())
    out += comment(
        fmt::format("{} values or rows of the log could not be used; `hatring trace` names them.", r.faults.size()));
  out += "trace:\n";
  out += fmt::format("  name: {}\n", quoted(t.name));
  channel(out, "time", "s", t.time, 1, 4);
  channel(out, "distance", "m", t.distance, 1, 3);
  channel(out, "speed", "km/h", t.speed, 3.6, 2);
  channel(out, "grade", "", t.grade, 1, 4);
  channel(out, "brake", t.brake.empty() || r.brake_unit.empty() ? "" : quoted(r.brake_unit), t.brake, 1, 3);
  if (!t.brake.empty()) out += fmt::format("  brake_threshold: {:.4g}\n", t.brake_threshold);
  return out;
}

}  // namespace hatring::io
