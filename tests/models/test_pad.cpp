// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "models/pad.hpp"

using namespace hatring::models;
using Catch::WithinRel;

namespace {
Clamp clamp() {
  return {.friction = {Curve({300, 500, 900}, {0.3, 0.5, 0.2}), {}, {}},
          .piston_area = 2.5e-3,
          .radius = 0.128,
          .pad_area = 5.2e-3};
}
}  // namespace

TEST_CASE("friction is the product of the table and its factors and every curve is held at its ends", "[pad]") {
  const PadFriction f{Curve({300, 500, 900}, {0.3, 0.5, 0.2}), Curve({5, 25}, {1.0, 0.8}), Curve({1e6, 5e6}, {1, 0.9})};
  CHECK_THAT(f(500, 5, 1e6), WithinRel(0.5, 1e-12));
  CHECK_THAT(f(500, 25, 5e6), WithinRel(0.5 * 0.8 * 0.9, 1e-12));
  CHECK_THAT(f(1500, 99, 9e9), WithinRel(0.2 * 0.8 * 0.9, 1e-12));
  const PadFriction plain{Curve(0.4), {}, {}};
  CHECK(plain(1000, 50, 1e7) == 0.4);
}

TEST_CASE("constant friction gives exactly the pressure of a hand calculation", "[pad]") {
  // 600 N m = 2 * 0.4 * p * 2.5e-3 m2 * 0.128 m, so p = 2.34375 MPa.
  Clamp c = clamp();
  c.friction.temperature = Curve(0.4);
  CHECK_THAT(c.pressure(600, 450, 12), WithinRel(2.34375e6, 1e-12));
  CHECK(c.pressure(0, 450, 12) == 0);
}

TEST_CASE("pressure undoes torque, with a pressure factor too, and is infinite where none is enough", "[pad]") {
  Clamp c = clamp();
  c.friction.pressure = Curve({0.5e6, 4e6}, {1.1, 0.7});
  for (const double p : {0.2e6, 1e6, 6e6}) CHECK_THAT(c.pressure(c.torque(p, 620, 10), 620, 10), WithinRel(p, 1e-9));
  CHECK(std::isinf(c.pressure(1e9, 620, 10)));
}

TEST_CASE("less friction asks for more pressure, in inverse proportion", "[pad]") {
  const Clamp c = clamp();
  CHECK_THAT(c.pressure(500, 300, 10) / c.pressure(500, 500, 10), WithinRel(0.5 / 0.3, 1e-12));
}

TEST_CASE("wear: the part that heat adds equals the cold part at the onset and doubles over the step above it",
          "[pad]") {
  const Wear w{4e-14, 598.15, 100};
  CHECK_THAT(w(598.15), WithinRel(2 * 4e-14, 1e-12));
  CHECK_THAT(w(698.15), WithinRel(3 * 4e-14, 1e-12));
  CHECK(w(293.15) < 1.05 * 4e-14);
  for (double t = 300; t < 1200; t += 50) CHECK(w(t + 50) > w(t));
}
