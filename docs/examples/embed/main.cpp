// SPDX-License-Identifier: MIT
// embed SESSION.yaml   runs a session through the library and prints its verdicts. An estimate that can be wrong:
// inspect the discs, joints, pads and fluid.
#include <cstdio>
#include <exception>
#include <string>

#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"

int main(int argc, char** argv) {
  using namespace hatring;
  if (argc != 2) return std::fputs("usage: embed SESSION.yaml\n", stderr), 2;
  try {
    const io::ReadResult read = io::read_case(argv[1]);  // YAML with units -> Case, SI
    const answer::Run run = answer::run(read.c);         // Case -> temperatures -> answers
    std::printf("%s\n", run.answers.sentence.c_str());
    for (const answer::Verdict& v : run.answers.verdicts)
      std::printf("%s %s: %s\n", v.axle.c_str(), v.part.c_str(), std::string(to_string(v.level)).c_str());
    const answer::Peak& ring = run.answers.front.peaks.at("ring_mean");
    std::printf("front ring: %.1f K at %.1f s\n", ring.value, ring.place.time);
  } catch (const std::exception& e) {
    return std::fprintf(stderr, "%s\n", e.what()), 2;  // io::ConfigError says file, line and column
  }
}
