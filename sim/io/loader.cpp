// SPDX-License-Identifier: MIT
#include "sim/io/loader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

namespace hatring::io {
namespace {

namespace fs = std::filesystem;

fs::path whole_path(const fs::path& path) {
  std::error_code error;
  fs::path out = fs::weakly_canonical(path, error);
  return error ? fs::absolute(path).lexically_normal() : out;
}

bool lies_in(const fs::path& file, const fs::path& folder) {
  const auto [at, rest] = std::mismatch(folder.begin(), folder.end(), file.begin(), file.end());
  return at == folder.end() || (std::next(at) == folder.end() && at->empty());
}

}  // namespace

Loader::Loader(Report& report, const std::vector<fs::path>& allowed_dirs) : report_(report) {
  for (const fs::path& dir : allowed_dirs) allowed_.push_back(whole_path(dir));
}

const Source& Loader::add_source(Source source) {
  return sources_.emplace_back(std::move(source));
}

bool Loader::allowed(const fs::path& file) const {
  return std::any_of(allowed_.begin(), allowed_.end(), [&](const fs::path& folder) { return lies_in(file, folder); });
}

void Loader::count(std::size_t nodes, const Mark& from, const std::string& key_path) {
  if (++reads_ > kMostFiles) report_.fatal(from, key_path, fmt::format("more than {} files are read", kMostFiles));
  nodes_ += std::min(nodes, kMostNodes);
  if (nodes_ > kMostNodes) report_.fatal(from, key_path, "the files together hold more than a million values");
}

const Source* Loader::read(const fs::path& path, const std::string& shown, const Mark& from,
                           const std::string& key_path) {
  const auto fail = [&](const std::string& message) {
    report_.error(from, key_path, message);
    return nullptr;
  };
  std::error_code error;
  if (!fs::exists(path, error)) return fail(fmt::format("there is no file `{}`", shown));
  if (!fs::is_regular_file(path, error)) return fail(fmt::format("`{}` is not a file", shown));
  if (fs::file_size(path, error) > kLargestFile) return fail(fmt::format("`{}` is larger than 16 MiB", shown));
  std::ifstream in(path, std::ios::binary);
  std::string text(std::istreambuf_iterator<char>(in), {});
  if (!in) return fail(fmt::format("`{}` cannot be read", shown));
  if (text.rfind("\xEF\xBB\xBF", 0) == 0) text.erase(0, 3);  // byte order mark
  if (text.find('\0') != std::string::npos) return fail(fmt::format("`{}` is not UTF-8 text", shown));
  return &add_source({shown, path.parent_path(), std::move(text), true});
}

NodePtr Loader::parsed(const fs::path& path, const std::string& shown, const Mark& from, const std::string& key_path) {
  const Source* source = read(path, shown, from, key_path);
  if (source == nullptr) return nullptr;
  NodePtr tree = parse_tree(*source, report_);
  count(tree->size, from, key_path);
  return tree;
}

NodePtr Loader::top_file(const fs::path& file) {
  const fs::path path = whole_path(file);
  top_folder_ = path.parent_path();
  allowed_.push_back(top_folder_);
  for (fs::path folder = top_folder_; folder.has_relative_path(); folder = folder.parent_path())
    if (folder.filename() == "configs") {
      allowed_.push_back(folder);
      break;
    }
  const Source& command = add_source({file.string(), top_folder_, "", false});
  const NodePtr tree = parsed(path, file.string(), {&command}, "");
  report_.throw_if_any();
  stack_ = {path};
  NodePtr out = resolve(tree, "");
  stack_.clear();
  report_.throw_if_any();  // what an include would have brought would only be missed
  return out;
}

NodePtr Loader::top_text(std::string_view text, const std::string& name) {
  std::error_code error;
  top_folder_ = fs::current_path(error);
  const Source& source = add_source({name, top_folder_, std::string(text), true});
  const NodePtr tree = parse_tree(source, report_);
  report_.throw_if_any();
  count(tree->size, {&source}, "");
  NodePtr out = resolve(tree, "");
  report_.throw_if_any();
  return out;
}

std::optional<fs::path> Loader::place(const Node& at, const std::string& key_path) {
  if (at.kind != Node::Kind::scalar || at.text.empty()) {
    report_.error(at.mark, key_path, "found something else, expected the path of a file");
    return std::nullopt;
  }
  fs::path path = whole_path(at.mark.source->folder / at.text);
  if (allowed(path)) return path;
  report_.error(at.mark, key_path, fmt::format("`{}` lies outside the folders that may be read", at.text),
                "the session file's own folder and the configs folder it lies in may be read; "
                "--allow-include DIR adds another");
  return std::nullopt;
}

const Source* Loader::text_file(const Node& at, const std::string& key_path) {
  const std::optional<fs::path> path = place(at, key_path);
  if (!path) return nullptr;
  return read(*path, (fs::path(at.mark.source->name).parent_path() / at.text).lexically_normal().string(), at.mark,
              key_path);
}

NodePtr Loader::file(const Node& at, const std::string& key_path) {
  const std::optional<fs::path> found = place(at, key_path);
  if (!found) return nullptr;
  const fs::path& path = *found;
  if (std::find(stack_.begin(), stack_.end(), path) != stack_.end())
    return report_.error(at.mark, key_path, fmt::format("`{}` includes itself, directly or by way of others", at.text)),
           nullptr;
  if (stack_.size() >= kDeepestInclude)
    return report_.error(at.mark, key_path, fmt::format("includes are nested deeper than {}", kDeepestInclude)),
           nullptr;
  const fs::path shown = fs::path(at.mark.source->name).parent_path() / at.text;
  if (const auto known = resolved_.find(path); known != resolved_.end()) {
    count(known->second->size, at.mark, key_path);
    return known->second;
  }
  const NodePtr tree = parsed(path, shown.lexically_normal().string(), at.mark, key_path);
  if (tree == nullptr) return nullptr;
  stack_.push_back(path);
  NodePtr out = resolve(tree, "");
  stack_.pop_back();
  resolved_.emplace(path, out);
  return out;
}

NodePtr Loader::resolve(const NodePtr& node, const std::string& key_path) {
  if (!node->has_include) return node;
  if (node->kind == Node::Kind::map) return resolve_map(*node, key_path);
  auto out = std::make_shared<Node>(*node);
  out->size = 1;
  out->has_include = false;
  for (std::size_t i = 0; i < out->items.size(); ++i) {
    out->items[i] = resolve(out->items[i], child_path(key_path, std::to_string(i)));
    out->count(*out->items[i]);
  }
  return out;
}

NodePtr Loader::resolve_map(const Node& map, const std::string& key_path) {
  auto own = std::make_shared<Node>();
  own->kind = Node::Kind::map;
  own->mark = map.mark;
  NodePtr base;
  for (const Entry& entry : map.entries) {
    const std::string path = child_path(key_path, entry.key);
    if (entry.key != "include") {
      own->entries.push_back({entry.key, entry.mark, resolve(entry.value, path)});
      own->count(*own->entries.back().value);
      continue;
    }
    const std::vector<NodePtr> one{entry.value};
    for (const NodePtr& item : entry.value->kind == Node::Kind::list ? entry.value->items : one) {
      const NodePtr included = file(*item, path);
      if (included == nullptr || included->kind == Node::Kind::null) continue;
      if (included->kind != Node::Kind::map) {
        report_.error(included->mark, "", "found no map at the top of an included file, expected `key: value` lines");
        continue;
      }
      base = base == nullptr ? included : merged(base, included);
    }
  }
  return base == nullptr ? NodePtr(own) : merged(base, own);
}

NodePtr merged(const NodePtr& base, const NodePtr& over) {
  if (base->kind != Node::Kind::map) return over;
  if (over->kind == Node::Kind::null) return base;
  if (over->kind != Node::Kind::map) return over;
  auto out = std::make_shared<Node>();
  out->kind = Node::Kind::map;
  out->mark = over->mark;
  std::unordered_map<std::string_view, const Entry*> of_over;  // maps may be large
  for (const Entry& entry : over->entries) of_over.emplace(entry.key, &entry);
  std::unordered_set<std::string_view> of_base;
  for (const Entry& entry : base->entries) {
    of_base.insert(entry.key);
    const auto found = of_over.find(entry.key);
    const Entry* mine = found == of_over.end() ? nullptr : found->second;
    out->entries.push_back(mine == nullptr ? entry : Entry{entry.key, mine->mark, merged(entry.value, mine->value)});
  }
  for (const Entry& entry : over->entries)
    if (!of_base.contains(entry.key)) out->entries.push_back(entry);
  for (const Entry& entry : out->entries) out->count(*entry.value);
  return out;
}

}  // namespace hatring::io
