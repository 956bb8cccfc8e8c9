// SPDX-License-Identifier: MIT
//! \file
//! The front axle's share of the braking where the case does not fix it: by hydraulics and friction, or by load
//! transfer. Checked by tests/sim/answer/test_share.cpp.
#pragma once

#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/answer/history.hpp"
#include "sim/answer/pedal_answers.hpp"
#include "sim/session/case.hpp"
#include "sim/session/drive.hpp"

namespace hatring::answer {

//! Largest change of the share between the last two runs [-], and the runs it may take.
inline constexpr double kShareTolerance = 1e-3;
inline constexpr int kShareRuns = 6;

//! Mean of both faces at a row of a history [K].
[[nodiscard]] double mean_face(const AxleHistory& axle, std::size_t row);

//! The share at moments of braking, rising in time.
struct ShareKnots {
  std::vector<double> time{};   //!< [s]
  std::vector<double> share{};  //!< of the front [-]
};

//! The part of a drive that is recorded in one go.
struct SharePart {
  double begin = 0, end = std::numeric_limits<double>::infinity();  //!< [s]
  //! Faces at its begin, for the first guess [K]; the middle of each axle's pad window where unset.
  std::optional<double> front_face{}, rear_face{};
  ShareKnots before{};  //!< of the parts before it, which stay
};

//! The share of a part for faces as they are at its begin. Sets it on the drive. \returns law, and the knots
std::pair<std::string, ShareKnots> guess_share(const session::Case& c, session::Drive& drive,
                                               const SharePart& part = {});

//! Finds the share of a part of a drive. By hydraulics the share hangs on the faces' temperature and that on the share:
//! run, take the share of every recorded moment of braking from the temperatures, and run again until no share changes
//! by more than kShareTolerance. The axles meet through this curve alone, so each is solved by itself. A braking
//! without a recorded moment takes the share of its neighbours.
class ShareSettling {
 public:
  //! Gives the drive its first share. \param c outlives this
  ShareSettling(const session::Case& c, session::Drive& drive, SharePart part = {});
  //! After the part was recorded with the drive's share. \returns whether it must be recorded again, with another share
  //! that the drive then has
  [[nodiscard]] bool again(session::Drive& drive, const History& history);

  //! Law, runs, change and settled.
  [[nodiscard]] const BrakeBalance& balance() const { return balance_; }
  //! SharePart::before and the share of this part.
  [[nodiscard]] const ShareKnots& knots() const { return knots_; }

 private:
  const session::Case& case_;
  SharePart part_;
  ShareKnots knots_;
  BrakeBalance balance_;
};

//! Gives the drive its share and runs a part of it until the share has settled.
//! \param record solves both axles over the part with the drive's share and fills `history`
//! \param known when given, filled with ShareSettling::knots()
BrakeBalance settle_share(const session::Case& c, session::Drive& drive, const History& history,
                          const std::function<void()>& record, const SharePart& part = {}, ShareKnots* known = nullptr);

}  // namespace hatring::answer
