// SPDX-License-Identifier: MIT
// A track file to a computed lap.
#include "tests/fuzz/lap_file.hpp"

using namespace hatring;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::LapFolder folder;
  folder.write("track.yaml", fuzz::text_of(data, size));
  return fuzz::tolerant([] { folder.drive(); });
}
