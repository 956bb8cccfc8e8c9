// SPDX-License-Identifier: MIT
// The hatring command: options, and one place that turns errors into exit codes.
#include <fmt/format.h>

#include <cstdio>
#include <exception>

#include "sim/answer/answers.hpp"
#include "sim/io/config_error.hpp"
#include "sim/session/error.hpp"
#include "sim/solve/error.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/summary.hpp"
#include "tools/cli/version.hpp"

namespace hatring::tools {

namespace {

constexpr auto kCommands = {add_simulate, add_compare, add_cooldown, add_trace, add_lap, add_explain};

int run_command(int argc, char** argv) {
  CLI::App app("hatring: will the car's two-piece brake discs last the track session, and what to change.", "hatring");
  std::string footer = "\n";
  for (const std::string& c : answer::cautions()) footer += wrapped(c, 79, 0) + "\n";
  footer += "\nExit codes: 0 within limits, 1 a limit is exceeded, 2 bad input or usage, 3 internal failure.";
  app.footer(footer);
  app.set_version_flag("--version", std::string("hatring ") + kVersion);
  app.require_subcommand(1);
  Action action;
  for (const auto add : kCommands) add(app, action);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? kWithinLimits : kBadInput;
  }
  return action();
}

}  // namespace
}  // namespace hatring::tools

int main(int argc, char** argv) {
  using namespace hatring;
  try {
    return tools::run_command(argc, argv);
  } catch (const io::ConfigError& e) {
    fmt::print(stderr, "{}\n", e.what());
    return tools::kBadInput;
  } catch (const session::CaseError& e) {
    fmt::print(stderr, "hatring: error: {}\n", e.what());
    return tools::kBadInput;
  } catch (const solve::SolveError& e) {
    fmt::print(stderr, "hatring: {}\n", e.what());
    return tools::kInternalFailure;
  } catch (const tools::OutputError& e) {
    fmt::print(stderr, "hatring: error: {}\n", e.what());
    return tools::kBadInput;
  } catch (const std::exception& e) {
    fmt::print(stderr, "hatring: error: {}\n", e.what());
    return tools::kInternalFailure;
  }
}
