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
  void observe(const Moments& rows);

  //! What yielding so far has left in the faces, outboard and inboard.
  using Memory = std::array<models::ConstrainedFibre, 2>;
  [[nodiscard]] const Memory& memory() const { return fibre_; }
  void remember(const Memory& memory) { fibre_ = memory; }

 private:
  // One face and its cheek, row by row: free strain of the cheek, strain that the face is denied, its stress now and
  // what would be left of it in the cold [Pa], tension over strength.
  struct Side {
    solve::Series cheek, denied, stress, residual, used;
  };
  [[nodiscard]] Side side(const solve::Series& face, const solve::Series& cheek, models::ConstrainedFibre& fibre) const;
  // By the temperatures of the bands, of which these are the first columns [Pa].
  [[nodiscard]] solve::Series bore_hoop(const Eigen::ArrayXXd& bands) const;
  [[nodiscard]] models::ConstrainedFibre::Properties properties(double modulus, double proof) const;

  const models::Material& iron_;
  Columns& columns_;
  bool applicable_;
  const network::StrainTable* strain_ = nullptr;
  Means means_;  // of the bands from the bore outward, then of both cheeks
  Memory fibre_;
  Eigen::ArrayXXd mean_;  // by row
  std::vector<double> bore_weights_;
  double concentration_ = 1, cold_strength_ = 0;
  double unit_coning_ = 0;  // for cheeks whose strains are 1 apart [m]
  models::ConstrainedFibre::Properties cold_;
  std::size_t bore_hoop_, lug_root_, face_hoop_, face_strain_, residual_, utilisation_, coning_, over_;
};

}  // namespace hatring::answer
