// SPDX-License-Identifier: MIT
#include "sim/io/replace_file.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

namespace hatring::io {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const char* what) {
  throw std::system_error(errno, std::generic_category(), what);
}

// A new file beside the one to be replaced; gone again unless it was renamed.
class Temporary {
 public:
  explicit Temporary(const fs::path& target) {
    // Left-overs of a killed process, or another thread writing the same file, only cost another number.
    constexpr int kTries = 1000;
    for (int i = 0; i < kTries && file_ == nullptr; ++i) {
      path_ = target;
      path_.replace_filename(fmt::format(".{}.{}-{}.part", target.filename().string(), ::getpid(), i));
      file_ = std::fopen(path_.c_str(), "wbx");
      if (file_ == nullptr && errno != EEXIST) break;
    }
    if (file_ == nullptr) fail("cannot create a file in its folder");
  }
  ~Temporary() {
    if (file_ != nullptr) std::fclose(file_);
    std::error_code ignored;
    if (!kept_) fs::remove(path_, ignored);
  }
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;

  void write(std::span<const std::byte> content) {
    if (std::fwrite(content.data(), 1, content.size(), file_) != content.size()) fail("cannot write");
    if (std::fclose(std::exchange(file_, nullptr)) != 0) fail("cannot write");
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
  fs::path path_;
  std::FILE* file_ = nullptr;
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
