// SPDX-License-Identifier: MIT
//! \file
//! Reads single values for the schema and reports what is wrong with them, at their place and key path.
#pragma once

#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/io/loader.hpp"
#include "sim/io/units.hpp"
#include "sim/session/case.hpp"

namespace hatring::io {

//! Values that a key accepts, in SI.
struct Range {
  double low = -std::numeric_limits<double>::infinity(), high = std::numeric_limits<double>::infinity();
  bool low_open = false, high_open = false;
  std::string text;  //!< "from 2 mm to 80 mm"; empty when anything goes
  [[nodiscard]] bool contains(double value) const {
    return (low_open ? value > low : value >= low) && (high_open ? value < high : value <= high);
  }
};

class Reader {
 public:
  Reader(Report& report, Loader& loader, session::Case& c) : report_(report), loader_(loader), case_(c) {}

  [[nodiscard]] Report& report() { return report_; }
  [[nodiscard]] Loader& loader() { return loader_; }
  [[nodiscard]] session::Case& target() { return case_; }
  [[nodiscard]] const std::string& path() const { return path_; }

  //! Key path for as long as it lives.
  class Scope {
   public:
    Scope(Reader& reader, std::string_view key) : reader_(reader), outer_(reader.path_) {
      reader.path_ = child_path(reader.path_, key);
    }
    ~Scope() { reader_.path_ = outer_; }
    Scope(const Scope&) = delete;
    Scope& operator=(const Scope&) = delete;

   private:
    Reader& reader_;
    std::string outer_;
  };

  void error(const Mark& mark, std::string message, std::string hint = {}) {
    report_.error(mark, path_, std::move(message), std::move(hint));
  }
  void assume(std::string value, std::string reason) {
    case_.assumptions.push_back({path_, std::move(value), std::move(reason)});
  }

  // Each returns nothing when it reported an error.
  std::optional<double> quantity(const Node& node, Quantity kind, const Range& range = {});
  std::optional<int> integer(const Node& node, const Range& range = {});
  std::optional<bool> flag(const Node& node);
  std::optional<std::string> text(const Node& node);
  //! Index of the word among `words`.
  std::optional<std::size_t> choice(const Node& node, const std::vector<std::string>& words);
  //! A list of plain numbers. `unit` is only for the hint.
  std::optional<std::vector<double>> numbers(const Node& node);
  //! Name of a material that exists (built in or in the config).
  std::optional<std::string> material(const Node& node);
  //! A list; reports anything else. \param example of the list, for the message
  bool is_list(const Node& node, const std::string& example);
  //! A map; reports anything else.
  bool is_map(const Node& node, const std::string& expected);

  //! While set, keys that are left out keep what the object holds (overrides of a built-in material).
  bool keep_absent = false;
  //! When given, every number that is read is noted here, by its key path.
  struct Number {
    Quantity kind;
    bool whole;
  };
  std::map<std::string, Number>* numbers_seen = nullptr;
  //! Traces known from an earlier reading, by their map; they are not read again.
  const std::map<const Node*, session::Trace>* known_traces = nullptr;
  //! Trace files read so far, and what stands in their place in the resolved config.
  struct TracePlace {
    std::size_t index = 0;
    NodePtr map;
  };
  std::map<const Node*, TracePlace> trace_of_node;  //!< by the map of the trace
  std::map<const Node*, NodePtr> in_place_of;       //!< scalar path -> map of the trace
  std::vector<const Node*> trace_maps;              //!< in the order of Case::traces

 private:
  void range_error(const Node& node, const Range& range);

  Report& report_;
  Loader& loader_;
  session::Case& case_;
  std::string path_;
};

//! "a list", "a map", "\"28\"", "nothing": what a message says was found.
[[nodiscard]] std::string found(const Node& node);

}  // namespace hatring::io
