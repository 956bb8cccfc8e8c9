// SPDX-License-Identifier: MIT
#pragma once

#include <mutex>
#include <string>

namespace hatring::tools {

//! One line on stderr that says how far a long command is, where stderr is a terminal; it goes away at the end. Any
//! thread may speak.
class Progress {
 public:
  explicit Progress(bool quiet);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void say(const std::string& text);

 private:
  std::mutex one_;
  bool shown_;
};

}  // namespace hatring::tools
