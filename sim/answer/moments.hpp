// SPDX-License-Identifier: MIT
//! \file
//! Some rows of a record at once: recorders work up a wheel's rows quantity by quantity, each of them an array in the
//! cache.
#pragma once

#include <Eigen/Core>
#include <span>

#include "models/material.hpp"
#include "sim/network/strain_table.hpp"
#include "sim/solve/rubbed_surfaces.hpp"

namespace hatring::answer {

//! One wheel at some moments that follow one another: row i of every array is the i-th of them.
struct Moments {
  solve::Loads load;
  Eigen::ArrayXXd node;      //!< temperature of every node [K]
  Eigen::ArrayXXd integral;  //!< by solve::WheelIntegral [J]
  solve::Series heat;        //!< of all nodes [J]
  solve::Series beyond;      //!< of those beyond the hub, a part of it [J]
  Eigen::ArrayXXd face;      //!< mean of the rubbed track's surface, outboard and inboard [K]
  Eigen::ArrayXXd pad;       //!< rubbing surface of the pads, outboard and inboard [K]
  Eigen::ArrayXXd part;      //!< value of every probe of the network; NaN where it does not apply [K]

  [[nodiscard]] Eigen::Index size() const { return heat.size(); }
  //! Makes room for moments, or drops the last ones; surfaces and probes are left to those who fill them.
  //! \param moments at most solve::kMostMoments
  void resize(Eigen::Index moments, Eigen::Index nodes);
  [[nodiscard]] solve::Series mean_face() const { return 0.5 * (face.col(0) + face.col(1)); }
};

inline void Moments::resize(Eigen::Index moments, Eigen::Index nodes) {
  load.resize(moments);
  for (solve::Series* const series : {&heat, &beyond}) series->conservativeResize(moments);
  node.conservativeResize(moments, nodes);
  integral.conservativeResize(moments, solve::kIntegrals);
}

//! A curve at the temperature of every row.
[[nodiscard]] inline solve::Series along(const models::Curve& curve, const solve::Series& temperature) {
  solve::Series out(temperature.size());
  curve.follow({temperature.data(), static_cast<std::size_t>(temperature.size())},
               {out.data(), static_cast<std::size_t>(out.size())});
  return out;
}

//! Thermal strain at the temperature of every row [-].
template <class Temperatures>
[[nodiscard]] auto strain(const network::StrainTable& table, const Temperatures& temperature) {
  return temperature.unaryExpr([&table](double t) { return table(t); });
}

}  // namespace hatring::answer
