// SPDX-License-Identifier: MIT
#include "sim/io/read_car.hpp"

#include "sim/io/schema/schema.hpp"

namespace hatring::io {

ReadCar read_car(const std::filesystem::path& file) {
  Report report;
  Loader loader(report, {});
  const NodePtr root = loader.top_file(file);
  const Entry* entry = root->find("car");
  if (entry == nullptr) report.fatal(root->mark, "car", "not found, expected a key `car:` with the car below it");
  session::Case c;
  Reader reader(report, loader, c);
  {
    const Reader::Scope scope(reader, "car");
    car_section().read(reader, entry->value, entry->mark, c.car);
  }
  report.throw_if_any();
  return {c.car, std::move(c.assumptions)};
}

}  // namespace hatring::io
