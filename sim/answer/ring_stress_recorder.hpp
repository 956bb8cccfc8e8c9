// SPDX-License-Identifier: MIT
//! \file
//! Thermal stress of the friction ring, moment by moment.
#pragma once

#include <array>

#include "models/thermal_stress.hpp"
#include "sim/answer/means.hpp"
#include "sim/answer/recorders.hpp"

namespace hatring::answer {

//! Bore and lug roots from the radial profile of the cheeks; both faces from how much hotter they are than their cheek,
//! with yielding. Needs modulus and strength of the iron; without them the columns do not apply.
//! Recorded moments must resolve a braking: what yields between two of them is missed.
class RingStressRecorder {
 public:
  RingStressRecorder(const session::Case& c, session::Axle axle, const network::Network& network, Columns& columns);
  void observe(const Snapshot& now);

  //! What yielding so far has left in the faces, outboard and inboard.
  using Memory = std::array<models::ConstrainedFibre, 2>;
  [[nodiscard]] const Memory& memory() const { return fibre_; }
  void remember(const Memory& memory) { fibre_ = memory; }

 private:
  [[nodiscard]] models::ConstrainedFibre::Properties properties(double temperature) const;

  const models::Material& iron_;
  Columns& columns_;
  bool applicable_;
  const network::StrainTable* strain_ = nullptr;
  Means means_;  // of the bands from the bore outward, then of both cheeks
  Memory fibre_;
  std::vector<double> bore_weights_, band_strain_;
  const session::Ring& ring_;
  double concentration_ = 1, cold_strength_ = 0;
  models::ConstrainedFibre::Properties cold_;
  std::size_t bore_hoop_, lug_root_, face_hoop_, face_strain_, residual_, utilisation_, coning_, over_;
};

}  // namespace hatring::answer
