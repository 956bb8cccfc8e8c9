// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <future>
#include <memory>
#include <string>

#include "sim/answer/full_band.hpp"
#include "sim/io/read_case.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/full_band_run.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/page_json.hpp"
#include "tools/cli/run_json.hpp"
#include "tools/cli/summary.hpp"
#include "tools/cli/terminal.hpp"
#include "tools/report/page.hpp"

namespace hatring::tools {
namespace {

struct SimulateOptions : SessionOptions {
  BandOptions band;
  bool all = false;
};

int simulate(const SimulateOptions& options) {
  const auto started = std::chrono::steady_clock::now();
  const io::ReadResult read = io::read_case(options.session, options.reading());
  const std::filesystem::path directory = options.directory();
  const answer::Run run = run_banded(read.c, options.band, options.quiet);

  make_folder(directory);
  const std::string created = timestamp();
  const std::filesystem::path result = directory / "result.h5";
  const bool report = !options.no_report && report_available();
  std::future<std::string> page;
  if (report) page = std::async(std::launch::async, [&] { return render_report(page_json(read.c, run, created)); });
  write_result_file(result, run, read, created);
  if (report) write_file(directory / "report.html", page.get());
  if (!options.no_report && !report) print_error(fmt::format("hatring: {}", kNoReportPage));

  const double wall = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
  if (options.json) {
    print_json(run_json(run, wall));
  } else if (!options.quiet) {
    print_text(summary(read.c, run, DisplayUnits(options.units), terminal_wants_colour(), options.all) + "\n");
    print_text(fmt::format("written: {}{}\n", result.string(),
                           report ? fmt::format(", {}", (directory / "report.html").string()) : ""));
  }
  return run.answers.level == answer::Level::exceeded ? kOverLimit : kWithinLimits;
}

}  // namespace

void add_simulate(CLI::App& program, Action& action) {
  CLI::App& command = *program.add_subcommand("simulate", "Run one session: verdicts, result.h5, report.html");
  const auto options = std::make_shared<SimulateOptions>();
  options->add_to(command);
  command.add_flag("--all", options->all, "Print every verdict row and all there is in numbers, not one screen");
  options->band.add_to(command, answer::kBandRuns);
  command.callback([options, &action] { action = {[options] { return simulate(*options); }, options->band.full}; });
}

}  // namespace hatring::tools
