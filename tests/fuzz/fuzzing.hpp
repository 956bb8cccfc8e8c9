// SPDX-License-Identifier: MIT
//! \file
//! What the fuzz targets share. A target may end in the errors that the program has for bad input; any other exception,
//! a crash, a leak and a hang are findings.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

#include "sim/io/config_error.hpp"
#include "sim/io/result/sweep_file.hpp"
#include "sim/session/drive.hpp"
#include "sim/session/error.hpp"

//! Entry of libFuzzer, and of replay.cpp.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace hatring::fuzz {

inline std::string text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

//! Runs it; bad input is all it may complain about.
template <class Action>
int tolerant(Action action) {
  try {
    action();
  } catch (const io::ConfigError&) {
  } catch (const session::CaseError&) {
  } catch (const io::SweepError&) {
  }
  return 0;
}

}  // namespace hatring::fuzz
