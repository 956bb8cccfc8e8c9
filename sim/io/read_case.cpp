// SPDX-License-Identifier: MIT
#include "sim/io/read_case.hpp"

#include <fmt/format.h>

#include <future>

#include "sim/io/builtin.hpp"
#include "sim/io/read_tree.hpp"
#include "sim/io/schema/schema.hpp"
#include "sim/io/schema/validate.hpp"
#include "sim/io/units.hpp"

namespace hatring::io {
namespace {

std::string word(session::Mesh mesh) {
  switch (mesh) {
    case session::Mesh::lump:
      return "lump";
    case session::Mesh::coarse:
      return "coarse";
    case session::Mesh::standard:
      return "standard";
    case session::Mesh::fine:
      return "fine";
  }
  return {};
}

}  // namespace

NodePtr with_name(const NodePtr& root, const std::string& name) {
  const Entry* entry = root->find("name");
  if (entry != nullptr && entry->value->kind != Node::Kind::null) return root;
  auto names = std::make_shared<Node>();
  names->kind = Node::Kind::map;
  names->mark = root->mark;
  names->entries.push_back({"name", root->mark, scalar_node(name, root->mark)});
  return merged(names, entry == nullptr ? root : merged(root, names));
}

NodePtr varied(Report& report, const NodePtr& root, const NodePtr& variant, const std::filesystem::path& file) {
  if (variant->kind != Node::Kind::map)
    report.fatal(variant->mark, "",
                 fmt::format("found {} at the top of a variant, expected `key: value` lines that "
                             "change the session's parts",
                             found(*variant)));
  if (const Entry* driven = variant->find("session"))
    report.fatal(driven->mark, "session",
                 "found a session in a variant, expected only what differs from the session file",
                 "variants are compared on the same session; keep the parts that differ and leave this out");
  NodePtr over = variant;
  const Entry* name = variant->find("name");
  // An empty name would let the session's own through.
  if (name == nullptr || name->value->kind == Node::Kind::null) over = with_name(over, file.stem().string());
  return merged(root, over);
}

std::vector<Assignment> overrides(Loader& loader, const ReadOptions& options) {
  std::vector<Assignment> out;
  const auto add = [&](const std::string& text, const char* label) {
    if (auto given = loader.assignment(text, label)) out.push_back(std::move(*given));
  };
  for (const std::string& text : options.set) add(text, "--set ");
  if (options.mesh) add("physics.mesh=" + word(*options.mesh), "--mesh ");
  return out;
}

NodePtr with_overrides(Report& report, NodePtr root, const std::vector<Assignment>& values) {
  if (root->kind != Node::Kind::map)
    report.fatal(root->mark, "",
                 root->kind == Node::Kind::null ? "the file is empty, expected `key: value` lines"
                                                : "found " + found(*root) + " at the top, expected `key: value` lines");
  for (const Assignment& value : values)
    if (const NodePtr next = with_value(report, root, value)) root = next;
  if (root->size > kMostNodes)
    report.fatal(root->mark, "", "the config holds more than a million values once includes are merged");
  return root;
}

void read_tree(Reader& reader, const NodePtr& root) {
  reader.target().materials = builtin_materials();
  case_section().read(reader, root, root->mark, reader.target());
  validate(reader.report(), *root, reader.target());
  reader.report().throw_if_any();
}

namespace {

// The database of units is read while the files are. What goes wrong there comes again when a unit is asked for, which
// waits for it, as does who holds this, whatever else goes wrong.
std::future<void> units_ahead() {
  return std::async(read_units);
}

ReadResult read(Report& report, Loader& loader, NodePtr root, const std::string& name, const ReadOptions& options) {
  root = with_name(with_overrides(report, root, overrides(loader, options)), name);
  ReadResult result;
  Reader reader(report, loader, result.c);
  read_tree(reader, root);
  result.resolved_yaml = to_yaml(*root, reader.in_place_of, reader.trace_maps);
  return result;
}

}  // namespace

ReadResult read_case(const std::filesystem::path& file, const ReadOptions& options) {
  [[maybe_unused]] const std::future<void> units = units_ahead();
  Report report;
  Loader loader(report, options.allowed_include_dirs);
  // The session last: its folder is where values of the command line start.
  const NodePtr variant = options.variant ? loader.top_file(*options.variant) : nullptr;
  NodePtr root = loader.top_file(file);
  if (variant != nullptr && root->kind == Node::Kind::map) root = varied(report, root, variant, *options.variant);
  return read(report, loader, root, file.stem().string(), options);
}

ReadResult read_case_text(std::string_view yaml, const std::string& name, const ReadOptions& options) {
  [[maybe_unused]] const std::future<void> units = units_ahead();
  Report report;
  Loader loader(report, options.allowed_include_dirs);
  const NodePtr root = loader.top_text(yaml, name);
  return read(report, loader, root, std::filesystem::path(name).stem().string(), options);
}

}  // namespace hatring::io
