// SPDX-License-Identifier: MIT
//! \file
//! Exact operations on the cubic speed pieces. Offsets `s` count from the piece's begin [s].
#pragma once

#include <array>
#include <vector>

#include "sim/session/drive.hpp"

namespace hatring::session {

[[nodiscard]] inline double speed_at(const Piece& p, double s) {
  return p.c[0] + s * (p.c[1] + s * (p.c[2] + s * p.c[3]));
}
[[nodiscard]] inline double acceleration_at(const Piece& p, double s) {
  return p.c[1] + s * (2 * p.c[2] + s * 3 * p.c[3]);
}
[[nodiscard]] inline double travelled_at(const Piece& p, double s) {
  return s * (p.c[0] + s * (p.c[1] / 2 + s * (p.c[2] / 3 + s * p.c[3] / 4)));
}
//! Offset at which so much of the piece is travelled, to 1e-9 s. \pre 0 <= distance <= what it travels
[[nodiscard]] double time_to_travel(const Piece& p, double distance);
[[nodiscard]] inline double grade_at(const Piece& p, double s) {
  return p.end > p.begin ? p.grade0 + (p.grade1 - p.grade0) * s / (p.end - p.begin) : p.grade0;
}
[[nodiscard]] inline double length_of(const Piece& p) {
  return p.end - p.begin;
}

//! Rises from 0 to 1 with zero slope at both ends; x is clipped to 0 .. 1.
[[nodiscard]] inline double smoothstep(double x) {
  if (x <= 0) return 0;
  return x >= 1 ? 1 : x * x * (3 - 2 * x);
}

//! Speed and acceleration at one end of a piece.
struct End {
  double speed = 0;         //!< [m/s]
  double acceleration = 0;  //!< [m/s2]
};
//! The cubic through both ends, lasting `length` from `begin` [s].
[[nodiscard]] Piece hermite(double begin, double length, End first, End last);

//! The part from s0 to s1 of a piece; times, distance and grade follow.
[[nodiscard]] Piece part_of(const Piece& p, double s0, double s1);

//! Cuts the piece that holds each of the times, so that every time is a piece boundary. Times within 1e-6 s of one add
//! none.
void cut_at(std::vector<Piece>& pieces, const std::vector<double>& times);

//! The piece driven at `pace` times the speed at every place: times / pace, accelerations * pace^2, distance unchanged.
[[nodiscard]] Piece at_pace(const Piece& p, double pace);

//! Nodes (-1 .. 1) and weights of Gauss-Legendre quadrature, exact for polynomials of degree 15
//! (Abramowitz and Stegun 1964, table 25.4, from memory).
inline constexpr std::array<double, 8> kGaussNode = {-0.9602898564975363, -0.7966664774136267, -0.5255324099163290,
                                                     -0.1834346424956498, 0.1834346424956498,  0.5255324099163290,
                                                     0.7966664774136267,  0.9602898564975363};
inline constexpr std::array<double, 8> kGaussWeight = {0.1012285362903763, 0.2223810344533745, 0.3137066458778873,
                                                       0.3626837833783620, 0.3626837833783620, 0.3137066458778873,
                                                       0.2223810344533745, 0.1012285362903763};

//! Integral of f from a to b, f smooth in between.
template <class F>
[[nodiscard]] double integrate(double a, double b, const F& f) {
  double sum = 0;
  for (std::size_t i = 0; i < kGaussNode.size(); ++i)
    sum += kGaussWeight[i] * f((a + b) / 2 + (b - a) / 2 * kGaussNode[i]);
  return sum * (b - a) / 2;
}

}  // namespace hatring::session
