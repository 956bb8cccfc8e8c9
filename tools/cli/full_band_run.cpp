// SPDX-License-Identifier: MIT
#include "tools/cli/full_band_run.hpp"

#include <fmt/format.h>

#include <atomic>
#include <exception>
#include <new>
#include <optional>
#include <set>

#include "sim/answer/band.hpp"
#include "sim/answer/full_band.hpp"
#include "sim/answer/paired.hpp"
#include "tools/cli/progress.hpp"
#include "tools/sweep/many_runs.hpp"

namespace hatring::tools {
namespace {

// The likely case runs; what breaks only at an end of a prior is left out and counted.
std::optional<answer::Answers> answers_of(const session::Case& c) {
  try {
    return answer::run(c).answers;
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception&) {
    return std::nullopt;
  }
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
  many_runs(rows.size(), {.jobs = options.jobs}, [&](std::uint64_t i) {
    if (const auto answers = answers_of(band.at(i))) rows[i] = band.row(*answers);
    progress.say(fmt::format("full band: {} of {} runs", ++done, rows.size()));
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

void widen(const session::Case& c, answer::Run& run, const BandOptions& options, bool quiet) {
  if (options.full)
    widen_fully(c, run, options, quiet);
  else if (!options.none)
    if (const auto ends = answer::band_ends(c)) answer::widen(run.answers, *ends);
}

void compare_in_pairs(const std::vector<session::Case>& setups, answer::Comparison& comparison,
                      const BandOptions& options, bool quiet) {
  const answer::Paired paired(setups, options.runs, known_of(options));
  using Runs = std::vector<std::vector<double>>;
  std::vector<Runs> values(setups.size(), Runs(paired.runs()));
  Progress progress(quiet);
  std::atomic<std::uint64_t> done = 0;
  const std::uint64_t all = setups.size() * paired.runs();
  many_runs(all, {.jobs = options.jobs}, [&](std::uint64_t i) {
    const std::size_t setup = i % setups.size();
    const session::Case c = paired.at(setup, i / setups.size());
    if (const auto answers = answers_of(c)) values[setup][i / setups.size()] = row_values(comparison, c, *answers);
    progress.say(fmt::format("compare: {} of {} runs", ++done, all));
  });
  hold_against_first(comparison, values);
}

}  // namespace hatring::tools
