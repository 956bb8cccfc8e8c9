// SPDX-License-Identifier: MIT
// The hatring command: one place that turns errors into exit codes.
#include <fmt/format.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <memory>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#ifdef __GLIBC__
#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>
#endif

#include "sim/io/config_error.hpp"
#include "sim/io/nearest.hpp"
#include "sim/io/result/sweep_file.hpp"
#include "sim/session/error.hpp"
#include "sim/solve/error.hpp"
#include "sim/solve/kernel.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/terminal.hpp"

namespace hatring::tools {

namespace {

// No first word, or one that is no command: the commands, and the one that may have been meant.
std::optional<std::string> missing_command(const CLI::App& app, int argc, char** argv) {
  if (argc > 1 && *argv[1] == '-') return std::nullopt;
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(command->get_name());
  const std::string known = fmt::format("\n        commands: {}; hatring --help says more", io::joined(names));
  if (argc < 2) return "hatring: error: expected a command" + known;
  if (std::find(names.begin(), names.end(), argv[1]) != names.end()) return std::nullopt;
  const std::string meant = io::nearest(argv[1], names);
  return fmt::format("hatring: error: there is no command `{}`{}{}", argv[1],
                     meant.empty() ? "" : fmt::format("; did you mean `{}`?", meant), known);
}

// Every run of a sweep takes the same megabytes and gives them back: kept for the next one, since the system would
// clear their pages again. Columns of hours go back at once; they would be most of what is held. What a session needs
// is set aside in one go, for which the system may then give pages of megabytes instead of thousands of small ones; all
// threads take theirs from it, but where each runs a session of its own: those would wait for one another.
void arrange_memory(bool many_sessions) {
#ifdef __GLIBC__
  constexpr int kKept = 1 << 30, kLarge = 1 << 18, kAtOnce = 4 << 20, kSession = 128 << 20;  // [bytes]
  mallopt(M_TRIM_THRESHOLD, kKept);
  mallopt(M_MMAP_THRESHOLD, kLarge);
  mallopt(M_TOP_PAD, kSession);
  if (!many_sessions) mallopt(M_ARENA_MAX, 1);
  void* begin = sbrk(0);
  void* volatile more_than_there_is = std::malloc(kLarge - kLarge / 8);
  std::free(more_than_there_is);
  mallopt(M_TOP_PAD, kAtOnce);
  auto room = static_cast<std::size_t>(static_cast<char*>(sbrk(0)) - static_cast<char*>(begin));
  constexpr std::size_t kHuge = 2 << 20;
  if (std::align(kHuge, kHuge, begin, room) != nullptr) (void)madvise(begin, room, MADV_HUGEPAGE);
#endif
}

int run_command(int argc, char** argv) {
  CLI::App app;
  Action action;
  describe_program(app, action);
  int code = kWithinLimits;
  if (const auto problem = missing_command(app, argc, argv)) {
    print_error(*problem);
    return kBadInput;
  }
  try {
    app.parse(argc, argv);
    arrange_memory(action.many_sessions);
    code = action.run();
  } catch (const CLI::ParseError& e) {
    std::ostringstream out, err;
    code = app.exit(e, out, err) == 0 ? kWithinLimits : kBadInput;
    if (!out.str().empty()) print_text(out.str());
    if (!err.str().empty()) print_error(err.str());
  }
  // What is still in a buffer may not fit either; nobody would hear of it later.
  if (std::fflush(stdout) != 0) throw std::runtime_error("cannot write to standard output");
  return code;
}

}  // namespace
}  // namespace hatring::tools

int main(int argc, char** argv) {
  using namespace hatring;
  // For tests: the scenarios that are solved at once, at most, by instructions that every machine has.
  if (const char* most = std::getenv("HATRING_LANES")) (void)solve::limit_lanes(std::max(1, std::atoi(most)));
  // A file that grows beyond `ulimit -f` is then an error like a full disk, and nothing half-written stays.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    return tools::run_command(argc, argv);
  } catch (const io::ConfigError& e) {
    tools::print_error(e.what());
    return tools::kBadInput;
  } catch (const session::CaseError& e) {
    tools::print_error(fmt::format("hatring: error: {}", e.what()));
    return tools::kBadInput;
  } catch (const io::SweepError& e) {
    tools::print_error(fmt::format("hatring: error: {}", e.what()));
    return tools::kBadInput;
  } catch (const solve::SolveError& e) {
    tools::print_error(fmt::format("hatring: {}", e.what()));
    return tools::kFailure;
  } catch (const std::exception& e) {
    tools::print_error(fmt::format("hatring: error: {}", e.what()));
    return tools::kFailure;
  }
}
