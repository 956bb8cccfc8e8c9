// SPDX-License-Identifier: MIT
#include "tools/report/page.hpp"

#include <limits>
#include <string>

#include <catch2/catch.hpp>

using hatring::tools::render_report;
using hatring::tools::report_available;
using nlohmann::json;

namespace {

bool left_out() {
  if (report_available()) return false;
  WARN("this build has no report page; nothing to check");
  return true;
}

// The text between the run's script tags, as a browser takes it: up to the first closing tag.
std::string run_text(const std::string& html) {
  const std::string open = "<script type=\"application/json\" id=\"run\">";
  const auto begin = html.find(open);
  REQUIRE(begin != std::string::npos);
  const auto end = html.find("</script", begin);
  REQUIRE(end != std::string::npos);
  return html.substr(begin + open.size(), end - begin - open.size());
}

}  // namespace

TEST_CASE("without its template the report says so") {
  if (report_available()) return;
  CHECK_THROWS_AS(render_report(json::object()), std::runtime_error);
}

TEST_CASE("the report carries the run unchanged, whatever its text") {
  if (left_out()) return;
  const json page = {{"format", 1},
                     {"title", "</script><script>alert(1)</script><!-- & \"quoted\" \\ \xE2\x80\xA8 \xE2\x80\xA9"},
                     {"values", {1.5, -2e-9, 0}}};
  const std::string text = run_text(render_report(page));
  CHECK(json::parse(text) == page);
  CHECK(text.find('<') == std::string::npos);
  CHECK(text.find("\xE2\x80\xA8") == std::string::npos);
  CHECK(text.find("\xE2\x80\xA9") == std::string::npos);
}

TEST_CASE("the report writes NaN as null and survives text that is no UTF-8") {
  if (left_out()) return;
  const json page = {{"value", std::numeric_limits<double>::quiet_NaN()}, {"title", "caf\xE9"}};
  const json read = json::parse(run_text(render_report(page)));
  CHECK(read["value"].is_null());
  CHECK(read["title"] == "caf\xEF\xBF\xBD");
}

TEST_CASE("the report allows only its own script and style sheet and names no address") {
  if (left_out()) return;
  const std::string html = render_report(json::object());
  CHECK(html.find("default-src 'none'; script-src 'sha256-") != std::string::npos);
  CHECK(html.find("unsafe") == std::string::npos);
  CHECK(html.find(" src=\"") == std::string::npos);
  CHECK(html.size() < 180000);
}
