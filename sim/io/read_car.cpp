// SPDX-License-Identifier: MIT
#include "sim/io/read_car.hpp"

#include <algorithm>

#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Case;

namespace {

Section<Case> car_file(const Section<session::Car>& car) {
  Section<Case> out("The car's file.");
  out.section("car", &Case::car, car).section("air", &Case::air, air_section());
  return out;
}

//! The file without the keys of a session that have nothing to say about the car.
NodePtr without_session(const NodePtr& root) {
  const std::vector<std::string> known = case_section().names();
  auto out = std::make_shared<Node>(*root);
  std::erase_if(out->entries, [&known](const Entry& e) {
    return e.key != "car" && e.key != "air" && std::find(known.begin(), known.end(), e.key) != known.end();
  });
  return out;
}

}  // namespace

void read_car(Reader& reader, const NodePtr& root, CarUse use) {
  static const Section<Case> braking = car_file(car_section()), lap = car_file(lap_car_section());
  (use == CarUse::lap ? lap : braking).read(reader, without_session(root), root->mark, reader.target());
}

Case read_car(const std::filesystem::path& file) {
  Report report;
  Loader loader(report, {});
  const NodePtr root = loader.top_file(file);
  Case c;
  Reader reader(report, loader, c);
  read_car(reader, root, CarUse::braking);
  report.throw_if_any();
  return c;
}

}  // namespace hatring::io
