// SPDX-License-Identifier: MIT
//! \file
//! What a study asks of its arguments.
#pragma once

#include <stdexcept>

namespace hatring::study {

//! \throws std::invalid_argument saying `what`, where it is not fulfilled
inline void demand(bool fulfilled, const char* what) {
  if (!fulfilled) throw std::invalid_argument(what);
}

}  // namespace hatring::study
