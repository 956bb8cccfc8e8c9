// SPDX-License-Identifier: MIT
#include "sim/io/result/seal.hpp"

#include <fmt/format.h>

#include <boost/crc.hpp>
#include <cerrno>
#include <fstream>
#include <string>
#include <system_error>
#include <vector>

namespace hatring::io {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kBegin = "hatring: result file in HDF5, sealed: ";

// What the block before the content is to hold.
std::string seal_for(std::istream& file) {
  std::vector<char> block(std::size_t{1} << 16U);
  boost::crc_32_type crc;
  std::uintmax_t size = 0;
  file.clear();
  file.seekg(kSealSize);
  while (file) {
    file.read(block.data(), static_cast<std::streamsize>(block.size()));
    crc.process_bytes(block.data(), static_cast<std::size_t>(file.gcount()));
    size += static_cast<std::uintmax_t>(file.gcount());
  }
  std::string out = fmt::format("{}{} bytes, CRC-32 {:08x}\n", kBegin, size, crc.checksum());
  out.resize(kSealSize, '\n');
  return out;
}

}  // namespace

void seal(const fs::path& file) {
  std::fstream io(file, std::ios::binary | std::ios::in | std::ios::out);
  const std::string text = seal_for(io);
  io.clear();
  io.seekp(0);
  if (!io.write(text.data(), static_cast<std::streamsize>(text.size())).flush())
    throw std::system_error(errno, std::generic_category(), "cannot write");
}

Seal seal_of(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error)) return Seal::none;
  std::ifstream in(file, std::ios::binary);
  std::string found(kSealSize, '\0');
  in.read(found.data(), static_cast<std::streamsize>(found.size()));
  if (!found.starts_with(kBegin)) return Seal::none;
  return found == seal_for(in) ? Seal::whole : Seal::broken;
}

}  // namespace hatring::io
