// SPDX-License-Identifier: MIT
#include "tools/sweep/runs_table.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <boost/crc.hpp>
#include <cerrno>
#include <cstring>
#include <sstream>
#include <system_error>

namespace hatring::tools {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kHead = 1024, kReason = 232;  // [bytes]

[[noreturn]] void fail(const fs::path& file) {
  throw std::system_error(errno, std::generic_category(), file.string());
}

std::string head_of(const RunsTable::Identity& identity) {
  std::string out = "hatring: runs of a sweep that are done\n";
  for (const auto& [what, value] : identity) out += fmt::format("{}: {}\n", what, value);
  if (out.size() > kHead) throw std::logic_error("the head of the runs table is too long");
  out.resize(kHead, '\n');
  return out;
}

// A record as bytes: checksum, status, measures, levels, reason. The number of the row is part of the checksum.
struct Record {
  static std::size_t measures() { return measure_columns().size(); }
  static std::size_t levels() { return limit_columns().size(); }
  static std::size_t size() { return 2 * sizeof(std::uint32_t) + measures() * sizeof(double) + levels() + kReason; }

  explicit Record() : bytes(size(), '\0') {}
  explicit Record(std::uint64_t row, const Row& content) : Record() {
    char* at = bytes.data() + sizeof(std::uint32_t);
    const auto put = [&at](const void* from, std::size_t count) {
      std::memcpy(at, from, count);
      at += count;
    };
    const auto status = static_cast<std::uint32_t>(content.status);
    put(&status, sizeof status);
    put(content.measures.data(), measures() * sizeof(double));
    put(content.levels.data(), levels());
    put(content.reason.data(), std::min(content.reason.size(), kReason - 1));
    const std::uint32_t sum = checksum(row);
    std::memcpy(bytes.data(), &sum, sizeof sum);
  }

  [[nodiscard]] std::uint32_t checksum(std::uint64_t row) const {
    boost::crc_32_type crc;
    crc.process_bytes(&row, sizeof row);
    crc.process_bytes(bytes.data() + sizeof(std::uint32_t), bytes.size() - sizeof(std::uint32_t));
    return crc.checksum();
  }

  [[nodiscard]] Row row(std::uint64_t number) const {
    Row out = empty_row(RunStatus::not_run);
    std::uint32_t sum = 0, status = 0;
    std::memcpy(&sum, bytes.data(), sizeof sum);
    std::memcpy(&status, bytes.data() + sizeof sum, sizeof status);
    if (status == 0 || status > static_cast<std::uint32_t>(RunStatus::failed) || sum != checksum(number)) return out;
    const char* at = bytes.data() + sizeof sum + sizeof status;
    out.status = static_cast<RunStatus>(status);
    out.measures.resize(measures());
    std::memcpy(out.measures.data(), at, measures() * sizeof(double));
    at += measures() * sizeof(double);
    out.levels.resize(levels());
    std::memcpy(out.levels.data(), at, levels());
    out.reason = at + levels();
    return out;
  }

  std::string bytes;
};

}  // namespace

RunsTable::RunsTable(const fs::path& file, const Identity& identity, std::uint64_t rows) : rows_(rows) {
  const std::string head = head_of(identity);
  file_ = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
  if (file_ < 0) fail(file);
  try {
    if (::flock(file_, LOCK_EX | LOCK_NB) != 0) {
      if (errno != EWOULDBLOCK) fail(file);
      throw io::SweepError(fmt::format("{}: another process is at work on this sweep", file.string()));
    }
    begin(file, head);
  } catch (...) {
    ::close(file_);
    throw;
  }
}

RunsTable::~RunsTable() {
  ::close(file_);
}

void RunsTable::begin(const fs::path& file, const std::string& head) {
  std::string found(kHead, '\0');
  const ssize_t count = ::pread(file_, found.data(), kHead, 0);
  if (count < 0) fail(file);
  if (found == head) return;
  if (static_cast<std::size_t>(count) < kHead) {  // new, or ended while it was begun
    if (::pwrite(file_, head.data(), kHead, 0) != static_cast<ssize_t>(kHead)) fail(file);
    return;
  }
  std::istringstream ours(head), theirs(found);
  std::string different;
  for (std::string mine, other; std::getline(ours, mine) && std::getline(theirs, other);)
    if (mine != other) different += fmt::format("{}{}", different.empty() ? "" : ", ", mine.substr(0, mine.find(':')));
  throw io::SweepError(fmt::format(
      "{}: holds runs of another sweep, which differs in: {}. Give this one a folder of its own with --out, "
      "or remove that file to begin anew",
      file.string(), different));
}

std::int64_t RunsTable::place(std::uint64_t row) const {
  return static_cast<std::int64_t>(kHead + row * Record::size());
}

Row RunsTable::read(std::uint64_t row) const {
  Record record;
  const ssize_t count = ::pread(file_, record.bytes.data(), record.bytes.size(), place(row));
  if (count < 0) fail("runs of the sweep");
  return static_cast<std::size_t>(count) == record.bytes.size() ? record.row(row) : empty_row(RunStatus::not_run);
}

void RunsTable::write(std::uint64_t row, const Row& content) {
  const Record record(row, content);
  const ssize_t count = ::pwrite(file_, record.bytes.data(), record.bytes.size(), place(row));
  if (count >= 0 && static_cast<std::size_t>(count) != record.bytes.size()) errno = ENOSPC;
  if (count < 0 || static_cast<std::size_t>(count) != record.bytes.size()) fail("runs of the sweep");
}

}  // namespace hatring::tools
