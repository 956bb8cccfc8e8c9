// SPDX-License-Identifier: MIT
//! \file
//! Sparse L D L' factorisation of a symmetric positive definite matrix whose pattern never changes.
//! Elimination order (minimum degree) and the list of operations are found once; factorising and solving
//! then run through flat index lists and never allocate.
#pragma once

#include <Eigen/Core>
#include <map>
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

  //! Solves in place for one right-hand side of length size().
  void solve(Eigen::VectorXd& x) const;

  [[nodiscard]] int size() const { return size_; }
  //! Off-diagonal entries of L, fill included.
  [[nodiscard]] int entries() const { return static_cast<int>(entry_.size()); }
  //! The index lists, which live as long as this does.
  [[nodiscard]] FactorPlan plan() const;

 private:
  int size_ = 0;
  std::vector<int> pivot_;
  std::vector<Ends> entry_;
  std::vector<FactorUpdate> update_;
  std::vector<int> pivot_start_, entry_start_, update_start_;  // of each level
  std::map<std::pair<int, int>, int> slot_;                    // of off-diagonal entries, lower number first
  Eigen::VectorXd values_, diagonal_, factor_, lower_;
};

}  // namespace hatring::solve
