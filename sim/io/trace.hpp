// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>

#include "sim/io/channel.hpp"

namespace hatring::io {

//! What a `trace:` map holds, before its channels are held against each other.
struct TraceInput {
  std::string name;
  std::optional<Channel> time, distance, speed, grade, brake, lap;
  std::optional<double> brake_threshold;
};

//! A trace given as the path of a file or as a map; the same file or map is read once.
//! \returns index into Case::traces, or nothing when it was reported
[[nodiscard]] std::optional<std::size_t> read_trace(Reader& reader, const NodePtr& node);

}  // namespace hatring::io
