// SPDX-License-Identifier: MIT
#include "sim/io/yaml_text.hpp"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>

namespace hatring::io {
namespace {

constexpr std::size_t kWidth = 118;

}  // namespace

std::string yaml_comment(std::string text, const std::string& next) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; }, ' ');
  std::string out, line = "#";
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t end = std::min(text.find(' ', i), text.size());
    if (line.size() > 1 && line.size() + 1 + end - i > kWidth) out += line + "\n", line = next;
    line += fmt::format(" {}", text.substr(i, end - i));
    i = end + 1;
  }
  return out + line + "\n";
}

std::string yaml_quoted(const std::string& text) {
  YAML::Emitter out;
  out << YAML::DoubleQuoted << text;
  return out.c_str();
}

std::string yaml_channel(const char* name, const std::string& unit, const std::vector<double>& values, double scale,
                         int digits) {
  std::string out = fmt::format("  {}:\n", name);
  if (!unit.empty()) out += fmt::format("    unit: {}\n", unit);
  std::string line = "    values: [";
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::string number = fmt::format("{:.{}f}{}", values[i] * scale, digits, i + 1 < values.size() ? "," : "]");
    if (line.size() + 1 + number.size() > kWidth) out += line + "\n", line = "     ";
    line += fmt::format("{}{}", line.back() == '[' ? "" : " ", number);
  }
  return out + line + "\n";
}

}  // namespace hatring::io
