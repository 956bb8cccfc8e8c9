// SPDX-License-Identifier: MIT
#include "tools/cli/run_json.hpp"

namespace hatring::tools {

using nlohmann::json;

json doubt_json(const answer::Doubt& d) {
  json out{{"low", d.low}, {"likely", d.likely}, {"high", d.high}, {"kept", d.kept}, {"inputs", json::array()}};
  for (const answer::InputWeight& w : d.weights)
    out["inputs"].push_back({{"input", w.input},
                             {"first", w.first},
                             {"total", w.total},
                             {"first_error", w.first_error},
                             {"total_error", w.total_error}});
  return out;
}

json full_band_json(const answer::FullBandAnswer& full) {
  json out{{"runs", full.runs},
           {"failed", full.failed},
           {"sentence", full.sentence},
           {"order", full.order},
           {"inputs", json::array()}};
  for (const answer::InputShown& i : full.inputs) {
    json parts = json::array();
    for (const answer::InputShown::Part& p : i.parts)
      parts.push_back({{"where", p.where},
                       {"unit", p.unit},
                       {"low", p.low},
                       {"likely", p.likely},
                       {"high", p.high},
                       {"reason", p.reason}});
    out["inputs"].push_back(
        {{"key", i.key}, {"name", i.name}, {"reading", i.reading}, {"weight", i.weight}, {"parts", parts}});
  }
  return out;
}

}  // namespace hatring::tools
