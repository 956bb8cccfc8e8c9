// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <future>
#include <memory>
#include <set>

#include "sim/answer/paired.hpp"
#include "sim/io/read_case.hpp"
#include "sim/session/error.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/comparing.hpp"
#include "tools/cli/full_band_run.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/progress.hpp"
#include "tools/cli/summary.hpp"
#include "tools/cli/terminal.hpp"
#include "tools/report/page.hpp"

namespace hatring::tools {
namespace {

constexpr const char* kAsNamed = "named";

struct CompareOptions : SessionOptions {
  std::vector<std::filesystem::path> variants;
  std::string sort = kAsNamed;
  bool results = false;
  BandOptions band;
};

// Folder for one set-up's result: its name with what file systems or shells dislike replaced.
std::string folder_name(const std::string& name, std::set<std::string>& taken) {
  std::string out;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    if (plain)
      out += c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  if (out.empty()) out = "variant";
  const std::string stem = out;
  for (int n = 2; !taken.insert(out).second; ++n) out = fmt::format("{}-{}", stem, n);
  return out;
}

// Reads everything before anything runs, so that bad input costs no time.
std::vector<io::ReadResult> read_all(const CompareOptions& options, std::vector<std::filesystem::path>& files) {
  std::vector<io::ReadResult> out{io::read_case(options.session, options.reading())};
  files = {options.session};
  for (const std::filesystem::path& file : options.variants) {
    io::ReadOptions reading = options.reading();
    reading.variant = file;
    out.push_back(io::read_case(options.session, reading));
    files.push_back(file);
    for (std::size_t i = 0; i + 1 < out.size(); ++i)
      if (out[i].c.name == out.back().c.name)
        throw session::CaseError(fmt::format("{} and {} are both named '{}': give each a `name` of its own",
                                             files[i].string(), file.string(), out[i].c.name));
  }
  return out;
}

answer::BandedRun run_one(const session::Case& c, bool band) {
  if (!band) return {answer::run(c)};
  answer::BandedRun out = answer::run_with_band(c);
  if (out.ends) widen(out.likely.answers, *out.ends);
  return out;
}

Compared run_all(const CompareOptions& options, const std::vector<io::ReadResult>& read,
                 std::vector<std::filesystem::path> files) {
  Compared all;
  all.files = std::move(files);
  // The runs know nothing of each other; their results are taken in the order of naming.
  Progress progress(options.quiet);
  std::atomic<std::size_t> done = 0;
  std::vector<std::future<answer::BandedRun>> running;
  running.reserve(read.size());
  progress.say(fmt::format("compare: {} set-ups", read.size()));
  for (const io::ReadResult& r : read)
    running.push_back(std::async(std::launch::async, [&, &r = r] {
      answer::BandedRun out = run_one(r.c, !options.band.none);
      progress.say(fmt::format("compare: {} of {} set-ups", ++done, read.size()));
      return out;
    }));
  for (std::size_t i = 0; i < read.size(); ++i) {
    answer::BandedRun ran = running[i].get();
    if (i > 0 && ran.likely.history.time != all.runs.front().history.time)
      throw session::CaseError(
          fmt::format("{}: records at other times than the session: leave `output` and the traces to the session file",
                      all.files[i].string()));
    all.contenders.push_back({read[i].c, ran.likely.answers, std::move(ran.ends)});
    all.runs.push_back(std::move(ran.likely));
  }
  all.comparison = answer::compare(all.contenders);
  if (options.band.full) {
    std::vector<session::Case> setups;
    setups.reserve(read.size());
    for (const io::ReadResult& r : read) setups.push_back(r.c);
    progress.say("");
    compare_in_pairs(setups, all.comparison, options.band, options.quiet);
  }
  all.order = answer::order_by(all.comparison, options.sort);
  if (options.sort != kAsNamed) all.sorted_by = options.sort;
  return all;
}

void write_results(const CompareOptions& options, const Compared& all, const std::vector<io::ReadResult>& read,
                   const std::string& created) {
  std::set<std::string> taken;
  for (std::size_t i = 0; i < all.runs.size(); ++i) {
    const std::filesystem::path folder = options.directory() / folder_name(read[i].c.name, taken);
    make_folder(folder);
    write_result_file(folder / "result.h5", all.runs[i], read[i], created);
  }
}

int compare(const CompareOptions& options) {
  const auto started = std::chrono::steady_clock::now();
  std::vector<std::filesystem::path> files;
  const std::vector<io::ReadResult> read = read_all(options, files);
  const bool report = !options.no_report && report_available();
  const std::filesystem::path directory = report || options.results ? options.directory() : std::filesystem::path();
  const Compared all = run_all(options, read, std::move(files));

  const std::string created = timestamp();
  if (report || options.results) make_folder(directory);
  if (options.results) write_results(options, all, read, created);
  if (report) write_file(directory / "report.html", render_report(comparison_page(all, created)));
  if (!options.no_report && !report) print_error(fmt::format("hatring: {}", kNoReportPage));

  const double wall = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
  if (options.json) {
    print_json(comparison_json(all, wall));
  } else if (!options.quiet) {
    print_text(comparison_text(all, DisplayUnits(options.units), terminal_wants_colour()) + "\n");
    if (report) print_text(fmt::format("written: {}\n", (directory / "report.html").string()));
  }
  const bool some_within = std::any_of(all.contenders.begin(), all.contenders.end(), [](const answer::Contender& x) {
    return x.likely.level != answer::Level::exceeded;
  });
  return some_within ? kWithinLimits : kOverLimit;
}

// Keys of --sort with their titles, for --help.
std::string sort_help() {
  std::string out = "Order of the set-ups after the first, best first, by: named (as on the command line)";
  for (const answer::Measure& m : answer::measures())
    out += fmt::format(", {}{}", m.key, std::string_view(m.key) == m.title ? "" : fmt::format(" ({})", m.title));
  return out + ". With front. or rear. before it (rear.hat) that axle's; without, the front's where it differs";
}

// CLI11's own list of members would repeat every key in --help.
std::string check_sort_key(const std::string& key) {
  return key == kAsNamed ? std::string() : check_measure_key(key);
}

}  // namespace

void add_compare(CLI::App& program, Action& action) {
  CLI::App& command =
      *program.add_subcommand("compare", "Run one session with other hats, joints, rings, pads or ducts: one table");
  const auto options = std::make_shared<CompareOptions>();
  options->add_to(command);
  command
      .add_option("variants", options->variants,
                  "What differs, as YAML merged over the session file; the session as it is comes first")
      ->required()
      ->type_name("VARIANT.yaml...");
  command.add_option("--sort", options->sort, sort_help())->type_name("KEY")->check(check_sort_key);
  command.add_flag("--results", options->results, "Write DIR/NAME/result.h5 for each set-up too");
  options->band.add_to(command, answer::kPairedRuns);
  command.callback([options, &action] { action = {[options] { return compare(*options); }, true}; });
}

}  // namespace hatring::tools
