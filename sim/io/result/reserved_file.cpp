// SPDX-License-Identifier: MIT
#include "sim/io/result/reserved_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

namespace hatring::io {
namespace {

[[noreturn]] void fail(int error) {
  throw std::system_error(error, std::generic_category(), "cannot write");
}

}  // namespace

ReservedFile::ReservedFile(const std::filesystem::path& file) : file_(::open(file.c_str(), O_RDWR | O_CLOEXEC)) {
  if (file_ < 0) fail(errno);
}

ReservedFile::~ReservedFile() {
  ::close(file_);
}

void ReservedFile::reserve(std::uint64_t size) const {
  const int error = ::posix_fallocate(file_, 0, static_cast<off_t>(size));
  // Some file systems do not know the call.
  if (error == ENOSPC || error == EFBIG || error == EDQUOT || error == EIO) fail(error);
}

void ReservedFile::cut(std::uint64_t size) const {
  if (::ftruncate(file_, static_cast<off_t>(size)) != 0) fail(errno);
}

}  // namespace hatring::io
