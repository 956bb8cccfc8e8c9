// SPDX-License-Identifier: MIT
//! \file
//! A YAML document as a tree that remembers where every key and value stands. yaml-cpp does the parsing.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "sim/io/config_error.hpp"

namespace hatring::io {

//! A text that configuration comes from. Outlives every tree made from it.
struct Source {
  std::string name;              //!< for messages
  std::filesystem::path folder;  //!< relative paths inside the text start here
  std::string text;
  bool has_lines = true;  //!< false for command-line values, whose line number says nothing
};

//! A place in a source; line and column from 1, 0 when unknown.
struct Mark {
  const Source* source = nullptr;
  int line = 0, column = 0;
};

struct Node;
using NodePtr = std::shared_ptr<const Node>;

struct Entry {
  std::string key;
  Mark mark;  //!< of the key
  NodePtr value;
};

struct Node {
  enum class Kind { null, scalar, list, map };
  Kind kind = Kind::null;
  Mark mark;
  std::string text;     //!< of a scalar
  bool quoted = false;  //!< the scalar stood in quotes
  std::vector<NodePtr> items;
  std::vector<Entry> entries;
  std::size_t size = 1;      //!< nodes below and this one, aliases counted every time
  bool has_include = false;  //!< some map below (or this one) has the key `include`

  [[nodiscard]] const Entry* find(std::string_view key) const;
  //! Counts a child: keeps size and has_include.
  void count(const Node& child);
};

//! Most nodes that a configuration may have once aliases and includes are written out.
inline constexpr std::size_t kMostNodes = 1'000'000;

//! Errors that are gathered; more than that and the file is another one than was meant.
inline constexpr std::size_t kMostErrors = 100;

//! Collects diagnostics. Errors are gathered, so that one run shows them all.
class Report {
 public:
  void error(const Mark& mark, std::string key_path, std::string message, std::string hint = {});
  //! Two places that contradict each other.
  void conflict(const Mark& mark, const Mark& other, std::string key_path, std::string message, std::string note);
  //! Reports and throws what has been gathered: for errors that leave nothing to go on with.
  [[noreturn]] void fatal(const Mark& mark, std::string key_path, std::string message, std::string hint = {});
  [[nodiscard]] bool any() const { return !diagnostics_.empty(); }
  //! Was there an error at this key path, below it, or at a map that it lies in?
  [[nodiscard]] bool touches(std::string_view key_path) const;
  //! \throws ConfigError when anything was reported, sorted by line within each file
  void throw_if_any();

 private:
  //! \throws ConfigError when there are too many
  void add(Diagnostic d);

  std::vector<Diagnostic> diagnostics_;
};

//! \returns the root node; a null node when the text is empty
//! Reports syntax errors (fatal), duplicate keys, tags, keys that are not plain text, more than one document, and trees
//! that aliases blow up (fatal).
[[nodiscard]] NodePtr parse_tree(const Source& source, Report& report);

//! Reads scalar text that stands nowhere in a file (defaults of the schema).
[[nodiscard]] NodePtr scalar_node(std::string text, const Mark& mark);

//! A tree as YAML text. A node that has something in its place is written as that; what stands in `anchors` is written
//! once, with an anchor, and as an alias afterwards.
[[nodiscard]] std::string to_yaml(const Node& root, const std::map<const Node*, NodePtr>& in_place_of,
                                  const std::vector<const Node*>& anchors);

//! "a.b" from "a" and "b".
[[nodiscard]] std::string child_path(std::string_view path, std::string_view key);

}  // namespace hatring::io
