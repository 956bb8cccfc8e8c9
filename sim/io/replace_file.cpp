// SPDX-License-Identifier: MIT
#include "sim/io/replace_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>
#include <vector>

namespace hatring::io {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const char* what) {
  throw std::system_error(errno, std::generic_category(), what);
}

std::string begin_of_name(const fs::path& target) {
  return fmt::format(".{}.", target.filename().string());
}

constexpr std::string_view kEndOfName = ".part";

bool locked(int file) {
  return ::flock(file, LOCK_EX | LOCK_NB) == 0;
}

// A process that was killed leaves its temporary file behind. Who writes one holds a lock on it, which ends with the
// process, so that what can be locked belongs to nobody.
void remove_left_overs(const fs::path& target) {
  const std::string begin = begin_of_name(target);
  std::error_code ignored;
  std::vector<fs::path> found;
  const fs::path folder = target.parent_path();
  for (fs::directory_iterator at(folder.empty() ? "." : folder, ignored), end; at != end; at.increment(ignored)) {
    const std::string name = at->path().filename().string();
    if (name.starts_with(begin) && name.ends_with(kEndOfName)) found.push_back(at->path());
  }
  for (const fs::path& path : found) {
    const int file = ::open(path.c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
    if (file < 0) continue;
    if (locked(file)) fs::remove(path, ignored);
    ::close(file);
  }
}

// A new file beside the one to be replaced; gone again unless it was renamed.
class Temporary {
 public:
  explicit Temporary(const fs::path& target) {
    remove_left_overs(target);
    // Another thread that writes the same file only costs another number.
    constexpr int kTries = 1000;
    for (int i = 0; i < kTries && file_ == nullptr; ++i) {
      path_ = target;
      path_.replace_filename(fmt::format("{}{}-{}{}", begin_of_name(target), ::getpid(), i, kEndOfName));
      file_ = std::fopen(path_.c_str(), "wbxe");
      if (file_ == nullptr && errno != EEXIST) break;
      if (file_ != nullptr && !keep_from_others()) std::fclose(std::exchange(file_, nullptr));
    }
    if (file_ == nullptr) fail("cannot create a file in its folder");
  }
  ~Temporary() {
    if (file_ != nullptr) std::fclose(file_);
    std::error_code ignored;
    if (!kept_) fs::remove(path_, ignored);
    if (lock_ >= 0) ::close(lock_);
  }
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;

  void write(std::span<const std::byte> content) {
    if (std::fwrite(content.data(), 1, content.size(), file_) != content.size()) fail("cannot write");
    static_cast<void>(closed());
  }
  //! For those who write by its name.
  const fs::path& closed() {
    if (std::fclose(std::exchange(file_, nullptr)) != 0) fail("cannot write");
    return path_;
  }
  void rename_to(const fs::path& target) {
    if (std::rename(path_.c_str(), target.c_str()) != 0) fail("cannot put the new file in place");
    kept_ = true;
  }

 private:
  // False when another process took the new file for a left-over before it was locked. Where the system knows no locks
  // nobody else can lock it either.
  [[nodiscard]] bool keep_from_others() {
    if (lock_ >= 0) ::close(lock_);
    lock_ = ::fcntl(::fileno(file_), F_DUPFD_CLOEXEC, 0);
    struct stat state {};
    return lock_ >= 0 && (locked(lock_) || errno != EWOULDBLOCK) && ::fstat(lock_, &state) == 0 && state.st_nlink > 0;
  }

  fs::path path_;
  std::FILE* file_ = nullptr;
  int lock_ = -1;  // a second descriptor: the lock outlives the first, whose closing tells whether all was written
  bool kept_ = false;
};

}  // namespace

void replace_file(const fs::path& file, std::span<const std::byte> content) {
  Temporary temporary(file);
  temporary.write(content);
  temporary.rename_to(file);
}

void replace_file(const fs::path& file, const std::function<void(const fs::path&)>& write) {
  Temporary temporary(file);
  write(temporary.closed());
  temporary.rename_to(file);
}

}  // namespace hatring::io
