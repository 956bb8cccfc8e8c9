// SPDX-License-Identifier: MIT
//! \file
//! Counts heap allocations of this test program, so that a test can say there are none.
#pragma once

namespace hatring::test {

//! Calls of malloc so far; Eigen and operator new both end there. Negative when a sanitizer owns malloc.
[[nodiscard]] long allocations();

}  // namespace hatring::test
