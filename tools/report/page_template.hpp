// SPDX-License-Identifier: MIT
//! \file
//! The page before and after the place where the run's JSON goes. Defined in a source generated at build time;
//! both are empty when the page was left out.
#pragma once

#include <string_view>

namespace hatring::tools {

extern const std::string_view kPageHead;
extern const std::string_view kPageTail;

}  // namespace hatring::tools
