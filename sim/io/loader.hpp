// SPDX-License-Identifier: MIT
//! \file
//! Files to one merged tree: includes, the folders they may reach, and --set.
#pragma once

#include <deque>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/io/tree.hpp"

namespace hatring::io {

inline constexpr std::size_t kDeepestInclude = 16;
inline constexpr std::size_t kMostFiles = 256;
inline constexpr std::uintmax_t kLargestFile = 16U * 1024U * 1024U;

//! A value for a key path, given outside the config's own tree.
struct Assignment {
  std::string path;  //!< "session.3.park"
  Mark mark;
  NodePtr value;
};

//! The tree with a value merged in; nullptr when it cannot be (reported).
[[nodiscard]] NodePtr with_value(Report& report, const NodePtr& root, const Assignment& given);

class Loader {
 public:
  Loader(Report& report, const std::vector<std::filesystem::path>& allowed_dirs);

  //! The top file, includes resolved; adds its folder, and the `configs` folder it lies in, to what may be read.
  [[nodiscard]] NodePtr top_file(const std::filesystem::path& file);
  [[nodiscard]] NodePtr top_text(std::string_view text, const std::string& name);
  //! A file named by `at` (an include or a trace), includes resolved; nullptr when it cannot be had (reported).
  [[nodiscard]] NodePtr file(const Node& at, const std::string& key_path);
  //! The text of a file named by `at` that is no config; nullptr when it cannot be had (reported).
  [[nodiscard]] const Source* text_file(const Node& at, const std::string& key_path);
  //! "key.path=value" of the command line; nothing when it is none (reported). `label` stands for the file name in
  //! messages.
  [[nodiscard]] std::optional<Assignment> assignment(const std::string& text, const std::string& label);
  //! A source that lives as long as the loader.
  const Source& add_source(Source source);

 private:
  const Source* read(const std::filesystem::path& canonical, const std::string& shown, const Mark& from,
                     const std::string& key_path);
  NodePtr parsed(const std::filesystem::path& canonical, const std::string& shown, const Mark& from,
                 const std::string& key_path);
  //! Where the file named by `at` is, if it may be read.
  std::optional<std::filesystem::path> place(const Node& at, const std::string& key_path);
  void count(std::size_t nodes, const Mark& from, const std::string& key_path);
  NodePtr resolve(const NodePtr& node, const std::string& key_path);
  NodePtr resolve_map(const Node& map, const std::string& key_path);
  [[nodiscard]] bool allowed(const std::filesystem::path& canonical) const;

  Report& report_;
  std::deque<Source> sources_;
  std::vector<std::filesystem::path> allowed_;
  std::filesystem::path top_folder_;
  std::map<std::filesystem::path, NodePtr> resolved_;
  std::vector<std::filesystem::path> stack_;  // files being resolved
  std::size_t reads_ = 0;
  std::size_t nodes_ = 0;
};

//! Maps merge deep, everything else is replaced; `over` wins. A null in `over` clears a value but not a map.
[[nodiscard]] NodePtr merged(const NodePtr& base, const NodePtr& over);

}  // namespace hatring::io
