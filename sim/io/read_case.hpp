// SPDX-License-Identifier: MIT
//! \file
//! YAML to Case. The schema (schema.hpp) is the only authority on keys, units, ranges and defaults.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/io/config_error.hpp"
#include "sim/session/case.hpp"

namespace hatring::io {

struct ReadOptions {
  std::vector<std::string> set = {};  //!< "key.path=value"; list entries by index from 0 (session.3.park=20 min)
  std::vector<std::filesystem::path> allowed_include_dirs =
      {};                                  //!< besides the top file's folder and the configs/ it lies in
  std::optional<session::Mesh> mesh = {};  //!< overrides physics.mesh
  //! A variant of the set-up, merged over the file as an including file is over what it includes (maps deep, lists
  //! replaced), before `set`. It may reach its own folder and the configs/ it lies in, and may not hold a `session`.
  //! Its `name`, or else the name of its file, becomes that of the case.
  std::optional<std::filesystem::path> variant = {};
};

struct ReadResult {
  session::Case c;
  //! The whole config after includes, --set and trace files: one text that needs no other file. Read again, it gives
  //! the same Case.
  std::string resolved_yaml;
};

//! \throws ConfigError with everything that is wrong   Tested in tests/sim/io.
[[nodiscard]] ReadResult read_case(const std::filesystem::path& file, const ReadOptions& options = {});
//! \param name stands for the file name in messages. Relative includes start at the working directory, and only
//!        allowed_include_dirs may be read.
[[nodiscard]] ReadResult read_case_text(std::string_view yaml, const std::string& name,
                                        const ReadOptions& options = {});

//! The key reference of the docs: every key with its kind, default, reason and range, as Markdown tables.
[[nodiscard]] std::string schema_markdown();

}  // namespace hatring::io
