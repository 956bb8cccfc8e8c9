// SPDX-License-Identifier: MIT
// Text to a table: separators, marks, headers and rows that are out of shape.
#include <catch2/catch.hpp>

#include "log_sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;

namespace {

LogTable table(const std::string& text) {
  return read_log_table(as_log_text(text, "log.csv"), "log.csv");
}

}  // namespace

TEST_CASE("separators and decimal marks are told from the rows") {
  for (const char separator : {',', ';', '\t'})
    for (const char decimal : {'.', ','}) {
      if (separator == decimal) continue;
      CAPTURE(separator, decimal);
      const std::string s(1, separator);
      const LogTable t = table(log_text("t" + s + "v" + s + "Brake", invented_drive(2, 1), [&](const Sample& x) {
        return number(x.time, 2, decimal) + s + number(x.speed, 2, decimal) + s + (x.brake ? "1" : "0");
      }));
      CHECK(t.columns.size() == 3);
      CHECK(t.faults.empty());
      CHECK(t.columns[0].values.at(3) == 1.5);
      CHECK(t.columns[1].title == "v");
      CHECK(t.guesses[0].choice == name_of_separator(separator));
      CHECK(t.guesses[1].choice == (decimal == ',' ? "comma" : "point"));
    }
}

TEST_CASE("quoted numbers with decimal commas are read from a file with comma separators") {
  const LogTable t = table("t,v\n\"0,5\",\"1,5\"\n\"0,6\",\"1,7\"\n\"0,7\",\"1,8\"\n");
  REQUIRE(t.columns.size() == 2);
  CHECK(t.columns[1].values == std::vector<double>{1.5, 1.7, 1.8});
}

TEST_CASE("byte order marks and line ends of any kind are understood") {
  const std::string plain = "t,v\n0,1\n1,2\n2,3\n";
  std::string crlf = plain, cr = plain, wide = "\xff\xfe";
  for (std::size_t at = 0; (at = crlf.find('\n', at)) != std::string::npos; at += 2) crlf.replace(at, 1, "\r\n");
  std::replace(cr.begin(), cr.end(), '\n', '\r');
  for (const char c : plain) wide += std::string{c, '\0'};
  for (const std::string& text : {plain, "\xef\xbb\xbf" + plain, crlf, cr, wide}) {
    const LogTable t = table(text);
    REQUIRE(t.columns.size() == 2);
    CHECK(t.columns[0].title == "t");
    CHECK(t.columns[1].values == std::vector<double>{1, 2, 3});
    CHECK(t.lines == std::vector<std::size_t>{2, 3, 4});
  }
}

TEST_CASE("the header is found under a preamble and over a row of units") {
  const LogTable t = table(
      "Device;invented box\nSession;3\n\nDate;2026-05-01\nTime;Speed;Brake [bar]\ns;km/h;\n0,0;100,0;0\n0,1;101,0;0\n"
      "0,2;102,0;0\n");
  REQUIRE(t.columns.size() == 3);
  CHECK(t.header_line == 5);
  CHECK(t.columns[0].unit == "s");
  CHECK(t.columns[1].unit == "km/h");
  CHECK(t.columns[2].unit == "bar");
  CHECK(t.lines.front() == 7);
}

TEST_CASE("units stand in brackets at the end of a title and blanks around titles do not count") {
  const LogTable t = table("  Time (s),Brake (front) [bar], \"Speed (km/h)\" \n0,1,2\n1,1,2\n2,1,2\n");
  CHECK(t.columns[0].title == "Time (s)");
  CHECK(t.columns[0].unit == "s");
  CHECK(t.columns[1].unit == "bar");
}

TEST_CASE("a file without a header gets numbered columns and says so") {
  const LogTable t = table("0,10\n1,11\n2,12\n");
  CHECK(t.header_line == 0);
  CHECK(t.columns[1].title == "column 2");
  CHECK(t.columns[0].values.size() == 3);
  CHECK(t.guesses.back().doubtful);
}

TEST_CASE("a row whose cells are shifted is named and left out and a stray quote costs one row") {
  const LogTable t = table("t,lat,v\n0,50.1,9\n1,50,1,9\n2,50.1,9\n3,50.1,\"9\n4,50.1,9\n5,50.1\n6,50.1,9\n");
  CHECK(t.columns[0].values == std::vector<double>{0, 2, 3, 4, 6});
  REQUIRE(t.faults.size() == 2);
  CHECK(t.faults[0].line == 3);
  CHECK(t.faults[0].what.find("4 cells instead of 3") != std::string::npos);
  CHECK(t.faults[1].line == 7);
}

TEST_CASE("separators at the end of each row are not cells") {
  const LogTable t = table("t,v,\n0,1,\n1,2,\n2,3,\n");
  CHECK(t.faults.empty());
  CHECK(t.columns[1].values == std::vector<double>{1, 2, 3});
  const LogTable more = table("t,v\n0,1,\n1,2,\n2,3,\n");
  CHECK(more.columns.size() == 2);
  CHECK(more.columns[1].values == std::vector<double>{1, 2, 3});
}

TEST_CASE("cells: numbers and clock times and blanks and text") {
  using K = Cell::Kind;
  CHECK(read_cell("12.5", '.').value == 12.5);
  CHECK(read_cell("+1e3", '.').value == 1000);
  CHECK(read_cell("12,5", ',').value == 12.5);
  CHECK(read_cell("12,5", '.').kind == K::text);
  CHECK(read_cell("1:02.5", '.').value == 62.5);
  CHECK(read_cell("2026-05-01T13:00:01.25Z", '.').value == 13 * 3600 + 1.25);
  CHECK(read_cell("01.05.2026 00:00:07,5", ',').value == 7.5);
  CHECK(read_cell("1:75", '.').kind == K::text);
  for (const char* nothing : {"", "-", "NaN", "null", "N/A"}) CHECK(read_cell(nothing, '.').kind == K::blank);
  for (const char* text : {"1.2.3", "inf", "abc", "1 2", ":", "1:2:3:4"}) CHECK(read_cell(text, '.').kind == K::text);
}

TEST_CASE("what is no table is refused with what to do instead") {
  CHECK(refusal("just a letter\nwith lines\n").find("--separator") != std::string::npos);
  CHECK_THROWS_AS(as_log_text(" \r\n \n", "log.csv"), ConfigError);
  CHECK_THROWS_AS(as_log_text(std::string("a\0b", 3), "log.csv"), ConfigError);
  CHECK_THROWS_AS(read_log_text("not-there.csv"), ConfigError);
  // Decimal commas and comma separators cannot be told apart.
  CHECK(refusal("t,v\n0,5,1,5\n0,6,1,6\n0,7,1,7\n").find("semicolons") != std::string::npos);
}

TEST_CASE("lines are listed as ranges") {
  CHECK(line_ranges({3}) == "3");
  CHECK(line_ranges({3, 4, 5, 9}) == "3-5, 9");
  CHECK(line_ranges({1, 3, 5, 7}, 2) == "1, 3 and 2 more");
}
