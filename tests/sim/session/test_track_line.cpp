// SPDX-License-Identifier: MIT
// Curvature from points.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "sim/session/error.hpp"
#include "sim/session/track_line.hpp"

using namespace hatring::session;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kPi = std::numbers::pi;

LinePoints circle(double radius, int count, double jitter = 0) {
  std::mt19937 random(7);
  std::normal_distribution<double> noise(0, 1);
  LinePoints p;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * kPi * i / count;
    p.x.push_back(1e4 + radius * std::cos(angle) + jitter * noise(random));
    p.y.push_back(radius * std::sin(angle) + jitter * noise(random));
  }
  return p;
}

// Two straights of 400 m and two half circles.
LinePoints stadium(double radius, double spacing, double jitter) {
  std::mt19937 random(11);
  std::normal_distribution<double> noise(0, 1);
  const double turn = kPi * radius, length = 800 + 2 * turn;
  LinePoints p;
  for (double s = 0; s < length; s += spacing) {
    double x = 0, y = 0;
    if (s < 400)
      x = s;
    else if (s < 400 + turn)
      x = 400 + radius * std::sin((s - 400) / radius), y = radius - radius * std::cos((s - 400) / radius);
    else if (s < 800 + turn)
      x = 800 + turn - s, y = 2 * radius;
    else
      x = -radius * std::sin((s - 800 - turn) / radius), y = radius + radius * std::cos((s - 800 - turn) / radius);
    p.x.push_back(x + jitter * noise(random));
    p.y.push_back(y + jitter * noise(random));
  }
  return p;
}

}  // namespace

TEST_CASE("points on a circle give its radius everywhere and its length") {
  for (const double radius : {25.0, 60.0, 400.0}) {
    const SmoothLine line = smooth_line(circle(radius, static_cast<int>(2 * kPi * radius / 4)), 40, "circle");
    for (const Stretch& s : line.track.stretches)
      CHECK_THAT(s.curvature, WithinRel(1 / radius, 6e-3));  // (knot distance / radius)^2 / 12
    CHECK_THAT(line.track.length(), WithinRel(2 * kPi * radius, 1e-3));
    CHECK(line.residual < 0.03);
  }
}

TEST_CASE("a closing point that repeats the first changes nothing and the other way round turns the other way") {
  LinePoints p = circle(80, 100);
  const double length = smooth_line(p, 40, "open").track.length();
  p.x.push_back(p.x.front());
  p.y.push_back(p.y.front());
  CHECK_THAT(smooth_line(p, 40, "closed").track.length(), WithinRel(length, 1e-9));
  std::reverse(p.x.begin(), p.x.end());
  std::reverse(p.y.begin(), p.y.end());
  CHECK(smooth_line(p, 40, "reversed").track.stretches[7].curvature < 0);
}

TEST_CASE("jitter of half a metre leaves radius and straights") {
  const SmoothLine line = smooth_line(stadium(40, 3, 0.5), 40, "stadium");
  double along = 0, straight = 0;
  std::size_t count = 0;
  for (const Stretch& s : line.track.stretches) {
    const double middle = along + s.length / 2;
    along += s.length;
    if (middle > 420 && middle < 400 + kPi * 40 - 20) CHECK_THAT(s.curvature, WithinRel(1.0 / 40, 0.15));
    if (middle > 40 && middle < 360) straight += s.curvature * s.curvature, ++count;
  }
  CHECK(std::sqrt(straight / static_cast<double>(count)) < 1.0 / 300);
  CHECK_THAT(along, WithinRel(800 + 80 * kPi, 5e-3));
  CHECK_THAT(line.residual, WithinAbs(0.5, 0.1));
}

TEST_CASE("a tight hairpin survives the smoothing") {
  const SmoothLine line = smooth_line(stadium(12, 2, 0), 40, "hairpin");
  double tightest = 0;
  for (const Stretch& s : line.track.stretches) tightest = std::max(tightest, s.curvature);
  CHECK_THAT(1 / tightest, WithinRel(12, 0.12));
}

TEST_CASE("heights become grades") {
  LinePoints p = circle(200, 300);
  for (std::size_t i = 0; i < p.x.size(); ++i) p.height.push_back(5 * std::sin(2 * kPi * static_cast<double>(i) / 300));
  const SmoothLine line = smooth_line(p, 40, "hill");
  double along = 0;
  for (const Stretch& s : line.track.stretches) {
    CHECK_THAT(s.grade, WithinAbs(5.0 / 200 * std::cos((along + s.length / 2) / 200), 6e-4));
    along += s.length;
  }
}

TEST_CASE("points that make no lap are refused") {
  CHECK_THROWS_AS(smooth_line(circle(50, 5), 40, "few"), CaseError);
  CHECK_THROWS_AS(smooth_line(circle(10, 40), 40, "short"), CaseError);
  LinePoints open;
  for (int i = 0; i < 100; ++i) open.x.push_back(5 * i), open.y.push_back(0.01 * i * i);
  CHECK_THROWS_WITH(smooth_line(open, 40, "open"), Catch::Matchers::Contains("do not close"));
}

TEST_CASE("an open line keeps its ends and its bend") {
  LinePoints p;
  for (int i = 0; i < 60; ++i) p.x.push_back(5 * i), p.y.push_back(0);
  for (int i = 1; i <= 60; ++i) {
    const double a = i / 60.0 * 1.5;  // a bend of 50 m radius by 1.5 rad
    p.x.push_back(295 + 50 * std::sin(a)), p.y.push_back(50 * (1 - std::cos(a)));
  }
  const SmoothLine line = smooth_line(p, 20, "climb", false);
  CHECK_FALSE(line.track.closed);
  CHECK_THAT(line.track.length(), WithinRel(295 + 75.0, 2e-3));
  CHECK(std::abs(line.track.stretches.front().curvature) < 1e-4);
  CHECK_THAT(line.track.stretches.back().curvature, WithinRel(1.0 / 50, 0.1));
  CHECK(line.residual < 0.1);
}

TEST_CASE("a stray point is named and not driven to") {
  LinePoints p = circle(150, 40);
  p.x[17] += 20e3;
  CHECK_THROWS_WITH(smooth_line(p, 40, "stray"), Catch::Matchers::Contains("points 17 and 18 lie 19988 m"));
}

TEST_CASE("a line whose fit swings out far beyond its points is refused") {
  LinePoints p = circle(110, 12);
  p.x[3] -= 68.6e3;  // two strays, neither of them 40 % of the line away from its neighbours
  p.x[9] += 20.6e3;
  CHECK_THROWS_WITH(smooth_line(p, 40, "swung"), Catch::Matchers::Contains("km long"));
}
