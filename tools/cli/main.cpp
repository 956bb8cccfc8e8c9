// SPDX-License-Identifier: MIT
// The hatring command: one place that turns errors into exit codes.
#include <fmt/format.h>

#include <csignal>
#include <cstdio>
#include <exception>
#include <iostream>
#include <stdexcept>

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
  int code = kWithinLimits;
  try {
    app.parse(argc, argv);
    code = action();
  } catch (const CLI::ParseError& e) {
    code = app.exit(e) == 0 ? kWithinLimits : kBadInput;
  }
  // What is still in a buffer may not fit either; nobody would hear of it later.
  std::cout.flush();
  if (!std::cout || std::fflush(stdout) != 0) throw std::runtime_error("cannot write to standard output");
  return code;
}

}  // namespace
}  // namespace hatring::tools

int main(int argc, char** argv) {
  using namespace hatring;
  // A file that grows beyond `ulimit -f` is then an error like a full disk, and nothing half-written stays.
  std::signal(SIGXFSZ, SIG_IGN);
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
