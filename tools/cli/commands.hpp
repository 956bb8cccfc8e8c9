// SPDX-License-Identifier: MIT
//! \file
//! The commands of the program and what they share.
#pragma once

#include <CLI/CLI.hpp>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/io/read_case.hpp"
#include "sim/session/case.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! Exit codes of every command. Bad input is what was given: files that are read, the command line. All else that goes
//! wrong is a failure: what cannot be written, whatever the reason, and faults of the program.
enum Exit { kWithinLimits = 0, kOverLimit = 1, kBadInput = 2, kFailure = 3 };

//! What the commands that run a session file share.
struct SessionOptions {
  std::filesystem::path session;
  std::filesystem::path out;  //!< empty: ./STEM-result, or what `kind` says instead of "result"
  std::string kind = "result";
  std::vector<std::string> set;
  std::vector<std::filesystem::path> include_dirs;
  UnitSystem units = UnitSystem::si;
  std::optional<session::Mesh> mesh;
  bool json = false, quiet = false, no_report = false;

  //! Adds them to a command, the session file as its first argument. A command other than simulate writes to a
  //! folder named after itself, so that no command overwrites what another wrote.
  void add_to(CLI::App& command);
  //! The folder to write to; it need not exist yet.
  //! \throws OutputError when nothing can be written there: asked before a long run, not after it
  [[nodiscard]] std::filesystem::path directory() const;
  [[nodiscard]] io::ReadOptions reading() const {
    return {.set = set, .allowed_include_dirs = include_dirs, .mesh = mesh};
  }
};

void add_units_option(CLI::App& command, UnitSystem& units);
//! Whether something can be sorted by: the key of a measure, with "front." or "rear." before it or without.
//! \returns empty, or what is wrong
[[nodiscard]] std::string check_measure_key(const std::string& key);
//! Whether stdout is a terminal whose user did not ask for plain text (NO_COLOR).
[[nodiscard]] bool terminal_wants_colour();

//! What the command line asked for.
struct Action {
  std::function<int()> run;    //!< returns an Exit
  bool many_sessions = false;  //!< on threads of their own, as many as there are cores or set-ups
};

//! Name, cautions and every command of the program: what it parses, and what its manual and completions are made of.
void describe_program(CLI::App& app, Action& action);

// Each command adds itself with its options to the program and, when it is the one that was called, becomes the action.
void add_simulate(CLI::App& program, Action& action);
void add_sweep(CLI::App& program, Action& action);
void add_compare(CLI::App& program, Action& action);
void add_cooldown(CLI::App& program, Action& action);
void add_explain(CLI::App& program, Action& action);
void add_lap(CLI::App& program, Action& action);
void add_trace(CLI::App& program, Action& action);

}  // namespace hatring::tools
