// SPDX-License-Identifier: MIT
//! \file
//! Means over nodes with fixed weights, all of them at one go.
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
    values_.push_back(std::numeric_limits<double>::quiet_NaN());
    return values_.size() - 1;
  }
  //! \param node one value for each node of the network
  void find(const Eigen::VectorXd& node) {
    std::size_t k = 0;
    for (std::size_t i = 0; i < values_.size(); ++i) {
      if (k == end_[i]) continue;
      double sum = 0;
      for (; k < end_[i]; ++k) sum += terms_[k].second * node[terms_[k].first];
      values_[i] = sum;
    }
  }
  //! As found last.
  [[nodiscard]] const std::vector<double>& values() const { return values_; }
  [[nodiscard]] double operator[](std::size_t i) const { return values_[i]; }

 private:
  network::Weights terms_;  // of one mean after the other
  std::vector<std::size_t> end_;
  std::vector<double> values_;
};

}  // namespace hatring::answer
