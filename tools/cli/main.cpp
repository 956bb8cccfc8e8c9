// SPDX-License-Identifier: MIT
// The hatring command: one place that turns errors into exit codes.
#include <fmt/format.h>

#include <cstdio>
#include <exception>

#include "sim/io/config_error.hpp"
#include "sim/session/error.hpp"
#include "sim/solve/error.hpp"
#include "tools/cli/commands.hpp"

namespace hatring::tools {

namespace {

int run_command(int argc, char** argv) {
  CLI::App app;
  Action action;
  describe_program(app, action);
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
  } catch (const std::filesystem::filesystem_error& e) {
    fmt::print(stderr, "hatring: error: {}\n", e.what());
    return tools::kBadInput;
  } catch (const std::exception& e) {
    fmt::print(stderr, "hatring: error: {}\n", e.what());
    return tools::kInternalFailure;
  }
}
