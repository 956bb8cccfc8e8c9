// SPDX-License-Identifier: MIT
#include "tools/cli/full_band_run.hpp"

#include <fmt/format.h>

#include <atomic>
#include <functional>
#include <future>
#include <set>
#include <span>
#include <vector>

#include "sim/answer/band.hpp"
#include "sim/answer/full_band.hpp"
#include "sim/answer/paired.hpp"
#include "sim/answer/run_many.hpp"
#include "tools/cli/progress.hpp"
#include "tools/sweep/many_runs.hpp"

namespace hatring::tools {
namespace {

// What breaks only at an end of a prior is left out and counted.
void answer_all(std::span<const session::Case> cases,
                const std::function<void(std::size_t i, const answer::Answers&)>& take) {
  (void)answer::run_many(cases, [&](std::size_t i, const answer::Run& run) { take(i, run.answers); });
}

void on_threads(const answer::Tasks& tasks) {
  std::vector<std::future<void>> others;
  for (std::size_t i = 1; i < tasks.size(); ++i) others.push_back(std::async(std::launch::async, tasks[i]));
  tasks.front()();
  for (std::future<void>& other : others) other.get();
}

std::set<std::string> known_of(const BandOptions& options) {
  return {options.known.begin(), options.known.end()};
}

void widen_fully(const session::Case& c, answer::Run& run, const BandOptions& options, bool quiet) {
  std::vector<answer::UncertainInput> inputs = answer::uncertain_inputs(c, known_of(options));
  if (inputs.empty()) return;
  const answer::Answers likely = run.answers;
  const answer::FullBand band(c, likely, std::move(inputs), options.runs);
  std::vector<answer::BandRow> rows(band.runs());
  Progress progress(quiet);
  std::atomic<std::uint64_t> done = 0;
  // The runs of a block differ in few inputs.
  many_runs(rows.size() / band.block(), {.jobs = options.jobs}, [&](std::uint64_t number) {
    const std::uint64_t first = number * band.block();
    std::vector<session::Case> cases;
    cases.reserve(band.block());
    for (std::size_t i = 0; i < band.block(); ++i) cases.push_back(band.at(first + i));
    answer_all(cases, [&](std::size_t i, const answer::Answers& answers) { rows[first + i] = band.row(answers); });
    progress.say(fmt::format("full band: {} of {} runs", done += band.block(), rows.size()));
  });
  band.widen(run.answers, rows);
}

std::string check_input(const std::string& key) {
  std::string keys;
  for (const char* k : answer::input_keys()) {
    if (key == k) return {};
    keys += fmt::format("{}{}", keys.empty() ? "" : ", ", k);
  }
  return fmt::format("unknown input '{}', expected one of {}", key, keys);
}

}  // namespace

void BandOptions::add_to(CLI::App& command, std::uint64_t usual_runs) {
  CLI::Option* off = command.add_flag("--no-band", none, "Run the likely case only, without any band");
  CLI::Option* on =
      command.add_flag("--band", full, "Vary every uncertain input at once, not the cooling alone (many runs)");
  on->excludes(off);
  command.add_option("--band-runs", runs, "Most runs that --band may take, of each set-up")
      ->type_name("N")
      ->default_val(usual_runs)
      ->check(CLI::Range(16, 1000000))
      ->needs(on);
  command.add_option("--known", known, "An input that was measured, which --band leaves alone; may be repeated")
      ->type_name("INPUT")
      ->allow_extra_args(false)
      ->check(check_input)
      ->needs(on);
  command.add_option("--jobs", jobs, "Threads of --band; one a core if not given")
      ->type_name("N")
      ->check(CLI::Range(1, 1024))
      ->needs(on);
}

answer::Run run_banded(const session::Case& c, const BandOptions& options, bool quiet) {
  answer::RunOptions solving;
  solving.together = on_threads;
  if (options.full || options.none) {
    answer::Run run = answer::run(c, solving);
    if (options.full) widen_fully(c, run, options, quiet);
    return run;
  }
  answer::BandedRun run = answer::run_with_band(c, solving);
  if (run.ends) answer::widen(run.likely.answers, *run.ends);
  return std::move(run.likely);
}

void compare_in_pairs(const std::vector<session::Case>& setups, answer::Comparison& comparison,
                      const BandOptions& options, bool quiet) {
  const answer::Paired paired(setups, options.runs, known_of(options));
  using Runs = std::vector<std::vector<double>>;
  std::vector<Runs> values(setups.size(), Runs(paired.runs()));
  Progress progress(quiet);
  std::atomic<std::uint64_t> done = 0;
  many_runs(paired.runs(), {.jobs = options.jobs}, [&](std::uint64_t run) {
    std::vector<session::Case> cases;
    cases.reserve(setups.size());
    for (std::size_t i = 0; i < setups.size(); ++i) cases.push_back(paired.at(i, run));
    answer_all(cases, [&](std::size_t i, const answer::Answers& answers) {
      values[i][run] = row_values(comparison, cases[i], answers);
    });
    progress.say(fmt::format("compare: {} of {} runs", done += setups.size(), setups.size() * paired.runs()));
  });
  hold_against_first(comparison, values);
}

}  // namespace hatring::tools
