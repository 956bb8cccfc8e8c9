// SPDX-License-Identifier: MIT
#include "sim/solve/ldlt.hpp"

#include <algorithm>
#include <numeric>
#include <set>
#include <stdexcept>
#include <string>

namespace hatring::solve {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// Minimum degree, so that little fill appears; among equals the one that fewest eliminations must precede, so that the
// sweeps of a solve wait less on one another.
std::vector<int> elimination_order(int size, const std::vector<std::pair<int, int>>& pairs) {
  std::vector<std::set<int>> neighbours(at(size));
  for (const auto& [i, j] : pairs) {
    if (i == j) continue;
    neighbours[at(i)].insert(j);
    neighbours[at(j)].insert(i);
  }
  std::vector<int> order, left(at(size)), level(at(size), 0);
  std::iota(left.begin(), left.end(), 0);
  while (!left.empty()) {
    const auto pivot = std::min_element(left.begin(), left.end(), [&](int a, int b) {
      return std::pair{neighbours[at(a)].size(), level[at(a)]} < std::pair{neighbours[at(b)].size(), level[at(b)]};
    });
    order.push_back(*pivot);
    const std::set<int>& around = neighbours[at(*pivot)];
    for (const int i : around) {
      level[at(i)] = std::max(level[at(i)], level[at(*pivot)] + 1);
      neighbours[at(i)].insert(around.begin(), around.end());
      neighbours[at(i)].erase(i);
      neighbours[at(i)].erase(*pivot);
    }
    left.erase(pivot);
  }
  return order;
}

}  // namespace

SparseLdlt::SparseLdlt(int size, const std::vector<std::pair<int, int>>& pairs) : size_(size) {
  order_ = elimination_order(size, pairs);
  rank_.resize(at(size));
  for (int k = 0; k < size; ++k) rank_[at(order_[at(k)])] = k;

  // Symbolic elimination in pivot order: neighbours of a pivot become neighbours of one another.
  std::vector<std::set<int>> later(at(size));
  for (const auto& [i, j] : pairs) {
    if (i == j) continue;
    const int a = rank_[at(i)], b = rank_[at(j)];
    later[at(std::min(a, b))].insert(std::max(a, b));
  }
  start_.push_back(0);
  for (int k = 0; k < size; ++k) {
    const std::set<int>& column = later[at(k)];
    if (!column.empty()) later[at(*column.begin())].insert(std::next(column.begin()), column.end());
    row_.insert(row_.end(), column.begin(), column.end());
    start_.push_back(static_cast<int>(row_.size()));
  }
  values_ = Eigen::VectorXd::Zero(size + entries());
  for (int k = 0; k < size; ++k)
    for (int p = start_[at(k)]; p < start_[at(k) + 1]; ++p)
      for (int q = p; q < start_[at(k) + 1]; ++q)
        target_.push_back(slot(order_[at(row_[at(p)])], order_[at(row_[at(q)])]));
  transpose();
}

void SparseLdlt::transpose() {
  row_start_.assign(at(size_ + 1), 0);
  for (const int r : row_) ++row_start_[at(r + 1)];
  std::partial_sum(row_start_.begin(), row_start_.end(), row_start_.begin());
  std::vector<int> next(row_start_.begin(), row_start_.end() - 1);
  column_.resize(row_.size());
  by_row_.resize(row_.size());
  for (int k = 0; k < size_; ++k)
    for (int p = start_[at(k)]; p < start_[at(k) + 1]; ++p) {
      by_row_[at(p)] = next[at(row_[at(p)])]++;
      column_[at(by_row_[at(p)])] = k;
    }
}

int SparseLdlt::slot(int i, int j) const {
  if (i == j && i >= 0 && i < size_) return i;
  const int column = std::min(rank_.at(at(i)), rank_.at(at(j)));
  const int wanted = std::max(rank_[at(i)], rank_[at(j)]);
  for (int p = start_[at(column)]; p < start_[at(column) + 1]; ++p)
    if (row_[at(p)] == wanted) return size_ + p;
  throw std::out_of_range("no entry (" + std::to_string(i) + ", " + std::to_string(j) + ") in the matrix");
}

FactorPlan SparseLdlt::plan() const {
  return {size_,          entries(),         order_.data(),  start_.data(), row_.data(),
          target_.data(), row_start_.data(), column_.data(), by_row_.data()};
}

bool SparseLdlt::factorise(const Eigen::VectorXd& diagonal) {
  diagonal_ = diagonal;
  factor_.resize(values_.size());
  lower_.resize(entries());
  pivoted_.resize(size_);
  return scalar_kernel().factorise(
      plan(), {values_.data(), diagonal_.data(), factor_.data(), lower_.data(), pivoted_.data()}, 1);
}

void SparseLdlt::solve(Eigen::VectorXd& x) {
  scalar_kernel().solve(plan(), {nullptr, nullptr, factor_.data(), lower_.data(), pivoted_.data()}, x.data());
}

}  // namespace hatring::solve
