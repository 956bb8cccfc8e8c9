// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <memory>

#include "sim/answer/band.hpp"
#include "sim/io/read_case.hpp"
#include "sim/io/result/file.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/page_json.hpp"
#include "tools/cli/run_json.hpp"
#include "tools/cli/summary.hpp"
#include "tools/cli/version.hpp"
#include "tools/report/page.hpp"

namespace hatring::tools {
namespace {

int simulate(const SessionOptions& options, bool band) {
  const auto started = std::chrono::steady_clock::now();
  const io::ReadResult read = io::read_case(options.session, options.reading());
  answer::Run run = answer::run(read.c);
  if (band)
    if (const auto ends = answer::band_ends(read.c)) widen(run.answers, *ends);

  const std::filesystem::path directory = options.directory();
  std::filesystem::create_directories(directory);
  const std::string created = timestamp();
  io::write_result(directory / "result.h5", run,
                   {.program_version = kVersion,
                    .created = created,
                    .config = read.resolved_yaml,
                    .mesh = session::mesh_name(read.c.physics.mesh),
                    .hot_side_factor = read.c.brakes.hot_side_factor});
  const bool report = !options.no_report && report_available();
  if (report) write_file(directory / "report.html", render_report(page_json(read.c, run, created)));
  if (!options.no_report && !report) fmt::print(stderr, "hatring: {}\n", kNoReportPage);

  const double wall = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
  if (options.json) {
    fmt::print("{}\n", run_json(run, wall).dump(1, ' ', false, nlohmann::json::error_handler_t::replace));
  } else if (!options.quiet) {
    fmt::print("{}\n", summary(read.c, run, DisplayUnits(options.units), terminal_wants_colour()));
    fmt::print("written: {}{}\n", (directory / "result.h5").string(),
               report ? fmt::format(", {}", (directory / "report.html").string()) : "");
  }
  return run.answers.level == answer::Level::exceeded ? kOverLimit : kWithinLimits;
}

}  // namespace

void add_simulate(CLI::App& program, Action& action) {
  CLI::App& command = *program.add_subcommand("simulate", "Run one session: verdicts, result.h5, report.html");
  const auto options = std::make_shared<SessionOptions>();
  options->add_to(command);
  const auto no_band = std::make_shared<bool>(false);
  command.add_flag("--no-band", *no_band, "Run the likely cooling only, without its low and high end");
  command.callback([options, no_band, &action] { action = [=] { return simulate(*options, !*no_band); }; });
}

}  // namespace hatring::tools
