// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "models/fluid.hpp"
#include "sim/io/schema/parts.hpp"
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Fluid;

namespace {

models::FluidClass class_of(const Fluid& fluid) {
  if (fluid.name == "DOT 3") return models::FluidClass::dot3;
  return fluid.name == "DOT 5.1" ? models::FluidClass::dot5_1 : models::FluidClass::dot4;
}

Fallback boiling(const Fluid& fluid, bool wet) {
  const models::BoilingPoints least = models::minimum_boiling_points(class_of(fluid));
  return {fmt::format("{:.6g} degC", (wet ? least.wet : least.dry) - 273.15),
          fmt::format("least {} boiling point of {} (49 CFR 571.116, from a secondary text)", wet ? "wet" : "dry",
                      fluid.name)};
}

Fallback usual_judge(const Fluid& fluid) {
  if (fluid.age) return {"aged", "the fluid's age is given"};
  return {"wet", "fluid takes up water from the day it is filled; the dry figure is not that of a used fluid"};
}

void read_judge(Reader& reader, const NodePtr& node, Fluid& fluid) {
  using Judge = Fluid::Judge;
  const std::vector<std::string> words{"wet", "dry", "aged"};
  if (node->kind == Node::Kind::scalar && node->text.find_first_of("0123456789") != std::string::npos) {
    const Range range = make_range(Quantity::temperature, "", "80 degC", "400 degC", "");
    if (const auto value = reader.quantity(*node, Quantity::temperature, range)) {
      fluid.judge = Judge::own;
      fluid.own_boiling = *value;
    }
  } else if (const auto index = reader.choice(*node, words)) {
    fluid.judge = std::vector<Judge>{Judge::wet, Judge::dry, Judge::aged}[*index];
  }
  if (fluid.judge == Judge::aged && !fluid.age)
    reader.error(node->mark, "found `aged` without an age, expected the key `age` beside it", "write `age: 6 month`");
}

}  // namespace

const Section<Fluid>& fluid_section() {
  static const Section<Fluid> section = [] {
    Section<Fluid> s("Brake fluid.");
    s.choice(
         "kind", &Fluid::name,
         std::vector<std::pair<std::string, std::string>>{{"dot3", "DOT 3"}, {"dot4", "DOT 4"}, {"dot5.1", "DOT 5.1"}},
         {.doc = "Class, for the boiling points that are left out.",
          .fallback = "dot4",
          .reason = "usual, common practice"})
        .quantity("dry_boiling", &Fluid::dry_boiling, Quantity::temperature,
                  {.doc = "Of fresh fluid.",
                   .from = "100 degC",
                   .to = "400 degC",
                   .computed = [](const Fluid& fluid, const session::Case&) { return boiling(fluid, false); },
                   .computed_text = "least dry boiling point of the kind"})
        .quantity("wet_boiling", &Fluid::wet_boiling, Quantity::temperature,
                  {.doc = "With 3.7 % of water in it, as after a year or two.",
                   .from = "80 degC",
                   .to = "400 degC",
                   .computed = [](const Fluid& fluid, const session::Case&) { return boiling(fluid, true); },
                   .computed_text = "least wet boiling point of the kind"})
        .quantity("age", &Fluid::age, Quantity::time,
                  {.doc = "Since it was filled in fresh; the boiling point falls with the water it takes up.",
                   .optional = true,
                   .from = "0 day",
                   .to = "20 year"})
        .custom("judge", "wet, dry, aged or a temperature", read_judge,
                {.doc = "Boiling point that the verdict uses; `aged` follows `age`, a temperature is your own reading.",
                 .computed = [](const Fluid& fluid, const session::Case&) { return usual_judge(fluid); },
                 .computed_text = "`aged` where an age is given, else `wet`: fluid takes up water from the day it is "
                                  "filled"});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
