// SPDX-License-Identifier: MIT
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace hatring::fuzz {

//! A folder of this process, in memory where the machine has such a place; removed at the end.
class Folder {
 public:
  Folder() {
    namespace fs = std::filesystem;
    std::error_code none;
    const fs::path memory("/dev/shm");
    path_ = (fs::is_directory(memory, none) ? memory : fs::temp_directory_path()) /
            ("hatring_fuzz_" + std::to_string(getpid()));
    fs::create_directories(path_);
  }
  ~Folder() {
    std::error_code none;
    std::filesystem::remove_all(path_, none);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  void write(const char* name, const std::string& text) const { std::ofstream(path_ / name, std::ios::binary) << text; }

 private:
  std::filesystem::path path_;
};

}  // namespace hatring::fuzz
