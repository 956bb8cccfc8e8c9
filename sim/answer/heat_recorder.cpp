// SPDX-License-Identifier: MIT
#include "sim/answer/recorders.hpp"

namespace hatring::answer {

HeatRecorder::HeatRecorder(Columns& columns)
    : columns_(columns), first_(columns.add("heat", "friction", "J", "Friction heat of this wheel")) {
  columns.add("heat", "to_ring", "J",
              "Friction heat that entered the ring, net of what the pads gave back while applied");
  columns.add("heat", "to_pads", "J", "Friction heat that entered the pads, likewise");
  columns.add("heat", "stored", "J",
              "Heat stored in ring, hat, joint, hub, pads, caliper, fluid and the air in the wheel");
  columns.add("heat", "convection", "J", "Heat lost by convection");
  columns.add("heat", "radiation", "J", "Heat lost by radiation");
  columns.add("heat", "to_wheel", "J", "Heat passed on beyond the hub, to wheel and upright");
  columns.add("heat", "residual", "J", "Friction less all the others: what the balance does not explain");
}

void HeatRecorder::observe(const Moments& rows) {
  if (!start_) start_ = {rows.heat[0], rows.beyond[0]};
  const solve::Series beyond = rows.beyond - start_->beyond, stored = rows.heat - start_->heat - beyond;
  const auto friction = rows.integral.col(solve::kFriction), to_ring = rows.integral.col(solve::kToRing),
             convection = rows.integral.col(solve::kConvection), radiation = rows.integral.col(solve::kRadiation);
  const solve::Series to_wheel = beyond + rows.integral.col(solve::kWheelLoss);
  columns_.append(first_, friction);
  columns_.append(first_ + 1, to_ring);
  columns_.append(first_ + 2, friction - to_ring);
  columns_.append(first_ + 3, stored);
  columns_.append(first_ + 4, convection);
  columns_.append(first_ + 5, radiation);
  columns_.append(first_ + 6, to_wheel);
  columns_.append(first_ + 7, friction - stored - convection - radiation - to_wheel);
}

}  // namespace hatring::answer
