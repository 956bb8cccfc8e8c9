// SPDX-License-Identifier: MIT
#include "sim/study/sobol_indices.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/study/demand.hpp"

namespace hatring::study {
namespace {

// Mean and its standard error.
struct Mean {
  double sum = 0, squares = 0;
  void add(double x) {
    sum += x;
    squares += x * x;
  }
  [[nodiscard]] double value(double n) const { return sum / n; }
  [[nodiscard]] double variance(double n) const { return std::max(squares / n - value(n) * value(n), 0.0); }
  [[nodiscard]] double error(double n) const { return std::sqrt(variance(n) / n); }
};

bool whole(std::span<const double> block) {
  return std::all_of(block.begin(), block.end(), [](double x) { return std::isfinite(x); });
}

}  // namespace

IndexDesign::IndexDesign(std::size_t dimension, std::uint64_t base, std::uint64_t seed)
    : sequence_(2 * dimension, seed), base_(base) {
  demand(base > 0, "expected at least one block");
}

void IndexDesign::point(std::uint64_t index, std::span<double> u) const {
  if (index >= runs()) throw std::out_of_range("no such run in the design");
  const std::size_t n = dimension();
  const std::size_t member = index % (n + 2);
  std::vector<double> both(2 * n);
  sequence_.point(index / (n + 2), both);
  const auto b = both.begin() + static_cast<std::ptrdiff_t>(n);
  std::copy_n(member == 1 ? b : both.begin(), n, u.begin());
  if (member >= 2) u[member - 2] = both[n + member - 2];
}

SobolIndices sobol_indices(std::span<const double> answers, std::size_t dimension) {
  const std::size_t size = dimension + 2;
  demand(dimension > 0 && !answers.empty() && answers.size() % size == 0, "expected the answers of whole blocks");
  SobolIndices out;
  double sum = 0;
  for (std::size_t i = 0; i < answers.size(); i += size) {
    if (!whole(answers.subspan(i, size))) continue;
    ++out.blocks;
    sum += answers[i] + answers[i + 1];
  }
  const auto n = static_cast<double>(out.blocks);
  out.mean = sum / (2 * n);

  Mean spread;
  std::vector<Mean> first(dimension), total(dimension);
  for (std::size_t i = 0; i < answers.size(); i += size) {
    const std::span<const double> block = answers.subspan(i, size);
    if (!whole(block)) continue;
    const double a = block[0] - out.mean, b = block[1] - out.mean;
    spread.add(a);
    spread.add(b);
    for (std::size_t k = 0; k < dimension; ++k) {
      const double mixed = block[k + 2] - out.mean;
      first[k].add(b * (mixed - a));
      total[k].add((a - mixed) * (a - mixed) / 2);
    }
  }
  out.variance = spread.variance(2 * n);
  const double scale = out.variance > 0 ? out.variance : std::numeric_limits<double>::quiet_NaN();
  for (std::size_t k = 0; k < dimension; ++k) {
    out.first.push_back(first[k].value(n) / scale);
    out.total.push_back(total[k].value(n) / scale);
    out.first_error.push_back(first[k].error(n) / scale);
    out.total_error.push_back(total[k].error(n) / scale);
  }
  return out;
}

}  // namespace hatring::study
