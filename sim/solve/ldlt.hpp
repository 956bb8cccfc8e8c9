// SPDX-License-Identifier: MIT
//! \file
//! Sparse L D L' factorisation of a symmetric positive definite matrix whose pattern never changes.
//! Elimination order (minimum degree) and the list of operations are found once; factorising and solving
//! then run through flat index lists and never allocate.
#pragma once

#include <Eigen/Core>
#include <utility>
#include <vector>

#include "sim/solve/kernel.hpp"

namespace hatring::solve {

class SparseLdlt {
 public:
  SparseLdlt() = default;
  //! \param size number of unknowns  \param pairs the (i, j) of off-diagonal entries, any order, repeats allowed
  SparseLdlt(int size, const std::vector<std::pair<int, int>>& pairs);

  //! Index into values() of the entry (i, j) = (j, i); i == j gives the diagonal.
  //! \throws std::out_of_range when the entry is not in the pattern
  [[nodiscard]] int slot(int i, int j) const;

  //! Entries of the matrix, diagonal first (in the caller's numbering), then off-diagonals, fill included.
  [[nodiscard]] Eigen::VectorXd& values() { return values_; }
  [[nodiscard]] const Eigen::VectorXd& values() const { return values_; }

  //! Factorises values() (left untouched) with `diagonal` added to its diagonal.
  //! \returns false when a pivot is not positive and finite
  [[nodiscard]] bool factorise(const Eigen::VectorXd& diagonal);

  //! Solves in place for one right-hand side of length size(). Not for two threads at once.
  void solve(Eigen::VectorXd& x);

  [[nodiscard]] int size() const { return size_; }
  //! Off-diagonal entries of L, fill included.
  [[nodiscard]] int entries() const { return static_cast<int>(row_.size()); }
  //! The index lists, which live as long as this does.
  [[nodiscard]] FactorPlan plan() const;

 private:
  void transpose();

  int size_ = 0;
  std::vector<int> order_, rank_;  // order_[k] = k-th pivot in the caller's numbering; rank_ its inverse
  std::vector<int> start_, row_;   // columns of L by pivot; rows as pivots
  std::vector<int> target_;        // per pair of rows in a column: index into the factor that it updates
  // The same entries by row, so that both sweeps of a solve gather: scattering would wait for memory at every entry.
  std::vector<int> row_start_, column_, by_row_;  // by_row_: place of each entry of L in the list by row
  Eigen::VectorXd values_, diagonal_, factor_, lower_, pivoted_;
};

}  // namespace hatring::solve
