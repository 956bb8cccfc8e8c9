// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <memory>

#include "sim/io/read_case.hpp"
#include "sim/session/drive.hpp"
#include "sim/session/error.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/cooled.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/progress.hpp"
#include "tools/cli/terminal.hpp"
#include "tools/report/page.hpp"

namespace hatring::tools {

answer::Level level_of(const answer::Cooldown& search) {
  if (!search.within()) return answer::Level::exceeded;
  answer::Level worst = search.holds_surely() ? answer::Level::within : answer::Level::near;
  for (const answer::Verdict& v : search.best().verdicts)
    if (counts_for_plan(v)) worst = std::max(worst, v.level);
  return worst;
}

std::vector<std::size_t> rows_to_show(const answer::Cooldown& search) {
  std::vector<std::size_t> out = search.unbeaten;
  out.push_back(search.chosen);
  out.push_back(0);
  if (search.surest) out.push_back(*search.surest);
  std::sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) {
    return std::pair(search.plans[a].cost, a) < std::pair(search.plans[b].cost, b);
  });
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::string limit_name(const answer::Verdict& v) {
  return fmt::format("{} {}{}{}", v.axle, v.part, v.aspect.empty() ? "" : ", ", v.aspect);
}

namespace {

void search(Cooled& cooled, bool quiet) {
  Progress progress(quiet);
  const int laps = answer::laps_to_search(cooled.c);
  progress.say(fmt::format("cool-down: driving {} hot laps", laps));
  const answer::HotRun hot = answer::run_hot(cooled.c, laps);
  cooled.search = answer::search_cooldown(cooled.c, hot, {}, [&progress](std::size_t done, std::size_t all) {
    progress.say(done < all ? fmt::format("cool-down: plan {} of {}", done, all)
                            : std::string("cool-down: how sure it is"));
  });
  progress.say("cool-down: how many hot laps");
  cooled.laps = answer::search_hot_laps(cooled.c, hot, cooled.search.best().plan);
}

int cooldown(const SessionOptions& options) {
  const auto started = std::chrono::steady_clock::now();
  Cooled cooled{.c = io::read_case(options.session, options.reading()).c, .search = {}, .laps = {}};
  const std::filesystem::path directory = options.directory();
  if (session::Drive(cooled.c).airs().size() > 1)
    throw session::CaseError(
        "the air changes during this session, and a search of cool-down plans knows one air; take `air` out of the "
        "steps "
        "and give that of the session in question at the top");
  search(cooled, options.quiet);

  make_folder(directory);
  const std::filesystem::path picture = directory / "cooldown.svg", page = directory / "report.html";
  write_file(picture, cooldown_svg(cooled));
  const bool report = !options.no_report && report_available();
  if (report) write_file(page, render_report(cooldown_page(cooled, timestamp())));
  if (!options.no_report && !report) print_error(fmt::format("hatring: {}", kNoReportPage));

  const double wall = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
  if (options.json) {
    print_json(cooldown_json(cooled, wall));
  } else if (!options.quiet) {
    print_text(cooldown_text(cooled, DisplayUnits(options.units), terminal_wants_colour()) + "\n");
    print_text(fmt::format("written: {}{}\n", picture.string(), report ? ", " + page.string() : ""));
  }
  return cooled.search.within() ? kWithinLimits : kOverLimit;
}

}  // namespace

void add_cooldown(CLI::App& program, Action& action) {
  CLI::App& command = *program.add_subcommand(
      "cooldown",
      "Find the cheapest cool-down after the last hot lap that holds every limit, and how many hot laps there can be. "
      "What is tried stands in the config under `cooldown`: --set cooldown.laps='[0, 1, 2]'");
  const auto options = std::make_shared<SessionOptions>();
  options->add_to(command);
  command.callback([options, &action] { action = {[options] { return cooldown(*options); }}; });
}

}  // namespace hatring::tools
