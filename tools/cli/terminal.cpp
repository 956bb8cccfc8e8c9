// SPDX-License-Identifier: MIT
#include "tools/cli/terminal.hpp"

#include <fmt/format.h>

#include <array>
#include <boost/locale/utf.hpp>
#include <cstdio>

#include "tools/cli/commands.hpp"

namespace hatring::tools {
namespace {

using namespace std::string_view_literals;

// What fmt makes of the styles of our tables: bold, red, yellow, plain again.
constexpr std::array kColours{"\x1b[1m"sv, "\x1b[31m"sv, "\x1b[33m"sv, "\x1b[0m"sv};

constexpr char32_t kBroken = 0xFFFFFFFF;

struct Character {
  char32_t code;
  std::size_t size;  // bytes
};

// The first character of UTF-8 text; a byte that begins none is kBroken.
Character first_of(std::string_view text) {
  using Utf8 = boost::locale::utf::utf_traits<char>;
  const char* end = text.data();
  const auto code = Utf8::decode(end, text.data() + text.size());
  if (code == boost::locale::utf::illegal || code == boost::locale::utf::incomplete) return {kBroken, 1};
  return {code, static_cast<std::size_t>(end - text.data())};
}

bool is_obeyed(char32_t c) {
  const auto within = [c](char32_t low, char32_t high) { return c >= low && c <= high; };
  return (c < 0x20 && c != '\n' && c != '\t') || within(0x7F, 0x9F) || within(0x202A, 0x202E) ||
         within(0x2066, 0x2069) || c == kBroken;
}

// The text with `shown(code)` for each character that a terminal obeys.
template <class Shown>
std::string filtered(std::string_view text, bool colour, const Shown& shown) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    std::size_t kept = 0;
    if (colour)
      for (const std::string_view sequence : kColours)
        if (text.starts_with(sequence)) kept = sequence.size();
    const Character c = first_of(text);
    if (kept == 0 && is_obeyed(c.code)) {
      out += shown(c.code);
      text.remove_prefix(c.size);
      continue;
    }
    if (kept == 0) kept = c.size;
    out += text.substr(0, kept);
    text.remove_prefix(kept);
  }
  return out;
}

}  // namespace

std::string printable(std::string_view text, bool colour) {
  return filtered(text, colour, [](char32_t) { return "?"; });
}

void print_text(std::string_view text) {
  fmt::print("{}", printable(text, terminal_wants_colour()));
}

void print_error(std::string_view text) {
  fmt::print(stderr, "{}\n", printable(text));
}

void print_json(const nlohmann::json& object) {
  const std::string text = object.dump(1, ' ', false, nlohmann::json::error_handler_t::replace);
  fmt::print("{}\n",
             filtered(text, false, [](char32_t code) { return fmt::format("\\u{:04x}", std::uint32_t{code}); }));
}

}  // namespace hatring::tools
