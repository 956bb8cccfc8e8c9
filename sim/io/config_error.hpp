// SPDX-License-Identifier: MIT
//! \file
//! What is wrong with a configuration, where, and what to write instead.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace hatring::io {

//! A byte that a terminal obeys instead of showing it; line ends and tabs are text.
[[nodiscard]] inline bool is_control(char c) {
  return (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t' && c != '\r') || c == 0x7f;
}

//! A second place that has to do with a diagnostic ("conflicts with this").
struct Note {
  std::string file;
  int line = 0, column = 0;  //!< 1-based; 0 when there is no place inside the file
  std::string message;
  std::string excerpt;  //!< the line itself
};

struct Diagnostic {
  std::string file;          //!< as the user named it, or "--set key.path"
  int line = 0, column = 0;  //!< 1-based; 0 when there is no place inside the file
  std::string key_path;      //!< "brakes.front.rotor.ring.thickness", "session.3.park"
  std::string message;       //!< "found X, expected Y"
  std::string hint;          //!< "did you mean `310 mm`?"; may be empty
  std::string excerpt;       //!< the line itself; may be empty
  std::vector<Note> notes;
};

//! GNU style: `file:line:column: error: key.path: message`, then the line with a caret, the hint and the notes.
[[nodiscard]] std::string to_text(const Diagnostic& diagnostic);

//! Everything that is wrong with a configuration, all at once; what() is the text of all diagnostics.
class ConfigError : public std::runtime_error {
 public:
  explicit ConfigError(std::vector<Diagnostic> diagnostics);
  [[nodiscard]] const std::vector<Diagnostic>& diagnostics() const { return diagnostics_; }

 private:
  std::vector<Diagnostic> diagnostics_;
};

}  // namespace hatring::io
