// SPDX-License-Identifier: MIT
#include "tools/report/page.hpp"

#include <stdexcept>
#include <string_view>

#include "tools/report/page_template.hpp"

namespace hatring::tools {
namespace {

constexpr std::string_view kLineSeparator = "\xE2\x80\xA8";       // U+2028
constexpr std::string_view kParagraphSeparator = "\xE2\x80\xA9";  // U+2029

// Inside JSON these characters occur only in strings, where \u escapes mean the same. Without '<' no text of the
// run can close the script element or open a comment in it.
void append_escaped(std::string& out, std::string_view json) {
  for (std::size_t i = 0; i < json.size(); ++i) {
    const auto rest = json.substr(i, kLineSeparator.size());
    if (json[i] == '<') {
      out += "\\u003c";
    } else if (rest == kLineSeparator) {
      out += "\\u2028";
      i += rest.size() - 1;
    } else if (rest == kParagraphSeparator) {
      out += "\\u2029";
      i += rest.size() - 1;
    } else {
      out += json[i];
    }
  }
}

}  // namespace

bool report_available() {
  return !kPageHead.empty();
}

std::string render_report(const nlohmann::json& page) {
  if (!report_available()) {
    throw std::runtime_error(kNoReportPage);
  }
  const auto json = page.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  std::string html;
  html.reserve(kPageHead.size() + json.size() + json.size() / 16 + kPageTail.size());
  html += kPageHead;
  append_escaped(html, json);
  html += kPageTail;
  return html;
}

}  // namespace hatring::tools
