// SPDX-License-Identifier: MIT
#include "sim/solve/ldlt.hpp"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <algorithm>
#include <set>
#include <stdexcept>
#include <string>

namespace hatring::solve {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// Approximate minimum degree: pivots with few neighbours first, so that little fill appears.
std::vector<int> elimination_order(int size, const std::vector<std::pair<int, int>>& pairs) {
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < size; ++i) entries.emplace_back(i, i, 1.0);
  for (const auto& [i, j] : pairs) {
    entries.emplace_back(i, j, 1.0);
    entries.emplace_back(j, i, 1.0);
  }
  Eigen::SparseMatrix<double> pattern(size, size);
  pattern.setFromTriplets(entries.begin(), entries.end());
  Eigen::AMDOrdering<int>::PermutationType permutation;
  Eigen::AMDOrdering<int>()(pattern, permutation);
  const auto& indices = permutation.indices();
  return {indices.data(), indices.data() + indices.size()};
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
    for (const int r : column) row_.push_back(order_[at(r)]);
    start_.push_back(static_cast<int>(row_.size()));
  }
  values_ = Eigen::VectorXd::Zero(size + entries());
  factor_ = values_;
  for (int k = 0; k < size; ++k)
    for (int p = start_[at(k)]; p < start_[at(k) + 1]; ++p)
      for (int q = p; q < start_[at(k) + 1]; ++q) target_.push_back(slot(row_[at(p)], row_[at(q)]));
}

int SparseLdlt::slot(int i, int j) const {
  if (i == j && i >= 0 && i < size_) return i;
  const int column = std::min(rank_.at(at(i)), rank_.at(at(j)));
  const int wanted = rank_[at(i)] == column ? j : i;
  for (int p = start_[at(column)]; p < start_[at(column) + 1]; ++p)
    if (row_[at(p)] == wanted) return size_ + p;
  throw std::out_of_range("no entry (" + std::to_string(i) + ", " + std::to_string(j) + ") in the matrix");
}

bool SparseLdlt::factorise(const Eigen::Ref<const Eigen::VectorXd>& diagonal) {
  factor_ = values_;
  factor_.head(size_) += diagonal;
  double* const f = factor_.data();
  double* const l = f + size_;
  const int* target = target_.data();
  for (int k = 0; k < size_; ++k) {
    const double pivot = f[order_[at(k)]];
    if (!(pivot > 0) || !(pivot < 1e300)) return false;
    const double inverse = 1 / pivot;
    const int end = start_[at(k) + 1];
    for (int p = start_[at(k)]; p < end; ++p) {
      const double scaled = l[p] * inverse;
      for (int q = p; q < end; ++q) f[*target++] -= scaled * l[q];
      l[p] = scaled;
    }
    f[order_[at(k)]] = inverse;  // the solve multiplies by it
  }
  return true;
}

void SparseLdlt::solve(Eigen::Ref<Eigen::VectorXd> x) const {
  const double* const f = factor_.data();
  const double* const l = f + size_;
  for (int k = 0; k < size_; ++k) {
    const double xk = x[order_[at(k)]];
    for (int p = start_[at(k)]; p < start_[at(k) + 1]; ++p) x[row_[at(p)]] -= l[p] * xk;
  }
  for (int k = size_ - 1; k >= 0; --k) {
    double xk = x[order_[at(k)]] * f[order_[at(k)]];
    for (int p = start_[at(k)]; p < start_[at(k) + 1]; ++p) xk -= l[p] * x[row_[at(p)]];
    x[order_[at(k)]] = xk;
  }
}

}  // namespace hatring::solve
