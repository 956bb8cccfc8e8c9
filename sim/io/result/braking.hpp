// SPDX-License-Identifier: MIT
#pragma once

#include <H5Cpp.h>

#include "sim/answer/answers.hpp"

namespace hatring::io {

//! Group /braking of the result file: one dataset a column, one row a braking of the whole car.
void write_brakings(const H5::Group& root, const std::vector<answer::Corner>& corners);

}  // namespace hatring::io
