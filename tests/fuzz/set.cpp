// SPDX-License-Identifier: MIT
// Values of --set, one a line, on a small session.
#include <sstream>

#include "sim/io/read_case.hpp"
#include "tests/fuzz/fuzzing.hpp"
#include "tests/sim/io/small_session.hpp"

using namespace hatring;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  io::ReadOptions options;
  std::istringstream lines(fuzz::text_of(data, size));
  for (std::string line; std::getline(lines, line);) options.set.push_back(line);
  return fuzz::tolerant([&] {
    const io::ReadResult read = io::read_case_text(io::testing::kSample, "session.yaml", options);
    static_cast<void>(session::Drive(read.c));
  });
}
