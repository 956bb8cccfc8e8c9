// SPDX-License-Identifier: MIT
// A logger's file to a speed trace, and the trace driven.
#include "sim/io/log/reading.hpp"
#include "tests/fuzz/fuzzing.hpp"

using namespace hatring;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return fuzz::tolerant([&] {
    const io::LogReading reading =
        io::read_log_table_text(io::as_log_text(fuzz::text_of(data, size), "log.csv"), "log");
    static_cast<void>(io::trace_yaml(reading));
    session::Case c;
    c.car.mass = 1000;
    c.traces = {reading.trace};
    c.session = {session::DriveStep{}};
    static_cast<void>(session::Drive(c));
  });
}
