// SPDX-License-Identifier: MIT
#include "tools/cli/output_files.hpp"

#include <fmt/chrono.h>

#include <cstdlib>
#include <ctime>
#include <span>
#include <stdexcept>
#include <system_error>

#include "sim/io/replace_file.hpp"

namespace hatring::tools {

void write_file(const std::filesystem::path& file, std::string_view text) {
  try {
    io::replace_file(file, std::as_bytes(std::span(text)));
  } catch (const std::system_error& e) {
    throw std::runtime_error(fmt::format("{}: not written: {}", file.string(), e.what()));
  }
}

std::string timestamp() {
  std::time_t now = std::time(nullptr);
  if (const char* fixed = std::getenv("SOURCE_DATE_EPOCH")) {
    char* end = nullptr;
    const long long value = std::strtoll(fixed, &end, 10);
    if (end != fixed && *end == '\0') now = static_cast<std::time_t>(value);
  }
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(now));
}

}  // namespace hatring::tools
