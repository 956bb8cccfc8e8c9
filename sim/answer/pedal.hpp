// SPDX-License-Identifier: MIT
//! \file
//! What a run says about pads and pedal. Checked by tests/sim/answer/test_pedal.cpp.
#pragma once

#include "sim/answer/answers.hpp"
#include "sim/answer/history.hpp"

namespace hatring::answer {

//! Adds the column pedal/effort to both axles: the pedal force behind the front line's pressure (the rear's where the
//! front does not brake). One pedal, so both axles carry the same column [N].
void add_effort(const session::Case& c, History& history);

//! Brakings, laps, reach, fade and growth into `a.pedal`, `a.front.pedal`, `a.rear.pedal`; extremes of the share into
//! `a.brake_balance`.
void fill_pedal(const session::Case& c, const session::Drive& drive, const History& history, Answers& a);

//! Window shares, wear and what a worn disc holds.
[[nodiscard]] PadAnswer pad_answer(const session::Case& c, const session::Drive& drive, const std::vector<double>& time,
                                   const AxleHistory& history, session::Axle axle);

//! Each snub of the session against the pads' bedding plan.
[[nodiscard]] BeddingAnswer bedding_answer(const session::Case& c, const session::Drive& drive,
                                           const std::vector<double>& time, const AxleHistory& history,
                                           session::Axle axle);

//! The table "which fault is it", from answers that are filled.
[[nodiscard]] std::vector<Symptom> symptoms(const session::Case& c, const Answers& a);

//! Verdicts on pads, pedal and balance, from answers that are filled.
[[nodiscard]] std::vector<Verdict> judge_pedal(const session::Case& c, const session::Drive& drive, const Answers& a);

//! Fade that is heat: on a disc whose mean over the braking is above the middle of the pads' window; a loss below it is
//! a cold pad. 0 elsewhere [-].
[[nodiscard]] double hot_fade(const CornerAxle& corner, const session::Pads& pads);

//! Where a braking begins; at the edge of two spans the later one.
[[nodiscard]] Place place_of(const session::Drive& drive, const session::Braking& braking);

//! "lap" of "lap 7", "snub" of "snub 3", "out" of "out lap".
[[nodiscard]] std::string kind_of_span(const std::string& label);
//! Laps and snubs that count as driven in anger: "lap N" and "snub N".
[[nodiscard]] bool driven_in_anger(const std::string& label);

}  // namespace hatring::answer
