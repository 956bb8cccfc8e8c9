// SPDX-License-Identifier: MIT
#include "sim/solve/interleave.hpp"

#include <algorithm>
#include <numeric>

namespace hatring::solve {
namespace {

constexpr std::size_t kReady = 6;  // pairs later a sum is ready again

}  // namespace

std::vector<int> interleave(const std::vector<Ends>& pairs) {
  const auto pair = [&](int k) -> const Ends& { return pairs[static_cast<std::size_t>(k)]; };
  std::vector<int> left(pairs.size()), order;
  std::iota(left.begin(), left.end(), 0);
  while (!left.empty()) {
    const std::size_t recent = order.size() - std::min(order.size(), kReady);
    const auto apart = [&](const Ends& p, const Ends& q) {
      return p.a != q.a && p.a != q.b && p.b != q.a && p.b != q.b;
    };
    const auto fresh = std::find_if(left.begin(), left.end(), [&](int k) {
      return std::all_of(order.begin() + static_cast<std::ptrdiff_t>(recent), order.end(),
                         [&](int earlier) { return apart(pair(k), pair(earlier)); });
    });
    const auto chosen = fresh == left.end() ? left.begin() : fresh;
    order.push_back(*chosen);
    left.erase(chosen);
  }
  return order;
}

}  // namespace hatring::solve
