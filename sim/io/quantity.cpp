// SPDX-License-Identifier: MIT
#include "sim/io/units.hpp"

namespace hatring::io {
namespace {

struct Kind {
  std::string_view name, si;
  std::vector<std::string> usual;
};

const std::vector<Kind>& kinds() {
  // In the order of the enumeration.
  static const std::vector<Kind> table{
      {"a plain number", "1", {"%"}},
      {"a length", "m", {"mm", "m", "in", "thou", "um", "cm", "km", "mi", "ft", "inch"}},
      {"an area", "m2", {"cm2", "m2", "mm2", "in2"}},
      {"a volume", "m3", {"cm3", "litre", "m3", "mL", "L", "gal"}},
      {"a mass", "kg", {"kg", "lb", "g", "oz"}},
      {"a force", "N", {"N", "kN", "lbf"}},
      {"a speed", "m/s", {"km/h", "m/s", "mph", "kph"}},
      {"an acceleration", "m/s2", {"m/s2", "g"}},
      {"a temperature", "K", {"degC", "K", "degF", "C", "F"}},
      {"a temperature difference", "K", {"K", "degC", "degF"}},
      {"a heating rate", "K/s", {"K/s", "degC/s", "degF/s"}},
      {"a time", "s", {"s", "min", "h", "ms"}},
      {"a pressure", "Pa", {"hPa", "bar", "MPa", "GPa", "kPa", "psi", "Pa", "mbar"}},
      {"a power", "W", {"kW", "W", "hp"}},
      {"an energy", "J", {"kJ", "J", "MJ", "BTU"}},
      {"a torque", "N.m", {"N.m", "lb.ft"}},
      {"a thermal resistance times area", "m2.K/W", {"m2.K/W"}},
      {"a heat transfer coefficient", "W/m2/K", {"W/m2/K"}},
      {"a conductance", "W/K", {"W/K"}},
      {"a conductivity", "W/m/K", {"W/m/K"}},
      {"a density", "kg/m3", {"kg/m3", "g/cm3"}},
      {"a specific heat", "J/kg/K", {"J/kg/K", "kJ/kg/K"}},
      {"a wear rate", "m3/J", {"mm3/MJ", "mm3/kJ"}},
      {"an expansion coefficient", "1/K", {"1/K", "um/m/K", "ppm/K"}},
      {"an angle", "rad", {"deg", "rad"}},
  };
  return table;
}

const Kind& kind_of(Quantity kind) {
  return kinds()[static_cast<std::size_t>(kind)];
}

}  // namespace

std::string_view name_of(Quantity kind) {
  return kind_of(kind).name;
}
std::string_view si_unit(Quantity kind) {
  return kind_of(kind).si;
}
const std::vector<std::string>& usual_units(Quantity kind) {
  return kind_of(kind).usual;
}

}  // namespace hatring::io
