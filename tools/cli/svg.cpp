// SPDX-License-Identifier: MIT
#include "tools/cli/svg.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace hatring::tools {
namespace {

std::string dashes(Svg::Dash dash, double width) {
  if (dash == Svg::Dash::dashed) return R"( stroke-dasharray="7 4")";
  if (dash == Svg::Dash::dotted)
    return fmt::format(R"( stroke-dasharray="0.1 {:.1f}" stroke-linecap="round")", 3 + 1.2 * width);
  return {};
}

std::string hint_of(std::string_view hint) {
  return hint.empty() ? std::string() : fmt::format("<title>{}</title>", xml_escaped(hint));
}

}  // namespace

void Box::include(const Box& other) {
  if (other.w <= 0) return;
  if (w <= 0) {
    *this = other;
    return;
  }
  const double far = std::max(right(), other.right()), low = std::max(bottom(), other.bottom());
  x = std::min(x, other.x);
  y = std::min(y, other.y);
  w = far - x;
  h = low - y;
}

void Svg::line(const std::vector<Point>& points, const Line& style, std::string_view hint) {
  std::string path;
  for (const Point& p : points) path += fmt::format("{}{:.1f},{:.1f}", path.empty() ? "" : " ", p.x, p.y);
  body_ += fmt::format(R"(<polyline points="{}" fill="none" stroke="{}" stroke-width="{:.1f}"{}{}>{}</polyline>)", path,
                       style.colour, style.width, dashes(style.dash, style.width),
                       style.arrow ? R"-( marker-end="url(#arrow)")-" : "", hint_of(hint)) +
           "\n";
}

void Svg::box(const Box& b, const Fill& style, std::string_view hint) {
  body_ +=
      fmt::format(R"(<rect x="{:.1f}" y="{:.1f}" width="{:.1f}" height="{:.1f}" rx="{:.0f}" fill="{}" )"
                  R"(stroke="#222" stroke-width="{:.1f}"{}>{}</rect>)",
                  b.x, b.y, b.w, b.h, style.radius, style.colour, style.border, dashes(style.dash, 1), hint_of(hint)) +
      "\n";
}

void Svg::text(Point at, std::string_view words, const Text& style) {
  const std::string turn = style.upright ? fmt::format(R"-( transform="rotate(-90 {:.1f} {:.1f})")-", at.x, at.y) : "";
  // The white edge keeps words readable where they cross a line.
  body_ += fmt::format(R"(<text x="{:.1f}" y="{:.1f}" font-size="{:.1f}" text-anchor="{}"{}{}>{}</text>)", at.x, at.y,
                       style.size, style.anchor, style.bold ? R"( font-weight="bold")" : "", turn, xml_escaped(words)) +
           "\n";
}

std::string Svg::document(double width, double height, std::string_view title) const {
  return fmt::format(R"(<svg xmlns="http://www.w3.org/2000/svg" width="{0:.0f}" height="{1:.0f}" )"
                     R"(viewBox="0 0 {0:.0f} {1:.0f}" )"
                     R"(role="img" font-family="sans-serif">
<title>{2}</title>
<style>text {{ fill: #111; paint-order: stroke; stroke: #fff; stroke-width: 2.5px; stroke-linejoin: round; }}</style>
<defs><marker id="arrow" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="9" markerHeight="9"
 markerUnits="userSpaceOnUse" orient="auto"><path d="M0,0 L10,5 L0,10 z" fill="#333"/></marker></defs>
<rect width="100%" height="100%" fill="#fff"/>
)",
                     width, height, xml_escaped(title)) +
         body_ + "</svg>\n";
}

std::string xml_escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return out;
}

}  // namespace hatring::tools
