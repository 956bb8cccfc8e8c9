// SPDX-License-Identifier: MIT
#include "sim/io/read_trace_file.hpp"

#include "sim/io/schema/schema.hpp"
#include "sim/io/trace.hpp"

namespace hatring::io {

session::Trace read_trace_file(const std::filesystem::path& file) {
  Report report;
  Loader loader(report, {});
  const NodePtr root = loader.top_file(file);
  const Entry* entry = root->find("trace");
  if (entry == nullptr)
    report.fatal(root->mark, "trace", "not found, expected a trace file: a key `trace:` with the channels below it");
  session::Case c;
  Reader reader(report, loader, c);
  {
    const Reader::Scope scope(reader, "trace");
    (void)read_trace(reader, entry->value);
  }
  report.throw_if_any();
  session::Trace trace = std::move(c.traces.at(0));
  if (entry->value->find("name") == nullptr) trace.name = file.stem().string();
  return trace;
}

}  // namespace hatring::io
