// SPDX-License-Identifier: MIT
//! \file
//! The steps of a session: each has a section of its own, told apart by one key.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/io/schema/schema.hpp"

namespace hatring::io {

struct StepSection {
  std::string mark;  //!< the key that only this kind of step has
  const SectionBase* section;
  std::function<void(Reader&, const NodePtr&)> read;  //!< appends to Case::session
};
[[nodiscard]] const std::vector<StepSection>& step_sections();

// Laps of a trace (lap_steps.cpp).
[[nodiscard]] const Section<session::DriveStep>& out_lap_section();
[[nodiscard]] const Section<session::DriveStep>& laps_section();
[[nodiscard]] const Section<session::DriveStep>& cooldown_section();

//! The air from a step on.
[[nodiscard]] const Section<session::StepNote>& step_air_section();
//! Gives a kind of step the key `air`.
template <class T>
void air_key(Section<T>& s) {
  s.custom(
      "air", "a map",
      [](Reader& reader, const NodePtr& node, T& step) {
        step_air_section().read(reader, node, node->mark, step.note);
      },
      {.doc = step_air_section().doc(), .optional = true}, {}, &step_air_section());
}

//! The list of steps.
void read_session(Reader& reader, const NodePtr& node, session::Case& c);

}  // namespace hatring::io
