// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "tests/faults/random_case.hpp"

namespace hatring::tests {
namespace {

using io::Key;

bool must_be_given(const Key& key) {
  return !key.optional && !key.computed && !key.applies && key.fallback.text.empty();
}

std::string value_of(const Key& key, Chance& chance) {
  if (key.type == "on or off") return chance.one_in(2) ? "on" : "off";
  if (key.type.rfind("one of ", 0) == 0) {
    std::vector<std::string> words;
    std::istringstream listed(key.type.substr(7));
    for (std::string word; listed >> word;) words.push_back(word.substr(0, word.find(',')));
    return chance.of(words);
  }
  if (!std::isfinite(key.range.low) || !std::isfinite(key.range.high)) return "";
  if (key.type == "a whole number")
    return std::to_string(std::lround(chance.spread(key.range.low, std::min(key.range.high, 1e6))));
  for (std::size_t i = 0; i < io::kQuantityKinds; ++i) {
    const auto kind = static_cast<io::Quantity>(i);
    if (key.type != name_of(kind)) continue;
    const double value = chance.spread(key.range.low, key.range.high);
    return fmt::format("{:.6g}{}{}", value, kind == io::Quantity::number ? "" : " ",
                       kind == io::Quantity::number ? "" : si_unit(kind));
  }
  return "";
}

}  // namespace

double Chance::uniform(double low, double high) {
  return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53;
}

double Chance::spread(double low, double high) {
  if (low <= 0 || high < 20 * low) return uniform(low, high);
  return std::clamp(low * std::pow(high / low, uniform(0, 1)), low, high);
}

int Chance::whole(int low, int high) {
  return std::min(high, low + static_cast<int>(uniform(0, high - low + 1)));
}

Map& Map::add(const std::string& key, double value, const char* unit) {
  return add(key, fmt::format("{:.6g}{}{}", value, *unit ? " " : "", unit));
}

bool Map::has(const std::string& key) const {
  return std::any_of(entries_.begin(), entries_.end(), [&](const auto& entry) { return entry.first == key; });
}

std::string Map::text() const {
  std::string out;
  for (const auto& [key, value] : entries_) out += fmt::format("{}{}: {}", out.empty() ? "" : ", ", key, value);
  return fmt::format("{{{}}}", out);
}

std::string Map::lines() const {
  std::string out;
  for (const auto& [key, value] : entries_) out += fmt::format("{}: {}\n", key, value);
  return out;
}

void add_keys(Map& map, const io::SectionBase& section, Chance& chance) {
  for (const Key& key : section.keys()) {
    if (map.has(key.name) || key.section != nullptr) continue;
    if (!must_be_given(key) && !chance.one_in(3)) continue;
    if (std::string value = value_of(key, chance); !value.empty()) map.add(key.name, std::move(value));
  }
}

}  // namespace hatring::tests
