// SPDX-License-Identifier: MIT
//! \file
//! Heat flows of single links and rubbings, as the network states them.
#pragma once

#include "models/friction.hpp"
#include "sim/network/network.hpp"
#include "sim/solve/lane_system.hpp"

namespace hatring::solve {

//! From a to b [W]. \param t, resistivity of all nodes: temperature [K], 1/k at it [m K/W]
template <class Temperatures, class Resistivities>
[[nodiscard]] double link_flow(const network::Link& l, const Load& load, const Temperatures& t,
                               const Resistivities& resistivity) {
  return (t[l.a] - t[l.b]) /
         (l.shape_a * resistivity[l.a] + network::Network::contact(l, load.applied) + l.shape_b * resistivity[l.b]);
}

//! Heat into the ring cell of one rubbing and into its pad cell [W].
struct RubbingFlow {
  double to_ring, to_pad;
};

//! \param fixed_share into the ring; negative: by contact  \param t, resistivity as above
template <class Temperatures, class Resistivities>
[[nodiscard]] RubbingFlow rubbing_flow(const network::Rubbing& r, double fixed_share, const Load& load,
                                       const Temperatures& t, const Resistivities& resistivity) {
  const double power = load.heat * r.share;
  const models::ContactSplit split =
      models::contact_split(r.contact, r.shape_ring * resistivity[r.ring], r.shape_pad * resistivity[r.pad]);
  // While the pads come on or lift, that part of their area bears which the brake is applied by.
  const double across = load.applied * split.conductance * (t[r.pad] - t[r.ring]);
  const double share = fixed_share >= 0 ? fixed_share : split.ring_share;
  return {share * power + across, (1 - share) * power - across};
}

}  // namespace hatring::solve
