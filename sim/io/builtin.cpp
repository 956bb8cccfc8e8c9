// SPDX-License-Identifier: MIT
#include "sim/io/builtin.hpp"

#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using models::Material;

void read_materials(Reader& reader, const NodePtr& node, std::map<std::string, Material>& materials) {
  if (!reader.is_map(*node, "a map of materials")) return;
  for (const Entry& entry : node->entries) {
    const Reader::Scope scope(reader, entry.key);
    const auto known = materials.find(entry.key);
    Material material = known == materials.end() ? Material{} : known->second;
    material.name = entry.key;
    reader.keep_absent = known != materials.end();
    material_section().read(reader, entry.value, entry.mark, material);
    reader.keep_absent = false;
    materials[entry.key] = std::move(material);
  }
}

const std::map<std::string, Material>& builtin_materials() {
  static const std::map<std::string, Material> table = [] {
    std::map<std::string, Material> out;
    Report report;
    Loader loader(report, {});
    session::Case scratch;
    Reader reader(report, loader, scratch);
    const Reader::Scope scope(reader, "materials");
    // All texts before the first value, which waits for the database of units.
    std::vector<NodePtr> files;
    for (const EmbeddedFile& file : embedded_materials()) {
      std::string text;
      for (const char* piece : file.pieces) text += piece;
      files.push_back(parse_tree(loader.add_source({file.name, {}, std::move(text), true}), report));
    }
    for (const NodePtr& top : files) {
      const Entry* entry = top->find("materials");
      if (entry == nullptr)
        report.error(top->mark, "", "found no `materials`");
      else
        read_materials(reader, entry->value, out);
    }
    report.throw_if_any();
    return out;
  }();
  return table;
}

}  // namespace hatring::io
