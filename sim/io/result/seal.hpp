// SPDX-License-Identifier: MIT
//! \file
//! Length and checksum of an HDF5 file, in the block before its content that the format leaves to its users. The HDF5
//! library may crash over bytes that are not as they were written; a file that is whole by its seal does not get it
//! there. Checked by tests/sim/io/test_hostile_sweep.cpp.
#pragma once

#include <cstddef>
#include <filesystem>

namespace hatring::io {

//! Room to be left for it: H5::FileCreatPropList::setUserblock() [bytes].
inline constexpr std::size_t kSealSize = 512;

enum class Seal { whole, broken, none };

//! Writes the seal of a closed file. \throws std::system_error
void seal(const std::filesystem::path& file);

//! \returns broken when the file was cut short or changed since it was sealed, none when it was not or there is no file
[[nodiscard]] Seal seal_of(const std::filesystem::path& file);

}  // namespace hatring::io
