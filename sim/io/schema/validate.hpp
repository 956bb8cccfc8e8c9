// SPDX-License-Identifier: MIT
#pragma once

#include "sim/io/reader.hpp"

namespace hatring::io {

//! Holds values against each other: geometry that cannot be, limits the wrong way round. Errors go to the report with
//! both places, doubts to Case::warnings. Parts that already have an error are left alone.
void validate(Report& report, const Node& root, session::Case& c);

}  // namespace hatring::io
