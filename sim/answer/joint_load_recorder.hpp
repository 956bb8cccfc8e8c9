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
  //! \param differential free expansion, ring minus hat, row by row [m]
  void observe(const Moments& rows, const solve::Series& differential);

  //! What heat so far has left of the preload; nothing where there is none.
  using Memory = std::optional<models::Preload>;
  [[nodiscard]] const Memory& memory() const { return preload_; }
  void remember(const Memory& memory) { preload_ = memory; }

 private:
  // At the temperatures of each row [Pa].
  struct Metal {
    solve::Series ring_modulus, lug_modulus, flange_modulus, fastener_modulus, lug_strength, flange_bearing,
        fastener_proof;
  };
  [[nodiscard]] Metal metal(const solve::Series& ring, const solve::Series& lug, const solve::Series& flange,
                            const solve::Series& fastener) const;
  [[nodiscard]] solve::Series clamping_compliance(const Metal& m) const;
  // Clamping force of one fastener, recorded; 0 where nothing is clamped [N].
  [[nodiscard]] solve::Series clamping(const Moments& rows, const Metal& m);

  const session::Car& car_;
  const session::Rotor& rotor_;
  const models::Material &iron_, &hat_, &bolt_;
  Columns& columns_;
  network::JointGeometry at_;
  bool applicable_, rigid_;
  const network::StrainTable *iron_strain_ = nullptr, *hat_strain_ = nullptr, *bolt_strain_ = nullptr;
  models::FastenerSection section_;
  double stress_area_ = 0, bearing_area_ = 0;
  // Where every modulus is 1 Pa: springs, to which the holes in flange and lug add their own; bolt; clamped parts by
  // their thickness.
  models::JointSprings unit_;
  double unit_hole_flange_ = 0, unit_hole_lug_ = 0, unit_bolt_ = 0, unit_clamped_ = 0;
  std::optional<models::Preload> preload_;
  Eigen::Index ring_probe_, lug_probe_, flange_probe_, fastener_probe_;
  std::size_t load_, carried_, slip_, clamp_, clamp_cold_, fastener_stress_, hole_stress_, lug_stress_, used_fastener_,
      used_hole_, used_lug_;
};

}  // namespace hatring::answer
