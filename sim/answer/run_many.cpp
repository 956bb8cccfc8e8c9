// SPDX-License-Identifier: MIT
#include "sim/answer/run_many.hpp"

#include <memory>
#include <new>
#include <optional>
#include <utility>

#include "sim/answer/running.hpp"

namespace hatring::answer {
namespace {

class ManyRuns {
 public:
  using Begin = std::function<std::unique_ptr<Running>(std::size_t i)>;

  ManyRuns(std::size_t count, const Begin& begin, const TakeRun& take, const RunOptions& options)
      : begin_(begin), take_(take), options_(options), runs_(count), faults_(count) {}

  std::vector<std::exception_ptr> go() {
    for (std::size_t i = 0; i < runs_.size(); ++i) attempt(i, [&] { runs_[i] = begin_(i); });
    for (std::size_t i = 0; i < runs_.size(); ++i)
      if (runs_[i]) in_lanes(alike_to(i), [this](const std::vector<std::size_t>& beside) { solve(beside); });
    return std::move(faults_);
  }

 private:
  // Those that are still to be solved.
  [[nodiscard]] std::vector<std::size_t> alike_to(std::size_t first) const {
    std::vector<std::size_t> out;
    for (std::size_t i = first; i < runs_.size(); ++i)
      if (runs_[i] && (i == first || runs_[first]->alike(*runs_[i]))) out.push_back(i);
    return out;
  }

  // Hands over as many at a time as go side by side.
  template <class F>
  void in_lanes(const std::vector<std::size_t>& all, const F& f) const {
    for (std::size_t first = 0; first < all.size();) {
      const std::size_t count = side_by_side(all.size() - first, options_);
      const auto begin = all.begin() + static_cast<std::ptrdiff_t>(first);
      f(std::vector<std::size_t>(begin, begin + static_cast<std::ptrdiff_t>(count)));
      first += count;
    }
  }

  // \returns false where it fails, which is noted as the fault of a case
  template <class F>
  bool attempt(std::size_t i, const F& f) {
    try {
      f();
      return true;
    } catch (const std::bad_alloc&) {
      throw;
    } catch (const std::exception&) {
      faults_[i] = std::current_exception();
      return false;
    }
  }

  void solve(const std::vector<std::size_t>& beside) {
    if (!attempt(beside.front(), [&] { settle(beside); })) {
      if (beside.size() == 1) return runs_[beside.front()].reset();
      // One of them was too much for all.
      faults_[beside.front()] = nullptr;
      for (const std::size_t i : beside) runs_[i] = begin_(i);
      for (const std::size_t i : beside) solve({i});
      return;
    }
    std::vector<std::optional<Run>> done(beside.size());
    Tasks finish;
    for (std::size_t k = 0; k < beside.size(); ++k)
      finish.emplace_back([&, k] { attempt(beside[k], [&] { done[k] = runs_[beside[k]]->finish(); }); });
    options_.together(finish);
    for (std::size_t k = 0; k < beside.size(); ++k) {
      runs_[beside[k]].reset();
      if (done[k]) take_(beside[k], std::move(*done[k]));
    }
  }

  // Records until all shares have settled; those that have drop out.
  void settle(std::vector<std::size_t> left) {
    while (!left.empty()) {
      std::vector<std::size_t> unsettled;
      in_lanes(left, [&](const std::vector<std::size_t>& beside) {
        std::vector<Running*> runs;
        runs.reserve(beside.size());
        for (const std::size_t i : beside) runs.push_back(runs_[i].get());
        record(runs, options_);
        for (const std::size_t i : beside)
          if (runs_[i]->again()) unsettled.push_back(i);
      });
      left = std::move(unsettled);
    }
  }

  const Begin& begin_;
  const TakeRun& take_;
  const RunOptions& options_;
  std::vector<std::unique_ptr<Running>> runs_;  // null once it is solved or has failed
  std::vector<std::exception_ptr> faults_;
};

}  // namespace

std::vector<std::exception_ptr> run_many(std::span<const session::Case> cases, const TakeRun& take,
                                         const RunOptions& options) {
  const ManyRuns::Begin begin = [&](std::size_t i) { return std::make_unique<Running>(cases[i], options); };
  return ManyRuns(cases.size(), begin, take, options).go();
}

void run_in_airs(const session::Case& c, std::span<const double> factors, const TakeRun& take,
                 const RunOptions& options) {
  std::vector<session::Case> cases(factors.size(), c);
  for (std::size_t i = 0; i < cases.size(); ++i)
    for (session::Brake* brake : {&cases[i].brakes.front, &cases[i].brakes.rear}) brake->cooling.scale *= factors[i];
  const Running first(cases.front(), options);
  const ManyRuns::Begin begin = [&](std::size_t i) { return std::make_unique<Running>(cases[i], first, factors[i]); };
  for (const std::exception_ptr& fault : ManyRuns(cases.size(), begin, take, options).go())
    if (fault) std::rethrow_exception(fault);
}

}  // namespace hatring::answer
