// SPDX-License-Identifier: MIT
#pragma once

#include <stdexcept>

namespace hatring::session {

//! A Case that is well-formed but cannot be run. The message says what, where and what instead.
class CaseError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace hatring::session
