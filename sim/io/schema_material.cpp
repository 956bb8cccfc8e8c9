// SPDX-License-Identifier: MIT
#include "sim/io/channel.hpp"
#include "sim/io/schema.hpp"

namespace hatring::io {

using models::Curve;
using models::Material;

namespace {

//! A property against temperature, as a constant or a table.
void curve(Section<Material>& s, const std::string& name, Curve Material::*member, Quantity kind, bool needed,
           std::string doc) {
  const Range range{0, std::numeric_limits<double>::infinity(), true, false, "above 0"};
  s.custom(
      name, std::string(name_of(kind)) + ", or a table over temperature",
      [member, kind, range](Reader& reader, const NodePtr& node, Material& material) {
        const std::optional<Table> table = read_table(reader, *node, kind, range);
        if (!table) return;
        material.*member =
            table->values.size() == 1 ? Curve(table->values.front()) : Curve(table->temperature, table->values);
      },
      {.doc = std::move(doc), .optional = !needed}, range);
}

}  // namespace

const Section<Material>& material_section() {
  static const Section<Material> section = [] {
    Section<Material> s(
        "A material. A name that is built in keeps the built-in values of the keys that are left out. A table is "
        "`{temperature: {unit: degC, values: [...]}, unit: W/m/K, values: [...]}`, or "
        "`{temperature: [20 degC, 100 degC], values: [50 W/m/K, 48 W/m/K]}`.");
    s.quantity("density", &Material::density, Quantity::density,
               {.doc = "At 20 degC.", .above = "0 kg/m3", .to = "30000 kg/m3"});
    curve(s, "conductivity", &Material::conductivity, Quantity::conductivity, true, "Thermal conductivity.");
    curve(s, "specific_heat", &Material::specific_heat, Quantity::specific_heat, true, "Instantaneous, not a mean.");
    curve(s, "mean_expansion", &Material::mean_expansion, Quantity::expansion, false,
          "Mean coefficient from 20 degC to the temperature. Rings, hats and fasteners need it.");
    curve(s, "youngs_modulus", &Material::youngs_modulus, Quantity::pressure, false, "");
    curve(s, "proof_strength", &Material::proof_strength, Quantity::pressure, false, "0.2 % proof, short exposure.");
    curve(s, "ultimate_strength", &Material::ultimate_strength, Quantity::pressure, false, "Tensile.");
    curve(s, "soaked_proof_strength", &Material::soaked_proof_strength, Quantity::pressure, false,
          "0.2 % proof after 10,000 h at temperature; never mixed with the short-exposure one.");
    curve(s, "soaked_ultimate_strength", &Material::soaked_ultimate_strength, Quantity::pressure, false,
          "Tensile, after 10,000 h at temperature.");
    s.quantity("poisson", &Material::poisson, Quantity::number,
               {.doc = "", .fallback = "0.3", .reason = "most metals lie near it", .from = "0", .below = "0.5"})
        .quantity("emissivity", &Material::emissivity, Quantity::number,
                  {.doc = "Of the surface as usually found.",
                   .fallback = "0.5",
                   .reason = "middling; measure or look it up",
                   .from = "0",
                   .to = "1"})
        .quantity("highest_service", &Material::highest_service, Quantity::temperature,
                  {.doc = "Short-time limit that verdicts use where `limits` sets none.", .optional = true})
        .text("highest_service_reason", &Material::highest_service_reason,
              {.doc = "Why that limit.", .optional = true});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
