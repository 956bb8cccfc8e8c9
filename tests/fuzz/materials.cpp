// SPDX-License-Identifier: MIT
// A table of materials, read over the built-in ones.
#include "sim/io/builtin.hpp"
#include "sim/io/reader.hpp"
#include "tests/fuzz/fuzzing.hpp"

using namespace hatring;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return fuzz::tolerant([&] {
    io::Report report;
    io::Loader loader(report, {});
    session::Case c;
    c.materials = io::builtin_materials();
    io::Reader reader(report, loader, c);
    const io::NodePtr top = loader.top_text(fuzz::text_of(data, size), "materials.yaml");
    if (const io::Entry* entry = top->find("materials")) io::read_materials(reader, entry->value, c.materials);
    report.throw_if_any();
  });
}
