// SPDX-License-Identifier: MIT
// Which set-up, and why, in one sentence. No numbers with units: the table has them, in the reader's own.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/answer/comparison.hpp"

namespace hatring::answer {
namespace {

class Choice {
 public:
  Choice(const Comparison& comparison, const std::vector<Contender>& xs) : comparison_(comparison), xs_(xs) {
    for (std::size_t i = 0; i < xs.size(); ++i) left_.push_back(i);
  }

  // Keeps those with the best verdict, then with the fewest limits passed; then those not clearly beaten in their
  // distance to the closest limit; then the cheapest, then the lightest to turn.
  void narrow() {
    keep_judged("verdict", kVerdict);
    keep_judged("passed", kPassed);
    keep_clear("closest", kClosest);
    if (left_.size() > 1 && all_priced()) keep_best("cost", kCost);
    if (left_.size() > 1) keep_lightest();
  }

  [[nodiscard]] std::size_t index() const { return left_.front(); }

  [[nodiscard]] std::string sentence() const {
    const std::size_t i = index();
    const auto over = [](const Contender& x) { return x.likely.level == Level::exceeded; };
    const bool all_over = std::all_of(xs_.begin(), xs_.end(), over);
    const std::string_view which = all_over ? "None stays within limits; the least bad is" : i == 0 ? "Keep" : "Take";
    const char* hair = over(xs_[i]) && !all_over ? " It is over a limit, by less than can be told." : "";
    return fmt::format("{} {}: {}{}.{}{}{}", which, name(i), reason(i), weight(i), hair, unjudged(i),
                       xs_[i].likely.soaked ? "" : kNotSoaked);
  }

 private:
  enum Reason { kOnly, kVerdict, kPassed, kClosest, kCost, kLightest };

  [[nodiscard]] const ComparisonRow& row(std::string_view key, std::string_view axle = "") const {
    return *std::find_if(comparison_.rows.begin(), comparison_.rows.end(),
                         [&](const ComparisonRow& r) { return r.measure->key == key && r.axle == axle; });
  }

  // A set-up without a value counts as worst.
  [[nodiscard]] static double cost_of(const Cell& cell) { return std::isnan(cell.value) ? INFINITY : cell.value; }

  void keep(std::vector<std::size_t> kept, Reason why) {
    if (kept.size() < left_.size()) {
      why_ = why;
      beaten_ = left_;
      tied_ = kept;
    }
    left_ = std::move(kept);
  }

  void keep_best(const char* key, Reason why) {
    const std::vector<Cell>& cells = row(key).cells;
    double best = INFINITY;
    for (const std::size_t i : left_) best = std::min(best, cost_of(cells[i]));
    std::vector<std::size_t> kept;
    for (const std::size_t i : left_)
      if (cost_of(cells[i]) <= best) kept.push_back(i);
    keep(std::move(kept), why);
  }

  // By verdicts: one with more trouble goes only when a limit that it passes, or nearly, is clearly better kept by one
  // of the best. A limit missed by a hair is no reason.
  void keep_judged(const char* key, Reason why) {
    const std::vector<Cell>& cells = row(key).cells;
    double best = INFINITY;
    for (const std::size_t i : left_) best = std::min(best, cost_of(cells[i]));
    std::vector<std::size_t> kept;
    for (const std::size_t i : left_) {
      const bool beaten = cost_of(cells[i]) > best && std::any_of(left_.begin(), left_.end(), [&](std::size_t k) {
                            return cost_of(cells[k]) <= best && keeps_clearly(k, i);
                          });
      if (!beaten) kept.push_back(i);
    }
    keep(std::move(kept), why);
  }

  // Whether some verdict on `from` is worse than its like on i, by a clear share of the way to the limit.
  [[nodiscard]] bool keeps_clearly(std::size_t i, std::size_t from) const {
    const double least = row("closest").measure->least;
    const auto shares = [](const Contender& x, const Verdict& v) {
      std::vector<double> out{share_left(v)};
      if (!x.ends) return out;
      for (const Answers* end : {&x.ends->little, &x.ends->much})
        if (const Verdict* there = counterpart(*end, v)) out.push_back(share_left(*there));
      return out;
    };
    for (const Verdict& v : xs_[from].likely.verdicts) {
      const Verdict* mine = counterpart(xs_[i].likely, v);
      if (v.level == Level::unknown || v.level == Level::within || (mine && mine->level >= v.level)) continue;
      // What has no counterpart is gone with its part: no joint to judge in a one-piece disc.
      if (!mine || clear_difference(shares(xs_[from], v), shares(xs_[i], *mine), least) > 0) return true;
    }
    return false;
  }

  void keep_clear(const char* key, Reason why) {
    const Measure& m = *row(key).measure;
    std::vector<std::size_t> kept;
    for (const std::size_t i : left_) {
      const bool beaten = std::any_of(left_.begin(), left_.end(), [&](std::size_t k) {
        return clear_difference(in_each_air(m, xs_[i], session::Axle::front),
                                in_each_air(m, xs_[k], session::Axle::front), m.least) < 0;
      });
      if (!beaten) kept.push_back(i);
    }
    // Everybody beaten by somebody cannot be: the one with the lowest likely value is not.
    keep(std::move(kept), why);
  }

  [[nodiscard]] bool all_priced() const {
    return std::all_of(left_.begin(), left_.end(), [&](std::size_t i) {
      return xs_[i].c.cost && xs_[i].c.cost->currency == xs_[left_.front()].c.cost->currency;
    });
  }

  [[nodiscard]] double rotating(std::size_t i) const {
    return row("rotating", "front").cells[i].value + row("rotating", "rear").cells[i].value;
  }

  void keep_lightest() {
    const double least = row("rotating", "front").measure->least;
    double best = INFINITY;
    for (const std::size_t i : left_) best = std::min(best, rotating(i));
    std::vector<std::size_t> kept;
    for (const std::size_t i : left_)
      if (rotating(i) < best + least) kept.push_back(i);
    keep(std::move(kept), kLightest);
  }

  [[nodiscard]] std::string name(std::size_t i) const {
    return i == 0 ? std::string("the set-up as it is") : xs_[i].c.name;
  }

  [[nodiscard]] std::string names(const std::vector<std::size_t>& of) const {
    std::string out;
    for (std::size_t k = 0; k < of.size(); ++k)
      out += fmt::format("{}{}", k == 0 ? "" : k + 1 == of.size() ? " and " : ", ", name(of[k]));
    return out;
  }

  // A one-piece disc has no joint to pass limits with, and its neck is not computed: that must not decide unsaid.
  [[nodiscard]] std::string unjudged(std::size_t i) const {
    const auto one_piece = [](const session::Case& c) {
      return c.brakes.front.rotor.joint.kind == session::JointKind::one_piece ||
             c.brakes.rear.rotor.joint.kind == session::JointKind::one_piece;
    };
    return one_piece(xs_[i].c) ? " But the neck of a disc of one piece is not judged, which flatters it." : "";
  }

  // Whom to hold the choice against: the first set-up, or the best of those that it beat when it is the first.
  [[nodiscard]] std::size_t rival(std::size_t i) const {
    if (i != 0) return 0;
    const std::vector<Cell>& cells = row("closest").cells;
    std::size_t best = xs_.size();
    for (const std::size_t k : beaten_)
      if (std::find(tied_.begin(), tied_.end(), k) == tied_.end() &&
          (best == xs_.size() || cost_of(cells[k]) < cost_of(cells[best])))
        best = k;
    return best;
  }

  [[nodiscard]] std::string way(std::size_t i) const {
    const Verdict* v = closest(xs_[i].likely);
    return v ? fmt::format("{:.0f} % of the way to the closest limit ({} {})", 100 * (1 - share_left(*v)), v->axle,
                           v->part)
             : std::string("nowhere near a limit");
  }

  // A limit that the rival passes and the choice keeps.
  [[nodiscard]] std::string saved(std::size_t i, std::size_t from) const {
    for (const Verdict& v : xs_[from].likely.verdicts) {
      if (v.level != Level::exceeded) continue;
      const Verdict* mine = counterpart(xs_[i].likely, v);
      if (!mine || mine->level != Level::exceeded) return fmt::format("; the {} {} is no longer over", v.axle, v.part);
    }
    return "";
  }

  [[nodiscard]] std::string reason(std::size_t i) const {
    const std::size_t other = xs_.size() > 1 ? rival(i) : xs_.size();
    switch (why_) {
      case kVerdict: {
        const char* done = xs_[i].likely.level == Level::within ? "within limits" : "over no limit";
        return tied_.size() == 1 ? fmt::format("it alone is {}", done)
                                 : fmt::format("{} are {}, with no clear difference between them", names(tied_), done);
      }
      case kPassed: {
        const auto& cells = row("passed").cells;
        return fmt::format("{:.0f} {} passed, against {:.0f} with {}{}", cells[i].value,
                           cells[i].value == 1 ? "limit is" : "limits are", cells[other].value, name(other),
                           saved(i, other));
      }
      case kClosest:
        return fmt::format("it goes {}; {} would go {}", way(i), name(other), way(other));
      case kCost:
        return fmt::format("no clear difference in heat between {}, and it costs least", names(beaten_));
      case kLightest:
        return fmt::format("no clear difference in heat between {}, and it turns the least mass", names(beaten_));
      case kOnly:
        break;
    }
    return xs_.size() > 1 ? fmt::format("no clear difference between {}", names(left_)) : "nothing to compare it with";
  }

  // What the choice does to the rotating mass, where that is not the reason already.
  [[nodiscard]] std::string weight(std::size_t i) const {
    if (i == 0 || why_ == kLightest || why_ == kOnly) return "";
    const double change = rotating(i) - rotating(0), least = row("rotating", "front").measure->least;
    if (std::abs(change) < least) return "";
    return change > 0 ? ", at the price of more rotating mass" : ", and with less rotating mass";
  }

  const Comparison& comparison_;
  const std::vector<Contender>& xs_;
  std::vector<std::size_t> left_, beaten_, tied_;
  Reason why_ = kOnly;
};

}  // namespace

void recommend(Comparison& comparison, const std::vector<Contender>& contenders) {
  Choice choice(comparison, contenders);
  choice.narrow();
  comparison.recommended = choice.index();
  comparison.sentence = choice.sentence();
}

}  // namespace hatring::answer
