// SPDX-License-Identifier: MIT
//! \file
//! What a run would be made of, with nothing solved: shown as text, as JSON and as a drawing.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "models/constants.hpp"
#include "sim/network/network.hpp"
#include "sim/session/case.hpp"
#include "sim/session/drive.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

struct Explanation {
  session::Case c;
  session::Drive drive;
  network::Network front, rear;
  std::vector<double> front_heat;  //!< friction heat of one front wheel, span by span [J]
  double speed = 0;                //!< at which moving air is shown: 100 km/h, or the session's highest if lower [m/s]

  [[nodiscard]] const network::Network& of(session::Axle axle) const {
    return axle == session::Axle::front ? front : rear;
  }
};

inline constexpr double kShownDifference = 100;                      //!< surface over air, for convection [K]
inline constexpr double kShownCold = models::kReferenceTemperature;  //!< of what changes with temperature [K]
inline constexpr double kShownHot = 400 + 273.15;                    //!< the same [K]

//! \throws session::CaseError when the case cannot be run
[[nodiscard]] Explanation make_explanation(session::Case c);

//! What convection of one surface would carry away per kelvin, for kShownDifference [W/K].
[[nodiscard]] double conductance_of(const network::Network& network, const network::Surface& surface, double speed);

//! Where the numbers of a family of links, or of a law of convection, come from; says so where the config pins them.
[[nodiscard]] std::string origin_of_links(const session::Case& c, session::Axle axle, const std::string& family);
[[nodiscard]] std::string origin_of_surfaces(const session::Case& c, const std::string& law);

//! Name of a node, "outside air" for kAmbient.
[[nodiscard]] std::string node_name(const network::Network& network, network::NodeId node);
//! The friction heat's way, "by contact" or the fixed share, in words.
[[nodiscard]] std::string partition_text(const network::Network& network);

//! At most 80 columns.
[[nodiscard]] std::string explanation_text(const Explanation& e, const DisplayUnits& units);
//! Keys: session, and each as {front, rear}: rotor, nodes, links, surfaces, radiations, rubbings, masses; then
//! assumptions, priors. SI.
[[nodiscard]] nlohmann::json explanation_json(const Explanation& e);

}  // namespace hatring::tools
