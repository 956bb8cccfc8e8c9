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

//! The list of steps.
void read_session(Reader& reader, const NodePtr& node, session::Case& c);

}  // namespace hatring::io
