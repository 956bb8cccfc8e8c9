// SPDX-License-Identifier: MIT
#include "sim/io/read_case.hpp"

#include "sim/io/builtin.hpp"
#include "sim/io/schema.hpp"
#include "sim/io/validate.hpp"

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

//! The name goes into the tree, so that the resolved config keeps it.
NodePtr with_name(const NodePtr& root, const std::string& name) {
  const Entry* entry = root->find("name");
  if (entry != nullptr && entry->value->kind != Node::Kind::null) return root;
  auto names = std::make_shared<Node>();
  names->kind = Node::Kind::map;
  names->mark = root->mark;
  names->entries.push_back({"name", root->mark, scalar_node(name, root->mark)});
  return merged(names, entry == nullptr ? root : merged(root, names));
}

ReadResult read(Report& report, Loader& loader, NodePtr root, const std::string& name, const ReadOptions& options) {
  if (root->kind != Node::Kind::map)
    report.fatal(root->mark, "",
                 root->kind == Node::Kind::null ? "the file is empty, expected `key: value` lines"
                                                : "found " + found(*root) + " at the top, expected `key: value` lines");
  for (const std::string& assignment : options.set) root = loader.set(root, assignment, "--set ");
  if (options.mesh) root = loader.set(root, "physics.mesh=" + word(*options.mesh), "--mesh ");
  if (root->size > kMostNodes)
    report.fatal(root->mark, "", "the config holds more than a million values once includes are merged");
  root = with_name(root, name);
  ReadResult result;
  result.c.materials = builtin_materials();
  Reader reader(report, loader, result.c);
  case_section().read(reader, root, root->mark, result.c);
  validate(report, *root, result.c);
  report.throw_if_any();
  result.resolved_yaml = to_yaml(*root, reader.in_place_of, reader.trace_maps);
  return result;
}

}  // namespace

ReadResult read_case(const std::filesystem::path& file, const ReadOptions& options) {
  Report report;
  Loader loader(report, options.allowed_include_dirs);
  const NodePtr root = loader.top_file(file);
  return read(report, loader, root, file.stem().string(), options);
}

ReadResult read_case_text(std::string_view yaml, const std::string& name, const ReadOptions& options) {
  Report report;
  Loader loader(report, options.allowed_include_dirs);
  const NodePtr root = loader.top_text(yaml, name);
  return read(report, loader, root, std::filesystem::path(name).stem().string(), options);
}

}  // namespace hatring::io
