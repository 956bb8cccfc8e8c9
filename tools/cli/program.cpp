// SPDX-License-Identifier: MIT
#include "sim/answer/answers.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/summary.hpp"
#include "tools/cli/version.hpp"

namespace hatring::tools {

namespace {

constexpr auto kCommands = {add_simulate, add_compare, add_cooldown, add_sweep, add_trace, add_lap, add_explain};

}  // namespace

void describe_program(CLI::App& app, Action& action) {
  app.name("hatring");
  app.description("hatring: will the car's two-piece brake discs last the track session, and what to change.");
  std::string footer = "\n";
  for (const std::string& c : answer::cautions()) footer += wrapped(c, 79, 0) + "\n";
  footer += "\n" + wrapped(
                       "Exit codes: 0 within limits, 1 a limit is exceeded, 2 bad input or usage, 3 a result that "
                       "cannot be written or another failure, 130 a sweep that was stopped and can go on.",
                       79, 0);
  app.footer(footer);
  app.set_version_flag("--version", std::string("hatring ") + kVersion);
  app.require_subcommand(1);
  for (const auto add : kCommands) add(app, action);
}

}  // namespace hatring::tools
