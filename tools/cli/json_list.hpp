// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>

namespace hatring::tools {

//! [f(first), f(second), ...]
template <class List, class F>
[[nodiscard]] nlohmann::json json_list(const List& list, const F& f) {
  nlohmann::json out = nlohmann::json::array();
  for (const auto& item : list) out.push_back(f(item));
  return out;
}

}  // namespace hatring::tools
