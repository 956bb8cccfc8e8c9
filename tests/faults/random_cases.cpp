// SPDX-License-Identifier: MIT
// random_cases COUNT [FIRST_SEED]   runs that many session files drawn at random: none may break down, and every one
// must
//                                   keep its heat balance and finite temperatures.
// random_cases --print SEED         prints one of them, to be run by hand.
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "sim/answer/run_many.hpp"
#include "sim/io/read_case.hpp"
#include "sim/session/error.hpp"
#include "tests/faults/random_case.hpp"

namespace {

using namespace hatring;

// Heat in, kept and lost close to round-off: the method keeps their sum whatever its tolerance (sim/solve/stepper.hpp).
// Part of the heat that moved, and a rest [J]. In the single precision of lanes 1e-6 was the most of a thousand cases,
// and where hardly any heat moves a millionth of a kelvin of a brake.
struct Closure {
  double part, rest;
};
constexpr Closure kAlone{1e-7, 1e-6}, kLanes{1e-5, 0.02};
constexpr std::uint64_t kInLanes = 10;  // of so many seeds one is solved in lanes, too

std::string trouble_of(const char* name, const answer::AxleAnswers& axle, const Closure& closure) {
  const answer::Balance& b = axle.balance;
  const double all =
      std::abs(b.friction) + std::abs(b.stored) + std::abs(b.convection) + std::abs(b.radiation) + std::abs(b.to_wheel);
  if (!(std::abs(b.residual) <= closure.part * all + closure.rest))
    return fmt::format("{}: {} J of {} J are unaccounted for", name, b.residual, all);
  for (const auto& [part, peak] : axle.peaks)
    if (!std::isfinite(peak.value) || peak.value <= 0) return fmt::format("{} {}: {} K", name, part, peak.value);
  return "";
}

enum class Outcome { good, refused, bad };

Outcome try_one(std::uint64_t seed) {
  std::string trouble;
  try {
    const io::ReadResult read = io::read_case_text(tests::random_case(seed), "random.yaml");
    const auto look = [&trouble](const answer::Answers& a, const Closure& closure) {
      trouble += trouble_of("front", a.front, closure) + trouble_of("rear", a.rear, closure);
    };
    look(answer::run(read.c).answers, kAlone);
    if (seed % kInLanes == 0) {
      constexpr std::array<double, 4> kAirs{1, 0.7, 1.2, 1.5};
      answer::run_in_airs(read.c, kAirs, [&](std::size_t, const answer::Run& r) { look(r.answers, kLanes); });
    }
  } catch (const io::ConfigError&) {
    return Outcome::refused;
  } catch (const session::CaseError&) {
    return Outcome::refused;  // cannot be driven
  } catch (const std::exception& e) {
    trouble = e.what();
  }
  if (trouble.empty()) return Outcome::good;
  fmt::print("seed {}: {}\n", seed, trouble);
  return Outcome::bad;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 3 && std::string(argv[1]) == "--print") {
    std::fputs(tests::random_case(std::strtoull(argv[2], nullptr, 10)).c_str(), stdout);
    return 0;
  }
  if (argc < 2) return std::fputs("usage: random_cases COUNT [FIRST_SEED] | --print SEED\n", stderr), 2;
  const long wanted = std::strtol(argv[1], nullptr, 10);
  std::uint64_t seed = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
  long good = 0, refused = 0, bad = 0;
  while (good + bad < wanted && refused < 20 * wanted) {
    switch (try_one(seed++)) {
      case Outcome::good:
        ++good;
        break;
      case Outcome::refused:
        ++refused;
        break;
      case Outcome::bad:
        ++bad;
        break;
    }
  }
  fmt::print("{} ran well, {} did not; {} more were refused as contradictory\n", good, bad, refused);
  return good == wanted ? 0 : 1;
}
