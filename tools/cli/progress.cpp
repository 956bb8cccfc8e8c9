// SPDX-License-Identifier: MIT
#include "tools/cli/progress.hpp"
#include "tools/cli/terminal.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

namespace hatring::tools {

Progress::Progress(bool quiet) : shown_(!quiet && isatty(STDERR_FILENO) == 1) {}

Progress::~Progress() {
  say("");
}

void Progress::say(const std::string& text) {
  if (!shown_) return;
  const std::lock_guard<std::mutex> lock(one_);
  fmt::print(stderr, "\r\x1b[K{}", printable(text));
  std::fflush(stderr);
}

}  // namespace hatring::tools
