// SPDX-License-Identifier: MIT
#include "sim/io/unit_alias.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <map>

namespace hatring::io {
namespace {

bool letter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0;
}
bool digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); });
  return text;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

//! Typographic characters to ASCII, no blanks around operators.
std::string plain_characters(std::string_view unit) {
  std::string text(unit);
  constexpr std::array<std::pair<std::string_view, std::string_view>, 16> kCharacters{{
      {"\u00b0 ", "deg"},
      {"\u00ba ", "deg"},
      {"\u00b0", "deg"},
      {"\u00ba", "deg"},
      {"\u2103", "degC"},
      {"\u2109", "degF"},
      {"\u00b2", "2"},
      {"\u00b3", "3"},
      {"\u207b\u00b9", "-1"},
      {"\u207b", "-"},
      {"\u00b5", "u"},
      {"\u03bc", "u"},
      {"\u00b7", "."},
      {"\u22c5", "."},
      {"\u00d7", "."},
      {"*", "."},
  }};
  for (const auto& [from, to] : kCharacters) replace_all(text, from, to);
  for (const std::string_view op : {"/", "."}) {
    replace_all(text, fmt::format(" {}", op), op);
    replace_all(text, fmt::format("{} ", op), op);
  }
  while (!text.empty() && text.back() == ' ') text.pop_back();
  while (!text.empty() && text.front() == ' ') text.erase(0, 1);
  return text;
}

//! UDUNITS would take a second number as a factor ("1 140 kg" is 1 x 140 kg) and "since" or "@" as an offset.
bool looks_like_unit(const std::string& unit) {
  if (unit.empty() || !(letter(unit.front()) || unit.front() == '%')) return false;
  for (std::size_t i = 0; i < unit.size(); ++i) {
    const char c = unit[i];
    if (digit(c)) {
      const char before = unit[i - 1];
      const bool exponent = letter(before) || digit(before) || before == '^' ||
                            (before == '-' && i > 1 && (letter(unit[i - 2]) || unit[i - 2] == '^'));
      if (!exponent) return false;
    } else if (!letter(c) && std::string_view("/.^-%() _").find(c) == std::string_view::npos) {
      return false;
    }
  }
  const std::string padded = fmt::format(" {} ", lower(unit));
  for (const std::string_view word : {" since ", " after ", " from ", " ref ", " re ", "(re "})
    if (padded.find(word) != std::string::npos) return false;
  return true;
}

//! Whole units that mean one thing whatever the field. Keys in lower case.
const std::map<std::string, std::string>& spellings() {
  static const std::map<std::string, std::string> table{
      // UDUNITS reads mph and kph as thousandth and thousandfold phots (ph, illuminance)
      {"mph", "mile/hour"},
      {"mi/h", "mile/hour"},
      {"kph", "km/hour"},
      {"kmh", "km/hour"},
      {"kmph", "km/hour"},
      {"km/hr", "km/hour"},
      {"thou", "mil"},
      // UDUNITS reads lb.ft as mass times length
      {"lb.ft", "lbf.ft"},
      {"lb-ft", "lbf.ft"},
      {"lb ft", "lbf.ft"},
      {"lbft", "lbf.ft"},
      {"lbf-ft", "lbf.ft"},
      {"ft.lb", "lbf.ft"},
      {"ft-lb", "lbf.ft"},
      {"ft lb", "lbf.ft"},
      {"ft.lbs", "lbf.ft"},
      {"ft-lbs", "lbf.ft"},
      {"lbs.ft", "lbf.ft"},
      {"lbs-ft", "lbf.ft"},
      {"ft-lbf", "lbf.ft"},
      {"lb.in", "lbf.in"},
      {"in.lb", "lbf.in"},
      {"lb-in", "lbf.in"},
      {"in-lb", "lbf.in"},
      {"lbs", "lb"},
      {"kgs", "kg"},
      {"kwh", "kW.hour"},
      {"wh", "W.hour"},
      {"fl oz", "floz"},
      // m.K, mK and m2K after a slash are meant as products below the line
      {"w/m.k", "W/m/K"},
      {"w/mk", "W/m/K"},
      {"w/m k", "W/m/K"},
      {"w/m2.k", "W/m2/K"},
      {"w/m2k", "W/m2/K"},
      {"w/m2 k", "W/m2/K"},
      {"w/m^2k", "W/m2/K"},
      {"w/m^2.k", "W/m2/K"},
      {"w/m^2 k", "W/m2/K"},
      {"j/kg.k", "J/kg/K"},
      {"j/kgk", "J/kg/K"},
      {"j/kg k", "J/kg/K"},
      {"kj/kg.k", "kJ/kg/K"},
      {"kj/kgk", "kJ/kg/K"},
      {"m2k/w", "m2.K/W"},
      {"m^2k/w", "m2.K/W"},
      {"percent", "%"}};
  return table;
}

//! Units that mean another thing in this kind of field than UDUNITS takes them for, or that it rounds.
std::string of_kind(const std::string& unit, Quantity kind) {
  switch (kind) {
    case Quantity::volume:  // gal is also the Gal of geodesy
      if (lower(unit) == "gal") return "231 in3";
      break;
    case Quantity::mass:  // oz is the fluid ounce there
      if (unit == "oz") return "0.0625 lb";
      break;
    case Quantity::acceleration:  // gram, gauss
      if (unit == "g" || unit == "G") return "gravity";
      break;
    case Quantity::power:  // PS is the petasiemens
      if (unit == "hp" || unit == "bhp") return "550 ft.lbf/s";
      if (unit == "PS") return "75 kgf.m/s";
      break;
    case Quantity::angle:  // deg alone is nothing there
      if (lower(unit) == "deg" || lower(unit) == "degrees") return "arc_degree";
      break;
    default:
      break;
  }
  return unit;
}

bool about_temperature(Quantity kind) {
  switch (kind) {
    case Quantity::temperature:
    case Quantity::temperature_difference:
    case Quantity::temperature_rate:
    case Quantity::resistance_area:
    case Quantity::heat_transfer:
    case Quantity::conductance:
    case Quantity::conductivity:
    case Quantity::specific_heat:
    case Quantity::expansion:
      return true;
    default:
      return false;
  }
}

//! C and F are degrees here, not coulomb and farad; anywhere but in an absolute temperature they count by scale only.
std::string degrees(const std::string& unit, Quantity kind) {
  const bool absolute = kind == Quantity::temperature;
  std::string out;
  for (std::size_t i = 0; i < unit.size();) {
    if (!letter(unit[i])) {
      out += unit[i++];
      continue;
    }
    std::size_t end = i;
    while (end < unit.size() && (letter(unit[end]) || unit[end] == '_')) ++end;
    std::string_view word = std::string_view(unit).substr(i, end - i);
    const std::string key = lower(std::string(word));
    if ((key == "deg" || key == "degrees") && end + 1 < unit.size() && unit[end] == ' ' && letter(unit[end + 1])) {
      i = end + 1;  // "deg C"
      continue;
    }
    if (word == "C" || key == "degc" || key == "deg_c" || key == "celsius") word = absolute ? "degC" : "K";
    if (word == "F" || key == "degf" || key == "deg_f" || key == "fahrenheit") word = absolute ? "degF" : "degR";
    if (word == "degK" || key == "kelvin") word = "K";
    out += word;
    i = end;
  }
  return out;
}

}  // namespace

std::string settle_unit(std::string_view unit, Quantity kind) {
  std::string text = plain_characters(unit);
  bool inverse = false;
  if (text.rfind("1/", 0) == 0) {
    inverse = true;
    text.erase(0, 2);
  } else if (text.rfind('/', 0) == 0) {
    inverse = true;
    text.erase(0, 1);
  }
  if (!looks_like_unit(text)) return {};
  if (text == "Nm" || text == "kNm") return text == "Nm" ? "N.m" : "kN.m";
  if (about_temperature(kind)) text = degrees(text, kind);
  if (const auto found = spellings().find(lower(text)); found != spellings().end()) text = found->second;
  text = of_kind(text, kind);
  return inverse ? fmt::format("1/{}", text) : text;
}

}  // namespace hatring::io
