// SPDX-License-Identifier: MIT
//! \file
//! What a file given by mistake looks like, so that a message can say so.
#pragma once

#include "sim/io/tree.hpp"

namespace hatring::io {

enum class FileKind { unknown, session, track, trace, car };

//! By its top keys.
[[nodiscard]] FileKind kind_of(const Node& root);
//! "a session", "a track"; "something else" when unknown.
[[nodiscard]] const char* words_for(FileKind kind);

}  // namespace hatring::io
