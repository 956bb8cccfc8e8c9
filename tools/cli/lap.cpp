// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <memory>

#include "sim/io/trace_yaml.hpp"
#include "sim/session/drive.hpp"
#include "sim/session/error.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/lap_report.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/terminal.hpp"

namespace hatring::tools {
namespace {

struct LapOptions {
  std::filesystem::path track, car, out;
  std::vector<std::string> set;
  std::vector<std::filesystem::path> include_dirs;
  UnitSystem units = UnitSystem::si;
  double pace = 1, grip = 1;
  bool wet = false, json = false, quiet = false;
};

// The brakings as a session that drives it would find them; of a closed lap, with the lap before it driven the same
// way.
std::vector<session::Braking> brakings_of(session::Case c, const session::Trace& trace, bool closed) {
  c.traces = {trace};
  c.session = {session::DriveStep{.laps = closed ? 2 : 1}};
  const session::Drive drive(c);
  std::vector<session::Braking> out;
  for (const session::Braking& b : drive.brakings())
    if (b.lap == (closed ? 2 : 1)) out.push_back(b);
  return out;
}

void refuse_to_overwrite(const std::filesystem::path& out, const std::filesystem::path& input) {
  std::error_code error;
  if (std::filesystem::equivalent(out, input, error))
    throw session::CaseError(fmt::format("--out {} would overwrite what the lap is made from", out.string()));
}

int lap(const LapOptions& options) {
  const std::filesystem::path out =
      options.out.empty() ? std::filesystem::path(options.track.stem().string() + "-trace.yaml") : options.out;
  refuse_to_overwrite(out, options.track);
  refuse_to_overwrite(out, options.car);
  const io::LapInput input =
      io::read_lap(options.track, options.car, {.set = options.set, .allowed_include_dirs = options.include_dirs});
  LapReport report{.input = input, .effort = {options.pace, options.wet ? session::kWetGrip : options.grip}};
  const models::PointMass car = session::point_mass_of(input.c, report.effort);
  report.lap = session::lap_speed(car, input.track);
  const session::Trace trace = session::trace_of(report.lap, input.track.name);
  report.brakings = brakings_of(input.c, trace, input.track.closed);
  report.corners = slow_places(report.lap, input.track.closed);
  report.written = out;
  make_folder(out.parent_path());
  write_file(out, io::trace_file_text(trace, remarks(report)));
  if (options.json)
    print_json(lap_json(report));
  else if (!options.quiet)
    print_text(lap_text(report, DisplayUnits(options.units)));
  return kWithinLimits;
}

}  // namespace

void add_lap(CLI::App& program, Action& action) {
  CLI::App& command =
      *program.add_subcommand("lap", "Draw a speed trace from a track map and a car, where there is no log");
  const auto o = std::make_shared<LapOptions>();
  command.add_option("track", o->track, "Track file: straights and corners, or points; or a GPX file of one lap")
      ->required()
      ->type_name("TRACK.yaml");
  command.add_option("car", o->car, "File with the car; a session file will do")->required()->type_name("CAR.yaml");
  command.add_option("-o,--out", o->out, "Trace file to write; default ./STEM-trace.yaml of the track")
      ->type_name("TRACE.yaml");
  command.add_option("--pace", o->pace, "Share of the car's grip and power that the driver uses")
      ->check(CLI::Range(0.05, 1.0))
      ->type_name("SHARE");
  CLI::Option* grip = command.add_option("--grip", o->grip, "Grip of the road over that of the dry road")
                          ->check(CLI::Range(0.05, 2.0))
                          ->type_name("FACTOR");
  command.add_flag("--wet", o->wet, fmt::format("A wet road: --grip {:g}", session::kWetGrip))->excludes(grip);
  command.add_option("--set", o->set, "Override one value, as car.key=value or track.key=value; may be repeated")
      ->type_name("KEY=VALUE")
      ->allow_extra_args(false);
  command.add_option("--allow-include", o->include_dirs, "Another folder that includes may read; may be repeated")
      ->type_name("DIR")
      ->allow_extra_args(false);
  add_units_option(command, o->units);
  command.add_flag("--json", o->json, "Print one JSON object (SI units) and nothing else");
  command.add_flag("--quiet", o->quiet, "Print nothing but errors");
  command.callback([o, &action] { action = {[o] { return lap(*o); }}; });
}

}  // namespace hatring::tools
