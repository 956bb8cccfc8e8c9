// SPDX-License-Identifier: MIT
// Trade-off of the plans: minutes to the right, what is left of the tightest limit upward.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tools/cli/cooled.hpp"
#include "tools/cli/svg.hpp"

namespace hatring::tools {
namespace {

constexpr double kWidth = 760, kHeight = 460, kLeft = 70, kRight = 24, kTop = 44, kBottom = 56;

struct Frame {
  double last_minute, low, high;
  [[nodiscard]] Point at(double minutes, double left) const {
    return {kLeft + minutes / last_minute * (kWidth - kLeft - kRight),
            kTop + (high - left) / (high - low) * (kHeight - kTop - kBottom)};
  }
};

// A step of 1, 2 or 5 times a power of ten that gives about `parts` parts.
double step_for(double range, int parts) {
  const double raw = range / parts, ten = std::pow(10, std::floor(std::log10(raw)));
  for (const double s : {1.0, 2.0, 5.0})
    if (raw <= s * ten) return s * ten;
  return 10 * ten;
}

}  // namespace

std::string cooldown_svg(const Cooled& cooled) {
  const answer::Cooldown& x = cooled.search;
  Frame f{1, 0, 0};
  for (const answer::Outcome& o : x.plans) {
    f.last_minute = std::max(f.last_minute, 1.05 * o.cost / 60);
    f.low = std::min(f.low, 100 * o.left - 5);
    f.high = std::max(f.high, 100 * o.left + 5);
  }
  Svg svg;
  const double y_step = step_for(f.high - f.low, 6), x_step = step_for(f.last_minute, 8);
  for (double v = std::ceil(f.low / y_step) * y_step; v <= f.high; v += y_step) {
    const bool limit = std::abs(v) < 1e-9;
    svg.line({f.at(0, v), f.at(f.last_minute, v)}, {.width = limit ? 2.0 : 0.5, .colour = limit ? "#000" : "#999"});
    svg.text({kLeft - 8, f.at(0, v).y + 4}, fmt::format("{:.0f} %", v), {.anchor = "end"});
  }
  for (double m = 0; m <= f.last_minute; m += x_step)
    svg.text({f.at(m, f.low).x, kHeight - kBottom + 18}, fmt::format("{:g}", m), {});
  svg.text({kWidth / 2, kHeight - 12}, "minutes from the end of the last hot lap until the car stands", {.size = 12});
  svg.text({16, kHeight / 2}, "left of the tightest limit", {.size = 12, .upright = true});
  svg.text({kWidth - kRight, f.at(0, 0).y - 6}, "limit", {.anchor = "end"});

  const auto mark = [&](const answer::Outcome& o, double size, const char* fill, double border) {
    const Point p = f.at(o.cost / 60, 100 * o.left);
    svg.box({p.x - size, p.y - size, 2 * size, 2 * size},
            {.colour = fill, .border = border, .radius = o.unbeaten ? 0 : size},
            fmt::format("{}: {:.1f} min, {:.0f} % left", name_of(o.plan), o.cost / 60, 100 * o.left));
  };
  for (const answer::Outcome& o : x.plans)
    if (!o.unbeaten) mark(o, 3, "#fff", 1);
  std::vector<Point> front;
  for (const std::size_t i : x.unbeaten) {
    const Point p = f.at(x.plans[i].cost / 60, 100 * x.plans[i].left);
    if (!front.empty()) front.push_back({p.x, front.back().y});
    front.push_back(p);
  }
  if (front.size() > 1) svg.line(front, {.width = 1.5, .dash = Svg::Dash::dashed});
  for (const std::size_t i : x.unbeaten) mark(x.plans[i], 4, "#333", 1);
  const auto label = [&](std::size_t i, const std::string& words, double dy) {
    const Point p = f.at(x.plans[i].cost / 60, 100 * x.plans[i].left);
    const bool late = p.x > kWidth / 2;
    mark(x.plans[i], 7, "none", 2);
    svg.text({p.x + (late ? -12 : 12), p.y + dy}, words, {.size = 12, .anchor = late ? "end" : "start", .bold = true});
  };
  if (x.chosen != 0) label(0, "park at once", 18);
  label(x.chosen, (x.holds ? "chosen: " : "least bad: ") + name_of(x.best().plan), -10);
  svg.text({kLeft, 22}, "Squares: nothing beats them. Circles: other plans. Below the thick line a limit is passed.",
           {.size = 12, .anchor = "start"});
  return svg.document(kWidth, kHeight, "Cool-down plans: cost against what is left of the tightest limit");
}

}  // namespace hatring::tools
