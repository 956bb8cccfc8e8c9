// SPDX-License-Identifier: MIT
// The hatring command: options, and one place that turns errors into exit codes.
#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <map>

#include "sim/answer/answers.hpp"
#include "sim/io/config_error.hpp"
#include "sim/session/error.hpp"
#include "sim/solve/error.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/summary.hpp"
#include "tools/cli/version.hpp"

namespace hatring::tools {

void CommonOptions::add_to(CLI::App& command) {
  static const std::map<std::string, UnitSystem> unit_names{{"si", UnitSystem::si}, {"us", UnitSystem::us}};
  static const std::map<std::string, session::Mesh> mesh_names{{"lump", session::Mesh::lump},
                                                               {"coarse", session::Mesh::coarse},
                                                               {"standard", session::Mesh::standard},
                                                               {"fine", session::Mesh::fine}};
  command.add_option("session", session, "Session file (YAML)")->required()->type_name("SESSION.yaml");
  command.add_option("--out", out, "Directory for what is written; default ./STEM-result")->type_name("DIR");
  command.add_option("--set", set, "Override one value of the config, as key.path=value; may be repeated")
      ->type_name("KEY=VALUE")
      ->allow_extra_args(false);
  command.add_option("--allow-include", include_dirs, "Another folder that includes may read; may be repeated")
      ->type_name("DIR")
      ->allow_extra_args(false);
  command
      .add_option_function<std::string>(
          "--units", [this](const std::string& name) { units = unit_names.at(name); }, "Units on the terminal")
      ->check(CLI::IsMember(unit_names))
      ->type_name("NAME");
  command
      .add_option_function<std::string>(
          "--mesh", [this](const std::string& name) { mesh = mesh_names.at(name); }, "How finely parts are cut")
      ->check(CLI::IsMember(mesh_names))
      ->type_name("NAME");
  command.add_flag("--json", json, "Print one JSON object (SI units) and nothing else");
  command.add_flag("--quiet", quiet, "Print nothing but errors");
  command.add_flag("--no-report", no_report, "Leave report.html out");
}

std::filesystem::path CommonOptions::directory() const {
  return out.empty() ? std::filesystem::path(session.stem().string() + "-result") : out;
}

namespace {

struct Command {
  const char *name, *description;
  int (*run)(const CommonOptions& options);
};

constexpr Command kCommands[] = {
    {"simulate", "Run one session: verdicts, result.h5, report.html", simulate},
    {"explain", "Show the network that would be built and every default, with reasons; solve nothing", explain},
};

int run_command(int argc, char** argv) {
  CLI::App app("hatring: will the car's two-piece brake discs last the track session, and what to change.", "hatring");
  std::string footer = "\n";
  for (const std::string& c : answer::cautions()) footer += wrapped(c, 79, 0) + "\n";
  footer += "\nExit codes: 0 within limits, 1 a limit is exceeded, 2 bad input or usage, 3 internal failure.";
  app.footer(footer);
  app.set_version_flag("--version", std::string("hatring ") + kVersion);
  app.require_subcommand(1);
  CommonOptions options;
  for (const Command& command : kCommands) options.add_to(*app.add_subcommand(command.name, command.description));
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? kWithinLimits : kBadInput;
  }
  for (const Command& command : kCommands)
    if (app.got_subcommand(command.name)) return command.run(options);
  return kBadInput;
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
