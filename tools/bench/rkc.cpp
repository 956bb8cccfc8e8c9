// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tools/bench/wheel_run.hpp"

namespace hatring::bench {
namespace {

using State = Eigen::VectorXd;

constexpr int kMostStages = 100;
constexpr double kMargin = 1.2;  // on the spectral radius

// Coefficients of the formulas with s stages; stage j uses those at j.
struct Formula {
  explicit Formula(int stages) : s(stages) {
    const double w0 = 1 + 2.0 / 13 / (s * s);
    // Chebyshev polynomials and their derivatives at w0.
    std::vector<double> t{1, w0}, d{0, 1}, dd{0, 0};
    for (int j = 2; j <= s; ++j) {
      const auto i = static_cast<std::size_t>(j);
      t.push_back(2 * w0 * t[i - 1] - t[i - 2]);
      d.push_back(2 * t[i - 1] + 2 * w0 * d[i - 1] - d[i - 2]);
      dd.push_back(4 * d[i - 1] + 2 * w0 * dd[i - 1] - dd[i - 2]);
    }
    const double w1 = d.back() / dd.back();
    std::vector<double> b;
    for (std::size_t j = 0; j < t.size(); ++j)
      b.push_back(dd[std::max<std::size_t>(j, 2)] / std::pow(d[std::max<std::size_t>(j, 2)], 2));
    for (std::size_t j = 0; j < t.size(); ++j) {
      const double before = j > 0 ? b[j - 1] : 1, two_before = j > 1 ? b[j - 2] : 1;
      mu.push_back(2 * b[j] * w0 / before);
      nu.push_back(-b[j] / two_before);
      rate.push_back(j == 1 ? b[1] * w1 : 2 * b[j] * w1 / before);
      first.push_back(j > 0 ? -(1 - b[j - 1] * t[j - 1]) * rate[j] : 0);
      time.push_back(j > 1 ? w1 * dd[j] / d[j] : 0);
    }
    time[1] = time[2] / d[2];
  }
  int s;
  std::vector<double> mu, nu, rate, first, time;
};

class Rkc {
 public:
  Rkc(const WheelRun& run, double absolute, double radius)
      : run_(run), wheel_(run.lean()), tolerance_(absolute * run.per_kelvin()), radius_(kMargin * radius) {
    formulas_.reserve(kMostStages + 1);
    for (int s = 0; s <= kMostStages; ++s) formulas_.emplace_back(std::max(s, 2));
    y_ = wheel_.initial_state();
    for (State* v : {&f_, &next_, &next_f_, &before_, &last_, &g_, &at_}) v->setZero(y_.size());
  }

  Work solve(Tape& tape) {
    const solve::WheelSystem system = run_.system();
    auto output = run_.outputs().begin();
    double first = 0.01;  // step of a stretch [s]
    for (std::size_t i = 0; i + 1 < run_.restarts().size(); ++i) {
      const double begin = run_.restarts()[i], end = run_.restarts()[i + 1];
      wheel_.set_window(begin, end);
      for (; output != run_.outputs().end() && *output <= begin; ++output) tape.put(system, y_);
      rates(begin, y_, f_);
      double t = begin, h = first;
      for (bool fresh = true; t < end;) {
        const double left = end - t;
        h = h >= left ? left : std::min(h, left / 2);
        const double error = step(t, h);
        const double factor = 0.8 * std::pow(std::max(error, 1e-10), -1.0 / 3);
        ++work_.steps;
        if (!(error <= 1)) {
          h *= std::clamp(factor, 0.1, 0.8);
          continue;
        }
        for (; output != run_.outputs().end() && *output < std::min(t + h, end); ++output) {
          between((*output - t) / h, h);
          tape.put(system, at_);
        }
        t = h >= left ? end : t + h;
        y_.swap(next_);
        f_.swap(next_f_);
        h *= std::clamp(factor, 0.1, 5.0);
        if (fresh) first = h;
        fresh = false;
      }
    }
    for (; output != run_.outputs().end(); ++output) tape.put(system, y_);
    return work_;
  }

 private:
  void rates(double t, const State& x, State& f) {
    wheel_.rates(t, x.data(), f.data());
    ++work_.rates;
  }

  // From y_ and its slope f_ to next_ and next_f_. Shortens h to what the stages can bear. \returns error over
  // tolerance
  double step(double t, double& h) {
    h = std::min(h, 0.6 * kMostStages * kMostStages / radius_);
    const int s = std::max(2, 1 + static_cast<int>(std::sqrt(1 + 1.54 * h * radius_)));
    const Formula& c = formulas_[static_cast<std::size_t>(s)];
    before_ = y_;
    last_ = y_ + c.rate[1] * h * f_;
    for (std::size_t j = 2; j <= static_cast<std::size_t>(s); ++j) {
      rates(t + c.time[j - 1] * h, last_, g_);
      next_ =
          (1 - c.mu[j] - c.nu[j]) * y_ + c.mu[j] * last_ + c.nu[j] * before_ + c.rate[j] * h * g_ + c.first[j] * h * f_;
      before_.swap(last_);
      last_.swap(next_);
    }
    next_.swap(last_);
    rates(t + h, next_, next_f_);
    return (0.8 * (y_ - next_) + 0.4 * h * (f_ + next_f_)).cwiseQuotient(tolerance_).lpNorm<Eigen::Infinity>();
  }

  // The cubic through both ends of the step and their slopes.
  void between(double s, double h) {
    const double s2 = s * s, s3 = s2 * s;
    at_ = (1 - 3 * s2 + 2 * s3) * y_ + (3 * s2 - 2 * s3) * next_ + (s - 2 * s2 + s3) * h * f_ + (s3 - s2) * h * next_f_;
  }

  const WheelRun& run_;
  LeanWheel wheel_;
  State tolerance_;
  double radius_;  // [1/s]
  std::vector<Formula> formulas_;
  State y_, f_, next_, next_f_, before_, last_, g_, at_;
  Work work_;
};

}  // namespace

Method rkc(const WheelRun& run, double absolute) {
  return {"RKC", fmt::format("{} K", absolute),
          [absolute, radius = run.fastest_rate()](const WheelRun& on, Tape& tape) {
            return Rkc(on, absolute, radius).solve(tape);
          }};
}

}  // namespace hatring::bench
