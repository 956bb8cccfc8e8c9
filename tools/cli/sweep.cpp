// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <memory>

#include "tools/cli/commands.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/progress.hpp"
#include "tools/cli/sweeping.hpp"
#include "tools/cli/terminal.hpp"
#include "tools/cli/version.hpp"
#include "tools/sweep/ranks.hpp"
#include "tools/sweep/sweep_run.hpp"

namespace hatring::tools {
namespace {

namespace fs = std::filesystem;

constexpr int kInterrupted = 128 + SIGINT;  // as shells count it
constexpr std::size_t kBestRuns = 5;

struct SweepCommand : SessionOptions {
  std::vector<fs::path> plan, merge;
  std::vector<std::string> vary;
  std::optional<study::DesignKind> design;
  std::optional<int> runs, seed;
  std::size_t jobs = 0;
  Shard shard;
  std::string sort = "closest";
};

std::atomic<bool> stop_asked = false;

// The first one ends the sweep politely, the second one at once.
extern "C" void ask_to_stop(int signal) {
  stop_asked = true;
  std::signal(signal, SIG_DFL);
}

std::string progress_line(const PoolProgress& p) {
  std::string out = fmt::format("{} of {} runs", p.done, p.of);
  if (p.failed > 0) out += fmt::format(", {} could not be done", p.failed);
  if (p.fresh > 0 && p.done < p.of) {
    const double each = p.seconds / static_cast<double>(p.fresh);
    out += fmt::format(", {} left", clock_time(each * static_cast<double>(p.of - p.done)));
  }
  return out;
}

// Files of shards: those named, and those that lie in the folders named.
std::vector<fs::path> shard_files(const std::vector<fs::path>& named) {
  std::vector<fs::path> out;
  for (const fs::path& path : named) {
    if (!fs::is_directory(path)) {
      out.push_back(path);
      continue;
    }
    std::vector<fs::path> here;
    std::error_code error;
    for (const fs::directory_entry& entry : fs::directory_iterator(path, error)) {
      const std::string name = entry.path().filename().string();
      if (name.starts_with("sweep-") && name.ends_with(".h5")) here.push_back(entry.path());
    }
    if (error) throw io::SweepError(fmt::format("{}: cannot be read: {}", path.string(), error.message()));
    if (here.empty()) throw io::SweepError(fmt::format("{}: holds no file of a shard", path.string()));
    std::sort(here.begin(), here.end());
    out.insert(out.end(), here.begin(), here.end());
  }
  return out;
}

int report(const SweepCommand& command, const fs::path& file, std::uint64_t fresh, double wall) {
  const SweepSummary summary = summarize(file, command.sort, kBestRuns);
  if (command.json)
    print_json(sweep_json(summary, file, fresh, wall));
  else if (!command.quiet)
    print_text(fmt::format("{}\nwritten: {}\n", sweep_text(summary, DisplayUnits(command.units)), file.string()));
  if (summary.done == 0 && summary.failed > 0) {
    print_error(fmt::format("hatring: error: none of the runs could be done: {}", summary.reasons.begin()->first));
    return kBadInput;
  }
  return summary.within + summary.near > 0 ? kWithinLimits : kOverLimit;
}

double seconds_since(std::chrono::steady_clock::time_point began) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

int merge(const SweepCommand& command) {
  const auto began = std::chrono::steady_clock::now();
  const std::vector<fs::path> files = shard_files(command.merge);
  const fs::path beside =
      fs::is_directory(command.merge.front()) ? command.merge.front() : command.merge.front().parent_path();
  const fs::path folder = command.out.empty() ? beside : command.out;
  make_folder(folder);
  const fs::path file = folder / sweep_file_name({}, "h5");
  io::merge_sweeps(files, file, timestamp());
  return report(command, file, 0, seconds_since(began));
}

// Rank r of n does shard r of n; the first one puts them together.
int finish(const SweepCommand& command, const Shard& shard, std::uint64_t fresh,
           std::chrono::steady_clock::time_point began) {
  Ranks& ranks = Ranks::instance();
  const std::uint64_t all_fresh = ranks.total(fresh);
  if (ranks.rank() > 0) return kWithinLimits;
  if (ranks.size() == 1)
    return report(command, command.directory() / sweep_file_name(shard, "h5"), all_fresh, seconds_since(began));
  std::vector<fs::path> files;
  for (int i = 1; i <= ranks.size(); ++i)
    files.push_back(command.directory() / sweep_file_name({i, ranks.size()}, "h5"));
  const fs::path file = command.directory() / sweep_file_name({}, "h5");
  io::merge_sweeps(files, file, timestamp());
  return report(command, file, all_fresh, seconds_since(began));
}

std::size_t jobs_of(const SweepCommand& command) {
  if (command.jobs > 0) return command.jobs;
  // mpirun has started as many processes as it was meant to; 0 is one a core.
  return Ranks::instance().size() > 1 ? 1 : 0;
}

// Runs what is left of a shard; the line that tells how far it is goes away at the end.
PoolProgress run_watched(const SweepCommand& command, const io::Sweep& sweep, const Shard& shard) {
  const fs::path folder = command.directory();
  make_folder(folder);
  Progress shown(command.quiet || Ranks::instance().rank() > 0);
  return run_sweep(sweep, solved_runs(sweep),
                   {.folder = folder,
                    .shard = shard,
                    .jobs = jobs_of(command),
                    .program_version = kVersion,
                    .created = timestamp(),
                    .stop = &stop_asked,
                    .watch = [&](const PoolProgress& p) { shown.say(progress_line(p)); }});
}

int sweep(const SweepCommand& command) {
  if (!command.merge.empty()) return merge(command);
  const auto began = std::chrono::steady_clock::now();
  const Ranks& ranks = Ranks::instance();
  if (ranks.size() > 1 && command.shard.of > 1)
    throw io::SweepError("--shard: under mpirun each process takes a shard of its own");
  const Shard shard = ranks.size() > 1 ? Shard{ranks.rank() + 1, ranks.size()} : command.shard;
  const io::Sweep sweep(command.session,
                        {.reading = command.reading(),
                         .plan = command.plan.empty() ? std::nullopt : std::optional(command.plan.front()),
                         .vary = command.vary,
                         .design = command.design,
                         .runs = command.runs,
                         .seed = command.seed});
  std::signal(SIGINT, ask_to_stop);
  std::signal(SIGTERM, ask_to_stop);
  const PoolProgress progress = run_watched(command, sweep, shard);
  if (progress.done < progress.of) {
    print_error(fmt::format("hatring: stopped: {}; the same command goes on from here", progress_line(progress)));
    return kInterrupted;
  }
  return finish(command, shard, progress.fresh, began);
}

std::string read_shard(const std::string& text, Shard& shard) {
  char rest = 0;
  if (std::sscanf(text.c_str(), "%d/%d%c", &shard.index, &shard.of, &rest) == 2 && shard.index >= 1 &&
      shard.index <= shard.of && shard.of <= 1000000)
    return {};
  return fmt::format("found '{}', expected i/n with i from 1 to n", text);
}

}  // namespace

void add_sweep(CLI::App& program, Action& action) {
  CLI::App& command = *program.add_subcommand(
      "sweep", "Run one session many times with changed values: on all cores, resumable, one result file");
  const auto options = std::make_shared<SweepCommand>();
  options->add_to(command);
  CLI::Option& session = *command.get_option("session")->required(false);
  command.add_option("plan", options->plan, "A file with the `sweep:` section, when the session file has none")
      ->expected(0, 1)
      ->type_name("SWEEP.yaml");
  command
      .add_option(
          "--vary", options->vary,
          "What to change, as key.path=values: 'car.mass=900 kg, 1000 kg', 'car.mass=range(900 kg, 1100 kg, 5)', "
          "uniform(low, high), normal(mean, deviation), triangular(low, likely, high), band(low, likely, high); "
          "'variant=a.yaml, b.yaml, none' for files merged over the session; may be repeated")
      ->type_name("KEY=VALUES")
      ->allow_extra_args(false);
  command.add_option("--runs", options->runs, "Number of runs of a latin or sobol design; default 100")
      ->check(CLI::Range(1, 100000000))
      ->type_name("N");
  static const std::map<std::string, study::DesignKind> designs{{"factorial", study::DesignKind::factorial},
                                                                {"latin", study::DesignKind::latin},
                                                                {"sobol", study::DesignKind::sobol}};
  command
      .add_option_function<std::string>(
          "--design", [options](const std::string& name) { options->design = designs.at(name); },
          "Which combinations: factorial (all), latin (hypercube), sobol (sequence)")
      ->check(CLI::IsMember(designs))
      ->type_name("NAME");
  command.add_option("--seed", options->seed, "Another seed, another sample; default 1")
      ->check(CLI::Range(0, 1000000000))
      ->type_name("N");
  command.add_option("--jobs", options->jobs, "Runs at the same time; default: as many as there are cores")
      ->check(CLI::Range(1, 4096))
      ->type_name("N");
  command
      .add_option_function<std::string>(
          "--shard",
          [options](const std::string& text) {
            if (const std::string fault = read_shard(text, options->shard); !fault.empty())
              throw CLI::ValidationError("--shard", fault);
          },
          "Do every n-th run only, from the i-th on, for several machines; --merge puts them together")
      ->type_name("I/N");
  command.add_option("--merge", options->merge, "Put the files of all shards together, which lie in these folders")
      ->type_name("DIR...")
      ->excludes(&session);
  command
      .add_option("--sort", options->sort,
                  "Measure that says which runs are best, see hatring compare --help; default closest")
      ->type_name("KEY")
      ->check(check_measure_key);
  command.callback([options, &session, &action] {
    if (options->merge.empty() && session.empty()) throw CLI::RequiredError("SESSION.yaml or --merge DIR");
    action = {[options] { return sweep(*options); }, true};
  });
}

}  // namespace hatring::tools
