// SPDX-License-Identifier: MIT
//! \file
//! Room on the disk for a file that the HDF5 library writes: the library crashes when it closes a file that it could
//! not write, so that room is taken before it writes. Checked by tests/faults/test_disk.py.
#pragma once

#include <cstdint>
#include <filesystem>

namespace hatring::io {

class ReservedFile {
 public:
  //! \param file is there already  \throws std::system_error
  explicit ReservedFile(const std::filesystem::path& file);
  ~ReservedFile();
  ReservedFile(const ReservedFile&) = delete;
  ReservedFile& operator=(const ReservedFile&) = delete;

  //! Makes the file at least so long. \throws std::system_error when there is no room
  void reserve(std::uint64_t size) const;
  //! Gives back what was not needed. \throws std::system_error
  void cut(std::uint64_t size) const;

 private:
  int file_;
};

}  // namespace hatring::io
