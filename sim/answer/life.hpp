// SPDX-License-Identifier: MIT
//! \file
//! What a session takes out of ring, hat and fasteners: fatigue, softening, and what a wet patch would do.
#pragma once

#include <vector>

#include "sim/answer/answers.hpp"

namespace hatring::answer {

//! Rainflow-counted damage of every part whose material has fatigue constants, shortest life first.
[[nodiscard]] std::vector<DamageRow> damage(const session::Case& c, session::Axle axle, const AxleHistory& history);

//! Over-ageing of the hat; not applicable to materials that do not over-age.
[[nodiscard]] SofteningAnswer softening(const session::Case& c, session::Axle axle, const std::vector<double>& time,
                                        const AxleHistory& history);

//! Every wet patch of the case on every lap, where the face is above 100 degC. \returns the hardest quench of each
//! patch
[[nodiscard]] std::vector<QuenchRow> quenches(const session::Case& c, session::Axle axle, const session::Drive& drive,
                                              const std::vector<double>& time, const AxleHistory& history);

}  // namespace hatring::answer
