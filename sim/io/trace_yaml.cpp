// SPDX-License-Identifier: MIT
#include "sim/io/trace_yaml.hpp"

#include <fmt/format.h>

#include "sim/io/yaml_text.hpp"

namespace hatring::io {

std::string trace_file_text(const session::Trace& trace, const std::vector<std::string>& remarks) {
  std::string out;
  for (const std::string& text : remarks) out += yaml_comment(text);
  out += fmt::format("trace:\n  name: {}\n", yaml_quoted(trace.name));
  out += yaml_channel("distance", "m", trace.distance, 1, 3);
  out += yaml_channel("speed", "km/h", trace.speed, 3.6, 3);
  if (!trace.grade.empty()) out += yaml_channel("grade", "\"%\"", trace.grade, 100, 3);
  return out;
}

}  // namespace hatring::io
