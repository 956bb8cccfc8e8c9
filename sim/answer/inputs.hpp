// SPDX-License-Identifier: MIT
//! \file
//! The inputs of the full band: what is not known exactly about a case, and how far off it may be. Every input is a
//! factor on what the case has, spread over its prior of sim/network/assumed.hpp: the wide one where the config left
//! the key to its default, the narrow one where the config gives it, none where the case pins it or the user calls it
//! known. Checked by tests/sim/answer/test_full_band.cpp.
#pragma once

#include <set>
#include <span>
#include <string>
#include <vector>

#include "sim/session/case.hpp"
#include "sim/study/spread.hpp"

namespace hatring::answer {

//! What an input changes in one place of the case. The parts of an input move together: it is the same air.
struct InputPart {
  session::Axle axle{};
  std::string where{};      //!< key, or what is meant where there is none: "brakes.front.cooling.scale"
  double value = 1;         //!< likely, in `unit`
  const char* unit = "1";   //!< SI, "1" for a pure number
  study::Band factor{};     //!< on `value`; low and high are that of the prior
  const char* reason = "";  //!< of the prior
  void (*set)(session::Case& c, session::Axle axle, double factor) = nullptr;
};

struct UncertainInput {
  const char* key;      //!< as `--known` takes it: "convection"
  const char* name;     //!< "cooling by the air"
  const char* reading;  //!< what to measure so as to know it, as a phrase: "the car on scales, with driver and fuel"
  std::vector<InputPart> parts{};
};

//! The keys of all inputs there may be.
[[nodiscard]] std::span<const char* const> input_keys();

//! Those that are in doubt in this case. \param known keys of inputs that were measured: they are left out
[[nodiscard]] std::vector<UncertainInput> uncertain_inputs(const session::Case& c,
                                                           const std::set<std::string>& known = {});

//! Puts an input where a share `u` of what is plausible lies below. \param u in (0, 1)
void set_input(session::Case& c, const UncertainInput& input, double u);

}  // namespace hatring::answer
