// SPDX-License-Identifier: MIT
//! \file
//! The few shapes that a drawing of boxes and lines needs, as SVG text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hatring::tools {

struct Point {
  double x = 0, y = 0;
};

struct Box {
  double x = 0, y = 0, w = 0, h = 0;
  [[nodiscard]] Point middle() const { return {x + w / 2, y + h / 2}; }
  [[nodiscard]] double right() const { return x + w; }
  [[nodiscard]] double bottom() const { return y + h; }
  //! Smallest box around both; an empty one counts for nothing.
  void include(const Box& other);
};

class Svg {
 public:
  enum class Dash { none, dashed, dotted };
  struct Line {
    double width = 1;
    Dash dash = Dash::none;
    bool arrow = false;  //!< at the last point
    std::string colour = "#333";
  };
  struct Fill {
    std::string colour = "none";
    double border = 1, radius = 4;
    Dash dash = Dash::none;
  };
  struct Text {
    double size = 11;
    const char* anchor = "middle";  //!< start, middle or end
    bool upright = false;           //!< turned to read from bottom to top
    bool bold = false;
  };

  //! \param hint of a line or box is what a pointer resting on it shows
  void line(const std::vector<Point>& points, const Line& style, std::string_view hint = {});
  void box(const Box& box, const Fill& style, std::string_view hint = {});
  void text(Point at, std::string_view words, const Text& style);

  //! The whole document. \param title for readers of the file and of the screen
  [[nodiscard]] std::string document(double width, double height, std::string_view title) const;

 private:
  std::string body_;
};

//! Text as XML wants it; control characters become blanks.
[[nodiscard]] std::string xml_escaped(std::string_view text);

}  // namespace hatring::tools
