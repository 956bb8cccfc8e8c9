// SPDX-License-Identifier: MIT
// --set key.path=value.
#include <fmt/format.h>

#include <charconv>

#include "sim/io/loader.hpp"

namespace hatring::io {
namespace {

std::vector<std::string> split(std::string_view path) {
  std::vector<std::string> out;
  while (true) {
    const std::size_t dot = path.find('.');
    out.emplace_back(path.substr(0, dot));
    if (dot == std::string_view::npos) return out;
    path.remove_prefix(dot + 1);
  }
}

struct Setter {
  Report& report;
  const std::vector<std::string>& keys;
  const std::string& path;
  Mark mark;
  NodePtr value;

  [[nodiscard]] NodePtr fail(const std::string& message) const {
    report.error(mark, path, message);
    return nullptr;
  }

  //! A copy of `node` with the value put in below it; nullptr when it cannot be (reported).
  [[nodiscard]] NodePtr at(const NodePtr& node, std::size_t depth) const {
    if (depth == keys.size()) return node == nullptr ? value : merged(node, value);
    const std::string& key = keys[depth];
    if (node != nullptr && node->kind == Node::Kind::list) return in_list(*node, depth);
    if (node != nullptr && node->kind == Node::Kind::scalar)
      return fail(fmt::format("nothing can be set below `{}`, which is the value `{}`", keys[depth - 1], node->text));
    auto out = std::make_shared<Node>();
    out->kind = Node::Kind::map;
    out->mark = mark;
    bool found = false;
    if (node != nullptr) {
      out->mark = node->mark;
      for (const Entry& entry : node->entries) {
        out->entries.push_back(entry);
        if (entry.key != key) continue;
        found = true;
        out->entries.back().value = at(entry.value, depth + 1);
      }
    }
    if (!found) out->entries.push_back({key, mark, at(nullptr, depth + 1)});
    for (const Entry& entry : out->entries) {
      if (entry.value == nullptr) return nullptr;
      out->count(*entry.value);
    }
    return out;
  }

  [[nodiscard]] NodePtr in_list(const Node& list, std::size_t depth) const {
    const std::string& key = keys[depth];
    std::size_t index = 0;
    const auto [end, error] = std::from_chars(key.data(), key.data() + key.size(), index);
    if (error != std::errc() || end != key.data() + key.size() || index >= list.items.size())
      return fail(fmt::format("found `{}`, expected the index of a list entry, counted from 0 and below {}", key,
                              list.items.size()));
    auto out = std::make_shared<Node>(list);
    out->items[index] = at(list.items[index], depth + 1);
    if (out->items[index] == nullptr) return nullptr;
    out->size = 1;
    for (const NodePtr& item : out->items) out->count(*item);
    return out;
  }
};

}  // namespace

std::optional<Assignment> Loader::assignment(const std::string& text, const std::string& label) {
  const std::size_t equals = text.find('=');
  std::string path = text.substr(0, equals);
  while (!path.empty() && path.back() == ' ') path.pop_back();
  const std::string name = label + (equals == std::string::npos ? text : path);
  const Source& source =
      add_source({name, top_folder_, equals == std::string::npos ? text : text.substr(equals + 1), false});
  const Mark mark{&source};
  if (equals == std::string::npos || path.empty()) {
    report_.error(mark, "", fmt::format("found `{}`, expected key.path=value", text));
    return std::nullopt;
  }
  NodePtr value = parse_tree(source, report_);
  if (value->has_include) {
    report_.error(mark, path, "a file cannot be included from the command line");
    return std::nullopt;
  }
  return Assignment{std::move(path), mark, std::move(value)};
}

NodePtr with_value(Report& report, const NodePtr& root, const Assignment& given) {
  constexpr std::size_t kDeepest = 32;
  const std::vector<std::string> keys = split(given.path);
  bool well_formed = keys.size() <= kDeepest;
  for (const std::string& key : keys) well_formed = well_formed && !key.empty();
  if (!well_formed) {
    report.error(given.mark, "", fmt::format("found `{}`, expected key.path=value", given.path));
    return nullptr;
  }
  if (keys.back() == "include") {
    report.error(given.mark, given.path, "a file cannot be included from the command line");
    return nullptr;
  }
  return Setter{report, keys, given.path, given.mark, given.value}.at(root, 0);
}

}  // namespace hatring::io
