// SPDX-License-Identifier: MIT
//! \file
//! Puts a file in place whole or not at all.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <span>

namespace hatring::io {

//! Writes to a temporary name in the same folder, then renames: a reader sees the old file or the new one, never a
//! part. Nothing is left behind on failure; what a killed process left behind goes with the next write of the same
//! file. Guards against a program that stops half-way, not against a power cut (no fsync).
//!
//! \throws std::system_error whose message says what failed and why ("No space left on device")
//!
//! Checked by tests/sim/io/test_result_file.cpp.
void replace_file(const std::filesystem::path& file, std::span<const std::byte> content);

//! The same for content that is too large to be held in memory. \param write fills the file of the name it is given,
//! which is locked (flock) by this process
void replace_file(const std::filesystem::path& file, const std::function<void(const std::filesystem::path&)>& write);

}  // namespace hatring::io
