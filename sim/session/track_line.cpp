// SPDX-License-Identifier: MIT
#include "sim/session/track_line.hpp"

#include <fmt/format.h>

#include <Eigen/Sparse>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "sim/session/error.hpp"
#include "sim/session/lap_speed.hpp"

namespace hatring::session {
namespace {

using Index = Eigen::Index;
using Vector = Eigen::VectorXd;

constexpr std::size_t kFewestPoints = 8;
constexpr double kKnotsPerSmoothing = 8;

// Cubic B-spline basis at x = 0 .. 1 between two knots, and its first and second derivative by x.
std::array<double, 4> basis(double x, int derivative) {
  const double y = 1 - x;
  if (derivative == 0)
    return {y * y * y / 6, (3 * x * x * x - 6 * x * x + 4) / 6, (3 * y * y * y - 6 * y * y + 4) / 6, x * x * x / 6};
  if (derivative == 1) return {-y * y / 2, (3 * x * x - 4 * x) / 2, (4 * y - 3 * y * y) / 2, x * x / 2};
  return {y, 3 * x - 2, 3 * y - 2, x};
}

// A curve of one coordinate over a parameter from 0 to `length`; a closed one goes on from its end at its beginning.
class Spline {
 public:
  Spline(const std::vector<double>& parameter, const std::vector<double>& value, double length, double smoothing,
         bool closed)
      : closed_(closed),
        knots_(std::max<Index>(8, static_cast<Index>(std::ceil(length / smoothing * kKnotsPerSmoothing)))),
        step_(length / static_cast<double>(knots_)) {
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(16 * (parameter.size() + static_cast<std::size_t>(knots_)));
    const Index size = closed ? knots_ : knots_ + 3;
    Vector right = Vector::Zero(size);
    for (std::size_t i = 0; i < parameter.size(); ++i) {
      const double before = i > 0 ? parameter[i - 1] : closed ? parameter.back() - length : 0;
      const double after = i + 1 < parameter.size() ? parameter[i + 1] : length;
      const double weight = (after - before) / 2;
      const auto [knot, x] = locate(parameter[i]);
      const auto b = basis(x, 0);
      for (Index r = 0; r < 4; ++r) {
        right[at(knot + r)] += weight * b[static_cast<std::size_t>(r)] * value[i];
        for (Index c = 0; c < 4; ++c)
          entries.emplace_back(at(knot + r), at(knot + c),
                               weight * b[static_cast<std::size_t>(r)] * b[static_cast<std::size_t>(c)]);
      }
    }
    // The third derivative between two knots is constant: the third difference of four coefficients over step^3.
    constexpr std::array<double, 4> kDifference{-1, 3, -3, 1};
    const double penalty = std::pow(smoothing / (2 * std::numbers::pi), 6) / std::pow(step_, 5);
    for (Index k = 0; k < knots_; ++k)
      for (Index r = 0; r < 4; ++r)
        for (Index c = 0; c < 4; ++c)
          entries.emplace_back(
              at(k + r), at(k + c),
              penalty * kDifference[static_cast<std::size_t>(r)] * kDifference[static_cast<std::size_t>(c)]);
    Eigen::SparseMatrix<double> matrix(size, size);
    matrix.setFromTriplets(entries.begin(), entries.end());
    const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> solver(matrix);
    if (solver.info() != Eigen::Success) throw CaseError("the points do not settle a line");
    coefficients_ = solver.solve(right);
  }

  [[nodiscard]] double operator()(double parameter, int derivative = 0) const {
    const auto [knot, x] = locate(parameter);
    const auto b = basis(x, derivative);
    double sum = 0;
    for (Index r = 0; r < 4; ++r) sum += b[static_cast<std::size_t>(r)] * coefficients_[at(knot + r)];
    return sum / std::pow(step_, derivative);
  }

 private:
  [[nodiscard]] std::pair<Index, double> locate(double parameter) const {
    const double x = parameter / step_;
    const double whole = closed_ ? std::floor(x) : std::clamp(std::floor(x), 0.0, static_cast<double>(knots_ - 1));
    return {static_cast<Index>(whole), x - whole};
  }
  [[nodiscard]] Index at(Index k) const { return closed_ ? (k % knots_ + knots_) % knots_ : k; }

  bool closed_;
  Index knots_;  // pieces
  double step_;
  Vector coefficients_;
};

// Without points that stand where the one before stands and, of a closed line, a last one that is the first again.
LinePoints tidy(const LinePoints& given, bool closed, const std::string& name) {
  constexpr double kSamePlace = 0.01;  // [m]
  LinePoints p;
  const auto apart = [&](std::size_t i, double x, double y) {
    return std::hypot(given.x[i] - x, given.y[i] - y) > kSamePlace;
  };
  for (std::size_t i = 0; i < given.x.size(); ++i) {
    if (!p.x.empty() && !apart(i, p.x.back(), p.y.back())) continue;
    p.x.push_back(given.x[i]);
    p.y.push_back(given.y[i]);
    if (!given.height.empty()) p.height.push_back(given.height[i]);
  }
  while (closed && p.x.size() > 1 && std::hypot(p.x.back() - p.x.front(), p.y.back() - p.y.front()) <= kSamePlace) {
    p.x.pop_back();
    p.y.pop_back();
    if (!p.height.empty()) p.height.pop_back();
  }
  if (p.x.size() < kFewestPoints)
    throw CaseError(
        fmt::format("track '{}': found {} different points, expected {} or more", name, p.x.size(), kFewestPoints));
  return p;
}

// Length along the points up to each of them and, on a closed line, back to the first.
std::vector<double> chords(const LinePoints& p, bool closed) {
  std::vector<double> out{0};
  for (std::size_t i = 1; i < p.x.size() + (closed ? 1 : 0); ++i) {
    const std::size_t k = i % p.x.size();
    out.push_back(out.back() + std::hypot(p.x[k] - p.x[i - 1], p.y[k] - p.y[i - 1]));
  }
  return out;
}

// A stray fix is two jumps of half the length each.
void check_steps(const std::vector<double>& along, const std::string& name) {
  constexpr double kJump = 0.4;  // of the length, more than any straight of a lap
  for (std::size_t i = 1; i < along.size(); ++i)
    if (along[i] - along[i - 1] > kJump * along.back())
      throw CaseError(
          fmt::format("track '{}': points {} and {} lie {:.0f} m apart, on a line of {:.0f} m; take stray points out",
                      name, i, i + 1, along[i] - along[i - 1], along.back()));
}

void check_length(double length, const std::string& name) {
  if (!(length <= kLongestTrack))
    throw CaseError(fmt::format(
        "track '{}': the line is {:.0f} km long, expected no more than {:.0f} km; check the units and stray "
        "points",
        name, length / 1e3, kLongestTrack / 1e3));
}

// Length along the spline up to each parameter, by the midpoint rule.
double arc(const Spline& x, const Spline& y, double from, double to) {
  const int parts = std::max(1, static_cast<int>(std::ceil(to - from)));
  double sum = 0;
  for (int i = 0; i < parts; ++i) {
    const double u = from + (to - from) * (i + 0.5) / parts;
    sum += std::hypot(x(u, 1), y(u, 1)) * (to - from) / parts;
  }
  return sum;
}

}  // namespace

SmoothLine smooth_line(const LinePoints& given, double smoothing, std::string name, bool closed) {
  const LinePoints p = tidy(given, closed, name);
  std::vector<double> along = chords(p, closed);
  const double gap = closed ? along.back() - along[along.size() - 2] : 0;
  if (gap > kWidestGap * along.back())
    throw CaseError(fmt::format(
        "track '{}': the points do not close: the last one lies {:.0f} m from the first, on a line of {:.0f} m; give "
        "the whole lap, or say `closed: off` for a drive from one place to another",
        name, gap, along.back()));
  check_steps(along, name);
  check_length(along.back(), name);
  if (along.back() < 2 * smoothing)
    throw CaseError(fmt::format("track '{}': the line is {:.0f} m long, which is too short for a smoothing of {:.0f} m",
                                name, along.back(), smoothing));
  const auto fit = [&](const std::vector<double>& value, double over) {
    const auto end = along.begin() + static_cast<std::ptrdiff_t>(value.size());
    return Spline({along.begin(), end}, value, along.back(), over, closed);
  };
  Spline x = fit(p.x, smoothing), y = fit(p.y, smoothing);
  // Jitter makes the way from point to point longer than the track: once more, over the length along the line found.
  std::vector<double> better{0};
  for (std::size_t i = 1; i < along.size(); ++i) better.push_back(better.back() + arc(x, y, along[i - 1], along[i]));
  along = std::move(better);
  check_length(along.back(), name);  // a line fitted to stray points swings far out
  x = fit(p.x, smoothing);
  y = fit(p.y, smoothing);

  SmoothLine out;
  out.track.name = std::move(name);
  out.track.closed = closed;
  out.gap = gap;
  double squares = 0;
  for (std::size_t i = 0; i < p.x.size(); ++i)
    squares += std::pow(x(along[i]) - p.x[i], 2) + std::pow(y(along[i]) - p.y[i], 2);
  out.residual = std::sqrt(squares / static_cast<double>(p.x.size()));
  const double length = along.back();
  const int parts = static_cast<int>(std::ceil(length / kLineStep));
  for (int i = 0; i < parts; ++i) {
    const double from = length * i / parts, to = length * (i + 1) / parts, u = (from + to) / 2;
    const double dx = x(u, 1), dy = y(u, 1), speed = std::hypot(dx, dy);
    out.track.stretches.push_back(
        {.length = arc(x, y, from, to), .curvature = (dx * y(u, 2) - dy * x(u, 2)) / (speed * speed * speed)});
  }
  if (p.height.empty()) return out;
  const Spline z = fit(p.height, std::min(kHeightSmoothing * smoothing, length / 2));
  for (int i = 0; i < parts; ++i) {
    Stretch& s = out.track.stretches[static_cast<std::size_t>(i)];
    s.grade = (z(length * (i + 1) / parts) - z(length * i / parts)) / s.length;
  }
  return out;
}

}  // namespace hatring::session
