// SPDX-License-Identifier: MIT
//! \file
//! What tests need to spoil the small session in one place at a time.
#pragma once

#include <unistd.h>

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

#include "sim/io/read_case.hpp"
#include "tests/sim/io/small_session.hpp"

namespace hatring::io::testing {

inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

struct Place {
  int line = 1, column = 1;
};

//! Takes the marker `@` out of a text and says where it stood.
inline Place take_marker(std::string& text) {
  const std::size_t at = text.find('@');
  REQUIRE(at != std::string::npos);
  Place place;
  for (std::size_t i = 0; i < at; ++i) {
    place.column = text[i] == '\n' ? 1 : place.column + 1;
    place.line += text[i] == '\n' ? 1 : 0;
  }
  text.erase(at, 1);
  return place;
}

inline std::vector<Diagnostic> errors_of(const std::string& yaml, const ReadOptions& options = {}) {
  try {
    static_cast<void>(read_case_text(yaml, "session.yaml", options));
  } catch (const ConfigError& e) {
    return e.diagnostics();
  }
  return {};
}

//! `yaml` holds one `@`; the only error must stand there.
inline Diagnostic only_error(std::string yaml, const ReadOptions& options = {}) {
  const Place place = take_marker(yaml);
  const std::vector<Diagnostic> errors = errors_of(yaml, options);
  for (const Diagnostic& d : errors) UNSCOPED_INFO(to_text(d));
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].file == "session.yaml");
  CHECK(errors[0].line == place.line);
  CHECK(errors[0].column == place.column);
  return errors[0];
}

//! A folder of its own for each test and process (tests that share a helper run side by side), removed afterwards.
class Folder {
 public:
  explicit Folder(const std::string& name)
      : path_(std::filesystem::temp_directory_path() / ("hatring_test_io_" + name + "_" + std::to_string(::getpid()))) {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::filesystem::path write(const std::string& name, const std::string& text) const {
    const std::filesystem::path file = path_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << text;
    return file;
  }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

inline std::vector<Diagnostic> errors_of_file(const std::filesystem::path& file, const ReadOptions& options = {}) {
  try {
    static_cast<void>(read_case(file, options));
  } catch (const ConfigError& e) {
    return e.diagnostics();
  }
  return {};
}

}  // namespace hatring::io::testing
