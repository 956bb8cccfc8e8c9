// SPDX-License-Identifier: MIT
//! \file
//! What ring, hat and fasteners do to each other, moment by moment.
#pragma once

#include <optional>

#include "models/bolted_joint.hpp"
#include "models/joint_load.hpp"
#include "sim/answer/recorders.hpp"
#include "sim/network/joint_geometry.hpp"

namespace hatring::answer {

//! Load, preload and stresses of the hardest-worked fastener. Needs modulus and strength of ring, hat and fasteners;
//! without them the columns do not apply.
class JointLoadRecorder {
 public:
  JointLoadRecorder(const session::Case& c, session::Axle axle, const network::Network& network, Columns& columns);
  //! \param differential free expansion, ring minus hat [m]
  void observe(const Snapshot& now, double differential);

  //! What heat so far has left of the preload; nothing where there is none.
  using Memory = std::optional<models::Preload>;
  [[nodiscard]] const Memory& memory() const { return preload_; }
  void remember(const Memory& memory) { preload_ = memory; }

 private:
  struct Temperatures {
    double ring, lug, flange, fastener;
  };
  [[nodiscard]] models::JointSprings springs(const Temperatures& t) const;
  [[nodiscard]] double clamping_compliance(const Temperatures& t) const;
  // Most that head, faces and thread can clamp at these temperatures [N].
  [[nodiscard]] double clamping_limit(const Temperatures& t) const;
  [[nodiscard]] models::Preload::Now clamping(const Temperatures& t) const;

  const session::Car& car_;
  const session::Rotor& rotor_;
  const models::Material &iron_, &hat_, &bolt_;
  Columns& columns_;
  network::JointGeometry at_;
  bool applicable_, rigid_;
  const network::StrainTable *iron_strain_ = nullptr, *hat_strain_ = nullptr, *bolt_strain_ = nullptr;
  models::Fastener fastener_;
  models::FastenerSection section_;
  double stress_area_ = 0;
  std::optional<models::Preload> preload_;
  std::size_t ring_probe_, lug_probe_, flange_probe_, fastener_probe_;
  std::size_t load_, carried_, slip_, clamp_, clamp_cold_, fastener_stress_, hole_stress_, lug_stress_, used_fastener_,
      used_hole_, used_lug_;
};

}  // namespace hatring::answer
