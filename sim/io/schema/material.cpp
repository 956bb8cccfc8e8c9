// SPDX-License-Identifier: MIT
#include "sim/io/channel.hpp"
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using models::Curve;
using models::FatigueConstants;
using models::Material;
using models::MeanStress;
using models::Overageing;

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

const Section<FatigueConstants>& fatigue_section() {
  static const Section<FatigueConstants> section = [] {
    Section<FatigueConstants> s("Lives of smooth specimens at 20 degC, on reversals (two a cycle).");
    s.quantity("strength_coefficient", &FatigueConstants::strength_coefficient, Quantity::pressure,
               {.doc = "Stress amplitude at one reversal.", .above = "0 MPa"})
        .quantity("strength_exponent", &FatigueConstants::strength_exponent, Quantity::number,
                  {.doc = "Of the elastic part.",
                   .fallback = "-0.12",
                   .reason = "universal slopes (Manson 1965, from memory)",
                   .from = "-1",
                   .below = "0"})
        .quantity("ductility_coefficient", &FatigueConstants::ductility_coefficient, Quantity::number,
                  {.doc = "Plastic strain amplitude at one reversal.",
                   .fallback = "0",
                   .reason = "lives are judged by stress alone",
                   .from = "0",
                   .to = "5"})
        .quantity("ductility_exponent", &FatigueConstants::ductility_exponent, Quantity::number,
                  {.doc = "Of the plastic part.",
                   .fallback = "-0.6",
                   .reason = "universal slopes (Manson 1965, from memory)",
                   .from = "-2",
                   .below = "0"})
        .choice(
            "mean_stress", &FatigueConstants::mean_stress,
            std::vector<std::pair<std::string, MeanStress>>{{"none", MeanStress::none},
                                                            {"goodman", MeanStress::goodman},
                                                            {"morrow", MeanStress::morrow},
                                                            {"smith_watson_topper", MeanStress::smith_watson_topper}},
            {.doc = "How a mean stress is taken into account.",
             .fallback = "smith_watson_topper",
             .reason = "holds for most metals without further constants"});
    return s;
  }();
  return section;
}

const Section<Overageing>& overageing_section() {
  static const Section<Overageing> section = [] {
    Section<Overageing> s(
        "Two soaks after which the cold strength had fallen to the least that the alloy must have. Only for "
        "heat-treated "
        "aluminium.");
    s.quantity("temperature", &Overageing::temperature, Quantity::temperature, {.doc = "Of the cooler, longer soak."})
        .quantity("time", &Overageing::time, Quantity::time, {.doc = "Of that soak.", .above = "0 s"})
        .quantity("hotter_temperature", &Overageing::hotter_temperature, Quantity::temperature,
                  {.doc = "Of the hotter, shorter soak."})
        .quantity("hotter_time", &Overageing::hotter_time, Quantity::time, {.doc = "Of that soak.", .above = "0 s"});
    return s;
  }();
  return section;
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
        .quantity("compressive_ratio", &Material::compressive_ratio, Quantity::number,
                  {.doc = "Proof strength in compression over that in tension.",
                   .fallback = "1",
                   .reason = "ductile metals yield alike both ways; grey iron does not",
                   .above = "0",
                   .to = "10"})
        .section("fatigue", &Material::fatigue, fatigue_section(), {.optional = true})
        .section("overageing", &Material::overageing, overageing_section(), {.optional = true})
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
