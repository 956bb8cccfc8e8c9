// SPDX-License-Identifier: MIT
#include "sim/io/file_kind.hpp"

#include <array>
#include <utility>

namespace hatring::io {

FileKind kind_of(const Node& root) {
  constexpr std::array<std::pair<const char*, FileKind>, 4> kTells{
      {{"session", FileKind::session}, {"track", FileKind::track}, {"trace", FileKind::trace}, {"car", FileKind::car}}};
  for (const auto& [key, kind] : kTells)
    if (root.find(key) != nullptr) return kind;
  return FileKind::unknown;
}

const char* words_for(FileKind kind) {
  constexpr std::array kWords{"something else", "a session", "a track", "a speed trace", "a car"};
  return kWords.at(static_cast<std::size_t>(kind));
}

}  // namespace hatring::io
