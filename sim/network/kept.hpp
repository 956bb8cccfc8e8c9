// SPDX-License-Identifier: MIT
//! \file
//! Things that are costly to make and alike from run to run: each thread keeps those it asked for last.
#pragma once

#include <algorithm>
#include <cstddef>
#include <deque>
#include <memory>
#include <utility>

namespace hatring::network {

//! One of these a kind of thing and thread (thread_local).
template <class Thing>
class Kept {
 public:
  //! \param most that are kept; what was asked for longest ago goes first
  explicit Kept(std::size_t most) : most_(most) {}

  //! \returns the thing for which `is_it` holds, or what `make` returns
  template <class IsIt, class Make>
  std::shared_ptr<const Thing> find(const IsIt& is_it, const Make& make) {
    const auto known = std::find_if(things_.begin(), things_.end(), [&](const auto& thing) { return is_it(*thing); });
    std::shared_ptr<const Thing> thing = known == things_.end() ? std::make_shared<const Thing>(make()) : *known;
    if (known != things_.end())
      things_.erase(known);
    else if (things_.size() == most_)
      things_.pop_front();
    return things_.emplace_back(std::move(thing));
  }

 private:
  std::size_t most_;
  std::deque<std::shared_ptr<const Thing>> things_;
};

}  // namespace hatring::network
