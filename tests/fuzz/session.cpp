// SPDX-License-Identifier: MIT
// A session file to a case, and the case driven.
#include "sim/io/read_case.hpp"
#include "tests/fuzz/fuzzing.hpp"

using namespace hatring;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return fuzz::tolerant([&] {
    const io::ReadResult read = io::read_case_text(fuzz::text_of(data, size), "session.yaml");
    static_cast<void>(session::Drive(read.c));
  });
}
