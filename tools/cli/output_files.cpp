// SPDX-License-Identifier: MIT
#include "tools/cli/output_files.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <ctime>
#include <span>
#include <stdexcept>
#include <system_error>

#include "sim/io/replace_file.hpp"
#include "sim/io/result/file.hpp"
#include "tools/cli/version.hpp"

namespace hatring::tools {

namespace fs = std::filesystem;

OutputError::OutputError(const fs::path& where, const std::error_code& why)
    : std::runtime_error(fmt::format("{}: cannot be written: {}\n  expected a place that you may write to and that has "
                                     "room; name another with --out",
                                     where.string(), why.message())) {}

void check_writable(const fs::path& folder) {
  std::error_code error;
  fs::path there = fs::absolute(folder, error);
  while (!there.empty() && there != there.parent_path() && !fs::exists(there, error) &&
         error != std::errc::not_a_directory)
    there = there.parent_path();
  if (error == std::errc::not_a_directory || (!error && !fs::is_directory(there, error)))
    throw OutputError(folder, std::make_error_code(std::errc::not_a_directory));
  if (::access(there.c_str(), W_OK | X_OK) != 0) throw OutputError(folder, {errno, std::generic_category()});
}

void make_folder(const fs::path& folder) {
  std::error_code error;
  if (!folder.empty()) fs::create_directories(folder, error);
  if (error) throw OutputError(folder, error);
}

namespace {

template <class Write>
void writing(const fs::path& file, Write&& write) {
  try {
    write();
  } catch (const std::system_error& e) {
    throw OutputError(file, e.code());
  }
}

}  // namespace

void write_file(const fs::path& file, std::string_view text) {
  writing(file, [&] { io::replace_file(file, std::as_bytes(std::span(text))); });
}

void write_result_file(const fs::path& file, const answer::Run& run, const io::ReadResult& read,
                       const std::string& created) {
  const io::ResultMeta meta{.program_version = kVersion,
                            .created = created,
                            .config = read.resolved_yaml,
                            .mesh = session::mesh_name(read.c.physics.mesh),
                            .hot_side_factor = read.c.brakes.hot_side_factor};
  writing(file, [&] { io::write_result(file, run, meta); });
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
