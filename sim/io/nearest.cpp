// SPDX-License-Identifier: MIT
#include "sim/io/nearest.hpp"

#include <algorithm>
#include <cctype>
#include <cstddef>

namespace hatring::io {
namespace {

std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word)
    out += (c == '-' || c == ' ') ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

//! Edit distance with swaps of neighbours (optimal string alignment).
std::size_t edits(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i)
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[a.size()][b.size()];
}

}  // namespace

std::string nearest(std::string_view word, const std::vector<std::string>& candidates) {
  constexpr std::size_t kLongest = 60;  // nobody mistypes a paragraph
  if (word.empty() || word.size() > kLongest) return {};
  const std::string wanted = plain(word);
  std::string best;
  std::size_t fewest = 0;
  for (const std::string& candidate : candidates) {
    const std::size_t n = edits(wanted, plain(candidate));
    if (n > std::max<std::size_t>(1, std::max(wanted.size(), candidate.size()) / 3)) continue;
    if (n >= std::min(wanted.size(), candidate.size())) continue;  // nothing in common
    if (best.empty() || n < fewest) {
      best = candidate;
      fewest = n;
    }
  }
  return best;
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

}  // namespace hatring::io
