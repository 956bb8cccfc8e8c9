// SPDX-License-Identifier: MIT
#include "sim/session/trace_fit.hpp"

#include <Eigen/Sparse>
#include <algorithm>
#include <cmath>

#include "sim/session/cubic.hpp"

namespace hatring::session {
namespace {

using Index = Eigen::Index;
using Vector4 = Eigen::Vector4d;

// Weight of the integral of v''^2 against the squared residuals: too small to be seen in the fit, it only settles what
// the samples leave open (gaps, a piece with fewer samples than unknowns).
constexpr double kBending = 1e-6;
constexpr std::size_t kFewestToSplit = 6;  // samples of a piece below which halving it would only follow jitter
constexpr int kRounds = 14;
constexpr double kGradeError = 0.01;  // departure of the grade from a line over a piece that is worth a knot: 0.1 m/s2

struct Knot {
  double time = 0;
  bool broken = false;
};

// Hermite basis at x = s/h: both values, both slopes.
Vector4 basis(double x, double h) {
  const double y = 1 - x;
  return {y * y * (1 + 2 * x), h * x * y * y, x * x * (3 - 2 * x), -h * x * x * y};
}

Eigen::Matrix4d bending(double h) {
  Eigen::Matrix4d m;
  m << 12, 6 * h, -12, 6 * h, 6 * h, 4 * h * h, -6 * h, 2 * h * h, -12, -6 * h, 12, -6 * h, 6 * h, 2 * h * h, -6 * h,
      4 * h * h;
  return m / (h * h * h);
}

double median(std::vector<double>& v) {
  const auto middle = v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2);
  std::nth_element(v.begin(), middle, v.end());
  return *middle;
}

class Fit {
 public:
  Fit(const Samples& s, const FitPlan& plan) : s_(s), plan_(plan) {
    std::vector<double> fixed = {0};
    for (const double t : plan.breaks) fixed.push_back(t);
    fixed.push_back(s.time.back());
    for (std::size_t i = 0; i + 1 < fixed.size(); ++i) {
      const int parts = std::max(1, static_cast<int>(std::ceil((fixed[i + 1] - fixed[i]) / plan.longest)));
      for (int k = 0; k < parts; ++k)
        knots_.push_back({fixed[i] + (fixed[i + 1] - fixed[i]) * k / parts, k == 0 && i > 0});
    }
    knots_.push_back({s.time.back(), false});
  }

  std::vector<Piece> run() {
    for (int round = 0;; ++round) {
      locate();
      solve();
      if (round == kRounds || !refine()) break;
    }
    return pieces();
  }

 private:
  // first_[p] .. first_[p + 1]: the samples of piece p.
  void locate() {
    first_.assign(1, 0);
    for (std::size_t p = 1; p + 1 < knots_.size(); ++p) {
      const auto it = std::lower_bound(s_.time.begin(), s_.time.end(), knots_[p].time);
      first_.push_back(static_cast<std::size_t>(it - s_.time.begin()));
    }
    first_.push_back(s_.time.size());
  }

  void solve() {
    const std::size_t pieces = knots_.size() - 1;
    unknown_.clear();
    Index count = 2;  // value and slope of the first knot; every later knot adds its own
    for (std::size_t p = 0; p < pieces; ++p) {
      const Index slope = p == 0 ? 1 : knots_[p].broken ? count++ : unknown_.back()[3];
      const Index value = p == 0 ? 0 : unknown_.back()[2];
      unknown_.push_back({value, slope, count, count + 1});
      count += 2;
    }
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(16 * pieces);
    Eigen::VectorXd right = Eigen::VectorXd::Zero(count);
    for (std::size_t p = 0; p < pieces; ++p) {
      const double h = knots_[p + 1].time - knots_[p].time;
      Eigen::Matrix4d m = kBending * bending(h);
      Vector4 r = Vector4::Zero();
      for (std::size_t i = first_[p]; i < first_[p + 1]; ++i) {
        const Vector4 b = basis((s_.time[i] - knots_[p].time) / h, h);
        m.noalias() += b * b.transpose();
        r += b * s_.speed[i];
      }
      for (std::size_t a = 0; a < 4; ++a) {
        right[unknown_[p][a]] += r[static_cast<Index>(a)];
        for (std::size_t b = 0; b < 4; ++b)
          if (unknown_[p][a] >= unknown_[p][b])
            entries.emplace_back(unknown_[p][a], unknown_[p][b], m(static_cast<Index>(a), static_cast<Index>(b)));
      }
    }
    Eigen::SparseMatrix<double> normal(count, count);
    normal.setFromTriplets(entries.begin(), entries.end());
    using Solver = Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower, Eigen::NaturalOrdering<int>>;
    solution_ = Solver(normal).solve(right);  // numbered from front to back, so the matrix is banded as it stands
  }

  Vector4 ends(std::size_t p) const {
    return {solution_[unknown_[p][0]], solution_[unknown_[p][1]], solution_[unknown_[p][2]], solution_[unknown_[p][3]]};
  }

  bool close(double begin, double end) const {
    return std::any_of(plan_.close.begin(), plan_.close.end(),
                       [&](const Interval& i) { return i.begin < end - 1e-9 && i.end > begin + 1e-9; });
  }

  bool followed(std::size_t p) const {
    const double t0 = knots_[p].time, h = knots_[p + 1].time - t0;
    const bool braking = close(t0, t0 + h);
    const double sigma = std::max(plan_.noise, braking ? kCloseFit : kLooseFit);
    const Vector4 e = ends(p);
    const double n = static_cast<double>(first_[p + 1] - first_[p]);
    double sum = 0, grade_error = 0;
    for (std::size_t i = first_[p]; i < first_[p + 1]; ++i) {
      const double x = (s_.time[i] - t0) / h, r = s_.speed[i] - basis(x, h).dot(e);
      sum += r * r;
      if (braking && !s_.grade.empty()) {
        const double g0 = s_.grade[first_[p]], g1 = s_.grade[first_[p + 1] - 1];
        grade_error = std::max(grade_error, std::abs(s_.grade[i] - g0 - (g1 - g0) * x));
      }
    }
    // The sum of n squared residuals of pure noise has mean n sigma^2 and standard deviation sqrt(2 n) sigma^2.
    return sum <= sigma * sigma * (1.2 * n + 2.5 * std::sqrt(2 * n)) && grade_error <= kGradeError;
  }

  // Halves every piece that does not follow its samples; the knot goes between its two middle samples.
  bool refine() {
    std::vector<Knot> finer;
    for (std::size_t p = 0; p + 1 < knots_.size(); ++p) {
      finer.push_back(knots_[p]);
      const std::size_t n = first_[p + 1] - first_[p], middle = first_[p] + n / 2;
      if (n >= kFewestToSplit && !followed(p)) finer.push_back({(s_.time[middle - 1] + s_.time[middle]) / 2, false});
    }
    finer.push_back(knots_.back());
    const bool changed = finer.size() > knots_.size();
    knots_ = std::move(finer);
    return changed;
  }

  // A cubic stays between two bounds when its four Bernstein coefficients do, which bounds its end slopes. The upper
  // bound is out of reach of a sound trace; it keeps rubbish between samples from becoming heat.
  std::vector<Piece> pieces() {
    const double top = 1.05 * *std::max_element(s_.speed.begin(), s_.speed.end()) + 1;
    for (const std::size_t i : {0U, 2U})  // the values first, as they bound the slopes
      for (const auto& u : unknown_) solution_[u[i]] = std::clamp(solution_[u[i]], 0.0, top);
    for (std::size_t p = 0; p + 1 < knots_.size(); ++p) {
      const double reach = 3 / (knots_[p + 1].time - knots_[p].time);
      const auto& [v0, slope0, v1, slope1] = unknown_[p];
      solution_[slope0] = std::clamp(solution_[slope0], -reach * solution_[v0], reach * (top - solution_[v0]));
      solution_[slope1] = std::clamp(solution_[slope1], -reach * (top - solution_[v1]), reach * solution_[v1]);
    }
    std::vector<Piece> out;
    for (std::size_t p = 0; p + 1 < knots_.size(); ++p) {
      const Vector4 e = ends(p);
      out.push_back(hermite(knots_[p].time, knots_[p + 1].time - knots_[p].time, {e[0], e[1]}, {e[2], e[3]}));
    }
    return out;
  }

  const Samples& s_;
  const FitPlan& plan_;
  std::vector<Knot> knots_;
  std::vector<std::size_t> first_;
  std::vector<std::array<Index, 4>> unknown_;  // value, slope, value, slope of each piece
  Eigen::VectorXd solution_;
};

// Scatter of the samples about the polynomial through `reach` neighbours on either side.
double scatter(const Samples& s, std::size_t reach) {
  std::vector<double> left;
  for (std::size_t i = reach; i + reach < s.time.size(); ++i) {
    double predicted = 0, variance = 1;
    for (std::size_t j = i - reach; j <= i + reach; ++j) {
      if (j == i) continue;
      double weight = 1;
      for (std::size_t k = i - reach; k <= i + reach; ++k)
        if (k != i && k != j) weight *= (s.time[i] - s.time[k]) / (s.time[j] - s.time[k]);
      predicted += weight * s.speed[j];
      variance += weight * weight;
    }
    left.push_back(std::abs(s.speed[i] - predicted) / std::sqrt(variance));
  }
  return left.empty() ? 0 : 1.4826 * median(left);  // normal noise: standard deviation over median absolute deviation
}

}  // namespace

double median_interval(const Samples& s) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < s.time.size(); ++i) steps.push_back(s.time[i] - s.time[i - 1]);
  return median(steps);
}

double noise_level(const Samples& s) {
  if (median_interval(s) > 0.25) return 0.1;
  return std::clamp(std::min(scatter(s, 1), scatter(s, 2)), 0.01, 0.25);
}

std::vector<Piece> fit_trace(const Samples& s, const FitPlan& plan) {
  return Fit(s, plan).run();
}

std::vector<Piece> join_samples(const Samples& s) {
  std::vector<Piece> out;
  for (std::size_t i = 0; i + 1 < s.time.size(); ++i) {
    Piece p;
    p.begin = s.time[i];
    p.end = s.time[i + 1];
    p.c[0] = s.speed[i];
    p.c[1] = (s.speed[i + 1] - s.speed[i]) / (p.end - p.begin);
    out.push_back(p);
  }
  return out;
}

}  // namespace hatring::session
