// SPDX-License-Identifier: MIT
#include "sim/solve/ldlt.hpp"

#include <algorithm>
#include <numeric>
#include <set>
#include <stdexcept>
#include <string>

#include "sim/network/index.hpp"
#include "sim/solve/interleave.hpp"

namespace hatring::solve {
namespace {

using network::at;

struct Elimination {
  std::vector<int> pivot, level;  // in order, and by unknown: how many eliminations must precede one after the other
};

// Minimum degree, so that little fill appears; among equals the one that fewest eliminations must precede. Then level
// by level, which leaves the fill as it is.
Elimination eliminate(int size, const std::vector<std::pair<int, int>>& pairs) {
  std::vector<std::set<int>> neighbours(at(size));
  for (const auto& [i, j] : pairs) {
    if (i == j) continue;
    neighbours[at(i)].insert(j);
    neighbours[at(j)].insert(i);
  }
  Elimination out;
  std::vector<int> left(at(size)), &level = out.level;
  level.assign(at(size), 0);
  std::iota(left.begin(), left.end(), 0);
  while (!left.empty()) {
    const auto pivot = std::min_element(left.begin(), left.end(), [&](int a, int b) {
      return std::pair{neighbours[at(a)].size(), level[at(a)]} < std::pair{neighbours[at(b)].size(), level[at(b)]};
    });
    out.pivot.push_back(*pivot);
    const std::set<int>& around = neighbours[at(*pivot)];
    for (const int i : around) {
      level[at(i)] = std::max(level[at(i)], level[at(*pivot)] + 1);
      neighbours[at(i)].insert(around.begin(), around.end());
      neighbours[at(i)].erase(i);
      neighbours[at(i)].erase(*pivot);
    }
    left.erase(pivot);
  }
  std::stable_sort(out.pivot.begin(), out.pivot.end(), [&](int a, int b) { return level[at(a)] < level[at(b)]; });
  return out;
}

}  // namespace

SparseLdlt::SparseLdlt(int size, const std::vector<std::pair<int, int>>& pairs) : size_(size) {
  const Elimination elimination = eliminate(size, pairs);
  pivot_ = elimination.pivot;
  std::vector<int> rank(at(size));
  for (int k = 0; k < size; ++k) rank[at(pivot_[at(k)])] = k;

  // Symbolic elimination in pivot order: neighbours of a pivot become neighbours of one another.
  std::vector<std::set<int>> later(at(size));
  for (const auto& [i, j] : pairs) {
    if (i == j) continue;
    const int a = rank[at(i)], b = rank[at(j)];
    later[at(std::min(a, b))].insert(std::max(a, b));
  }
  std::vector<std::vector<Ends>> levels;
  for (int k = 0; k < size; ++k) {
    const std::set<int>& column = later[at(k)];
    if (!column.empty()) later[at(*column.begin())].insert(std::next(column.begin()), column.end());
    const int node = pivot_[at(k)];
    if (elimination.level[at(node)] == std::ssize(levels)) {
      levels.emplace_back();
      pivot_start_.push_back(k);
    }
    for (const int row : column) levels.back().push_back({node, pivot_[at(row)]});
  }
  for (const std::vector<Ends>& level : levels) {
    entry_start_.push_back(entries());
    for (const int k : interleave(level)) entry_.push_back(level[at(k)]);
  }
  for (const Ends& e : entry_) slot_.try_emplace(std::minmax(e.a, e.b), size + static_cast<int>(slot_.size()));
  for (std::size_t level = 0; level < levels.size(); ++level) {
    update_start_.push_back(static_cast<int>(update_.size()));
    const int end = level + 1 < levels.size() ? pivot_start_[level + 1] : size;
    for (int k = pivot_start_[level]; k < end; ++k)
      for (auto p = later[at(k)].begin(); p != later[at(k)].end(); ++p)
        for (auto q = p; q != later[at(k)].end(); ++q) {
          const int node = pivot_[at(k)], i = pivot_[at(*p)], j = pivot_[at(*q)];
          update_.push_back({slot(i, j), slot(node, i) - size, slot(node, j) - size});
        }
  }
  pivot_start_.push_back(size);
  entry_start_.push_back(entries());
  update_start_.push_back(static_cast<int>(update_.size()));
  values_ = Eigen::VectorXd::Zero(size + entries());
}

int SparseLdlt::slot(int i, int j) const {
  if (i == j && i >= 0 && i < size_) return i;
  const auto found = slot_.find(std::minmax(i, j));
  if (found == slot_.end())
    throw std::out_of_range("no entry (" + std::to_string(i) + ", " + std::to_string(j) + ") in the matrix");
  return found->second;
}

FactorPlan SparseLdlt::plan() const {
  return {size_,
          entries(),
          static_cast<int>(pivot_start_.size()) - 1,
          pivot_.data(),
          entry_.data(),
          update_.data(),
          pivot_start_.data(),
          entry_start_.data(),
          update_start_.data()};
}

bool SparseLdlt::factorise(const Eigen::VectorXd& diagonal) {
  diagonal_ = diagonal;
  factor_.resize(values_.size());
  lower_.resize(entries());
  return single_kernel().factorise(plan(), {values_.data(), diagonal_.data(), factor_.data(), lower_.data()}, 1);
}

void SparseLdlt::solve(Eigen::VectorXd& x) const {
  // The plain arrays of a kernel are not const; these are only read.
  const auto read = [](const Eigen::VectorXd& v) { return const_cast<double*>(v.data()); };
  single_kernel().solve(plan(), {nullptr, nullptr, read(factor_), read(lower_)}, x.data());
}

}  // namespace hatring::solve
