// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <map>

#include <fmt/format.h>

#include "sim/answer/measures.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/output_files.hpp"

namespace hatring::tools {

void add_units_option(CLI::App& command, UnitSystem& units) {
  static const std::map<std::string, UnitSystem> names{{"si", UnitSystem::si}, {"us", UnitSystem::us}};
  command
      .add_option_function<std::string>(
          "--units", [&units](const std::string& name) { units = names.at(name); }, "Units on the terminal")
      ->check(CLI::IsMember(names))
      ->type_name("NAME");
}

void SessionOptions::add_to(CLI::App& command) {
  static const std::map<std::string, session::Mesh> mesh_names{{"lump", session::Mesh::lump},
                                                               {"coarse", session::Mesh::coarse},
                                                               {"standard", session::Mesh::standard},
                                                               {"fine", session::Mesh::fine}};
  if (command.get_name() != "simulate") kind = command.get_name();
  command.add_option("session", session, "Session file (YAML)")->required()->type_name("SESSION.yaml");
  command.add_option("-o,--out", out, fmt::format("Directory for what is written; default ./STEM-{}", kind))
      ->type_name("DIR");
  command.add_option("--set", set, "Override one value of the config, as key.path=value; may be repeated")
      ->type_name("KEY=VALUE")
      ->allow_extra_args(false);
  command.add_option("--allow-include", include_dirs, "Another folder that includes may read; may be repeated")
      ->type_name("DIR")
      ->allow_extra_args(false);
  add_units_option(command, units);
  command
      .add_option_function<std::string>(
          "--mesh", [this](const std::string& name) { mesh = mesh_names.at(name); },
          "How finely parts are cut; lump and coarse are for a quick look")
      ->check(CLI::IsMember(mesh_names))
      ->type_name("NAME");
  command.add_flag("--json", json, "Print one JSON object (SI units) and nothing else");
  command.add_flag("--quiet", quiet, "Print nothing but errors");
  command.add_flag("--no-report", no_report, "Leave report.html out");
}

std::string check_measure_key(const std::string& key) {
  for (const answer::Measure& m : answer::measures())
    if (key == m.key || (m.per_axle && (key == fmt::format("front.{}", m.key) || key == fmt::format("rear.{}", m.key))))
      return {};
  return fmt::format("unknown key '{}', see hatring compare --help", key);
}

std::filesystem::path SessionOptions::directory() const {
  std::filesystem::path folder = out;
  if (folder.empty()) folder = fmt::format("{}-{}", session.stem().string(), kind);
  check_writable(folder);
  return folder;
}

bool terminal_wants_colour() {
  const char* no_colour = std::getenv("NO_COLOR");
  return isatty(STDOUT_FILENO) == 1 && !(no_colour && *no_colour);
}

}  // namespace hatring::tools
