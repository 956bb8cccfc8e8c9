// SPDX-License-Identifier: MIT
//! \file
//! Means over nodes with fixed weights, all of them at one go, row by row.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <limits>
#include <vector>

#include "sim/network/network.hpp"

namespace hatring::answer {

class Means {
 public:
  //! \returns the index of a new mean, which stays NaN where there are no weights
  std::size_t add(const network::Weights& weights) {
    terms_.insert(terms_.end(), weights.begin(), weights.end());
    end_.push_back(terms_.size());
    return end_.size() - 1;
  }
  //! \param node one value for each row and node of the network  \param values takes one for each row and mean
  void find(const Eigen::ArrayXXd& node, Eigen::ArrayXXd& values) const {
    values.setConstant(node.rows(), static_cast<Eigen::Index>(end_.size()), std::numeric_limits<double>::quiet_NaN());
    std::size_t k = 0;
    for (std::size_t i = 0; i < end_.size(); ++i) {
      if (k == end_[i]) continue;
      auto mean = values.col(static_cast<Eigen::Index>(i)).setZero();
      for (; k < end_[i]; ++k) mean += terms_[k].second * node.col(terms_[k].first);
    }
  }

 private:
  network::Weights terms_;  // of one mean after the other
  std::vector<std::size_t> end_;
};

}  // namespace hatring::answer
