// SPDX-License-Identifier: MIT
// A GPX file to a computed lap.
#include "tests/fuzz/lap_file.hpp"

using namespace hatring;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::LapFolder folder;
  static const bool written = (folder.write("track.yaml", "track: {gpx: line.gpx}\n"), true);
  static_cast<void>(written);
  folder.write("line.gpx", fuzz::text_of(data, size));
  return fuzz::tolerant([] { folder.drive(); });
}
