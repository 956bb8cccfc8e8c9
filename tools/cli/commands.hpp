// SPDX-License-Identifier: MIT
//! \file
//! The commands of the program and what they share.
#pragma once

#include <CLI/CLI.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "sim/session/case.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! Exit codes of every command.
enum Exit { kWithinLimits = 0, kOverLimit = 1, kBadInput = 2, kInternalFailure = 3 };

//! Options that every command takes.
struct CommonOptions {
  std::filesystem::path session;
  std::filesystem::path out;  //!< empty: ./STEM-result
  std::vector<std::string> set;
  std::vector<std::filesystem::path> include_dirs;
  UnitSystem units = UnitSystem::si;
  std::optional<session::Mesh> mesh;
  bool json = false, quiet = false, no_report = false;

  //! Adds them to a command.
  void add_to(CLI::App& command);
  [[nodiscard]] std::filesystem::path directory() const;
};

// Each command returns an Exit.
int simulate(const CommonOptions& options);
//! Prints the network and every assumption, and draws network-front.svg and network-rear.svg; solves nothing.
int explain(const CommonOptions& options);

}  // namespace hatring::tools
