// SPDX-License-Identifier: MIT
#include "sim/io/trace_yaml.hpp"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>

namespace hatring::io {
namespace {

constexpr std::size_t kWidth = 118;

// Words in lines that begin with `first`, then with `next`.
std::string filled(const std::vector<std::string>& words, const std::string& first, const std::string& next) {
  std::string out, line = first;
  for (const std::string& word : words) {
    if (line.size() + 1 + word.size() > kWidth) {
      out += line + "\n";
      line = next;
    }
    line += fmt::format("{}{}", line.back() == '[' ? "" : " ", word);
  }
  return out + line + "\n";
}

std::string remark(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; }, ' ');
  std::vector<std::string> words;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find(' ', begin), text.size());
    if (end > begin) words.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return filled(words, "#", "#");
}

std::string channel(const char* name, const char* unit, const std::vector<double>& values, double scale, int digits) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < values.size(); ++i)
    words.push_back(fmt::format("{:.{}f}{}", values[i] * scale, digits, i + 1 < values.size() ? "," : "]"));
  return fmt::format("  {}:\n    unit: {}\n{}", name, unit, filled(words, "    values: [", "     "));
}

}  // namespace

std::string trace_file_text(const session::Trace& trace, const std::vector<std::string>& remarks) {
  std::string out;
  for (const std::string& text : remarks) out += remark(text);
  YAML::Emitter name;
  name << YAML::DoubleQuoted << trace.name;
  out += fmt::format("trace:\n  name: {}\n", name.c_str());
  out += channel("distance", "m", trace.distance, 1, 3);
  out += channel("speed", "km/h", trace.speed, 3.6, 3);
  if (!trace.grade.empty()) out += channel("grade", "\"%\"", trace.grade, 100, 3);
  return out;
}

}  // namespace hatring::io
