// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "sim/io/config_error.hpp"
#include "sim/io/tree.hpp"

using namespace hatring::io;

TEST_CASE("a tree that is written and read again holds the same texts, quoted where they were") {
  // Numbers in all their shapes, texts that are almost numbers, and texts that mean something else without quotes.
  const Source source{"given",
                      {},
                      "a: [1, -2.5, +3, .5, 7., 1e5, 1E-3, -0, 007, 1-2]\n"
                      "b: ['1e5', \"-3\", '.', '-', '~', 'null', 'true', '1: 2', '# 3', '']\n"
                      "c: {d: e, f: 1.2 m, g: 12:30, h: e5, i: -1 kPa, j: null}\n"};
  Report report;
  const NodePtr first = parse_tree(source, report);
  const std::string text = to_yaml(*first, {}, {});
  const Source stored{"written", {}, text};
  const NodePtr again = parse_tree(stored, report);
  report.throw_if_any();
  CAPTURE(text);
  for (const char* list : {"a", "b"}) {
    const auto &had = first->find(list)->value->items, &has = again->find(list)->value->items;
    REQUIRE(has.size() == had.size());
    for (std::size_t i = 0; i < had.size(); ++i) {
      CAPTURE(had[i]->text);
      CHECK(has[i]->kind == had[i]->kind);
      CHECK(has[i]->text == had[i]->text);
      CHECK(has[i]->quoted == had[i]->quoted);
    }
  }
  for (const Entry& entry : first->find("c")->value->entries) {
    const NodePtr has = again->find("c")->value->find(entry.key)->value;
    CHECK(has->kind == entry.value->kind);
    CHECK(has->text == entry.value->text);
  }
  CHECK(to_yaml(*again, {}, {}) == text);
}
