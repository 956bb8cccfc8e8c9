// SPDX-License-Identifier: MIT
//! \file
//! Session files drawn at random from the ranges of the schema: cars, discs and drives as odd as the schema lets them
//! be.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "sim/io/schema/schema.hpp"

namespace hatring::tests {

//! Numbers that are the same with every standard library.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : engine_(seed) {}
  double uniform(double low, double high);
  //! Even over the magnitudes, where the range spans some.
  double spread(double low, double high);
  int whole(int low, int high);
  bool one_in(int n) { return whole(1, n) == 1; }
  template <class T>
  const T& of(const std::vector<T>& all) {
    return all[static_cast<std::size_t>(whole(0, static_cast<int>(all.size()) - 1))];
  }

 private:
  std::mt19937_64 engine_;
};

//! A YAML map in one line.
class Map {
 public:
  Map& add(const std::string& key, std::string value) {
    entries_.emplace_back(key, std::move(value));
    return *this;
  }
  Map& add(const std::string& key, double value, const char* unit);
  [[nodiscard]] bool has(const std::string& key) const;
  [[nodiscard]] std::string text() const;   //!< {key: value, ...}
  [[nodiscard]] std::string lines() const;  //!< each key in a line of its own

 private:
  std::vector<std::pair<std::string, std::string>> entries_;
};

//! Adds keys of the section that the map lacks: those that must be given, and one in three of the others. Left out are
//! keys without a range and those that hold lists, tables or maps.
void add_keys(Map& map, const io::SectionBase& section, Chance& chance);

//! A whole session file. Some are refused, because two of their keys contradict each other.
[[nodiscard]] std::string random_case(std::uint64_t seed);

}  // namespace hatring::tests
