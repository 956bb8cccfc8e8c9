// SPDX-License-Identifier: MIT
// The friction ring: cheeks in graded layers times radial bands, vanes between them.
#include <fmt/format.h>

#include <cmath>
#include <numeric>

#include "models/disc_geometry.hpp"
#include "models/friction.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/builder.hpp"

namespace hatring::network {
namespace {

using models::annulus_area;

struct Band {
  double inner, outer;
  bool swept;
  [[nodiscard]] double area() const { return annulus_area(inner, outer); }
  [[nodiscard]] double middle() const { return 0.5 * (inner + outer); }
};

std::vector<Band> bands_of(const session::Ring& ring, const MeshCounts& counts) {
  const double bore = ring.inner_diameter / 2, swept = ring.swept_inner_diameter / 2, outer = ring.outer_diameter / 2;
  std::vector<Band> bands;
  // A sliver of unrubbed iron is not worth a band; coarse meshes have none.
  const bool rim = swept - bore > 0.002 && counts.inner_bands > 0;
  const auto cut = [&](double from, double to, int count, bool is_swept) {
    for (int i = 0; i < count; ++i)
      bands.push_back({from + (to - from) * i / count, from + (to - from) * (i + 1) / count, is_swept});
  };
  if (rim) cut(bore, swept, counts.inner_bands, false);
  cut(rim ? swept : bore, outer, counts.swept_bands, true);
  return bands;
}

// One cell of the ring: a layer of a cheek (or half a solid plate) in a band.
struct Cell {
  NodeId node;
  double thickness;
};

class RingBuilder {
 public:
  explicit RingBuilder(Builder& b)
      : b_(b),
        ring_(b.brake.rotor.ring),
        vented_(ring_.kind == session::RingKind::vented),
        first_(b.net.size()),
        bands_(bands_of(ring_, b.counts)) {
    plate_ = vented_ ? ring_.cheek_thickness : ring_.thickness / 2;
    layers_ = graded(plate_, b.counts.layers, std::pow(kLayerSpread, 1.0 / b.counts.layers));
    vanes_ = vane_geometry(ring_);
  }

  RingNodes build() {
    RingNodes out;
    out.bore_radius = ring_.inner_diameter / 2;
    b_.counts.lump ? make_lump() : make_cells();
    if (!b_.counts.lump) link_cells();
    for (std::size_t band = 0; band < bands_.size(); ++band) {
      cool_band(band);
      if (!bands_[band].swept) continue;
      if (out.swept_edges.empty()) out.swept_edges.push_back(bands_[band].inner);
      out.swept_edges.push_back(bands_[band].outer);
    }
    cool_rims();
    list_bands();
    out.all.resize(static_cast<std::size_t>(b_.net.size() - first_));
    std::iota(out.all.begin(), out.all.end(), first_);
    for (const bool inboard : {false, true})
      for (const Cell& cell : cells(0, inboard)) out.bore.push_back({cell.node, cell.thickness});
    out.bore_half_width = 0.5 * (bands_[0].outer - bands_[0].inner);
    return out;
  }

 private:
  [[nodiscard]] const std::vector<Cell>& cells(std::size_t band, bool inboard) const {
    return cells_[2 * band + (inboard ? 1 : 0)];
  }
  [[nodiscard]] double density() const { return b_.material(ring_.material).density; }

  void make_lump() {
    const double volume = vented_ ? models::vented_ring_volume(plate_, vanes_)
                                  : models::annulus_volume(vanes_.inner_radius, vanes_.outer_radius, ring_.thickness);
    const NodeId node = b_.add("ring", Part::ring, density() * volume, ring_.material);
    for (std::size_t i = 0; i < 2 * bands_.size(); ++i) cells_.push_back({{node, plate_}});
    for (const bool inboard : {false, true})
      for (const Band& band : bands_)
        if (band.swept) b_.net.faces.push_back({.cell = node, .area = band.area(), .inboard = inboard});
    if (vented_) vane_nodes_.assign(bands_.size(), node);
  }

  void make_cells() {
    for (std::size_t band = 0; band < bands_.size(); ++band) {
      for (const char* side : {"outboard", "inboard"}) {
        std::vector<Cell> column;
        for (std::size_t k = 0; k < layers_.size(); ++k) {
          const NodeId node = b_.add(fmt::format("ring.{}.band{}.layer{}", side, band + 1, k + 1), Part::ring,
                                     density() * bands_[band].area() * layers_[k], ring_.material);
          column.push_back({node, layers_[k]});
        }
        cells_.push_back(std::move(column));
      }
    }
    if (!vented_) return;
    const double vane_volume = models::vane_volume(vanes_);
    for (std::size_t band = 0; band < bands_.size(); ++band)
      vane_nodes_.push_back(b_.add(fmt::format("ring.vanes.band{}", band + 1), Part::ring,
                                   density() * vane_volume * vane_share(band), ring_.material));
  }

  // Straight vanes: iron and wall grow with the radial width of the band.
  [[nodiscard]] double vane_share(std::size_t band) const {
    return (bands_[band].outer - bands_[band].inner) / (vanes_.outer_radius - vanes_.inner_radius);
  }

  void link_cells() {
    for (std::size_t band = 0; band < bands_.size(); ++band) {
      const double area = bands_[band].area();
      for (const bool inboard : {false, true}) {
        const std::vector<Cell>& column = cells(band, inboard);
        if (bands_[band].swept)
          b_.net.faces.push_back({column[0].node, column.size() > 1 ? column[1].node : -1, column[0].thickness / area,
                                  area, column.size() > 1 ? static_cast<int>(b_.net.links.size()) : -1, inboard});
        for (std::size_t k = 0; k + 1 < column.size(); ++k)
          b_.net.link({column[k].node, column[k + 1].node, Builder::half(column[k].thickness, area),
                       Builder::half(column[k + 1].thickness, area), 0, 0, "ring"});
        if (vented_) {
          // Into the vanes through their roots; a vane's own half height is the way to its node.
          const double root = vanes_.thickness * vanes_.count * (bands_[band].outer - bands_[band].inner);
          b_.net.link({column.back().node, vane_nodes_[band], Builder::half(column.back().thickness, area),
                       Builder::half(vanes_.height / 2, root), 0, 0, "ring"});
        }
        if (band + 1 == bands_.size()) continue;
        for (std::size_t k = 0; k < column.size(); ++k) {
          const double wrap = 2 * M_PI * column[k].thickness;
          b_.net.link({column[k].node, cells(band + 1, inboard)[k].node,
                       std::log(bands_[band].outer / bands_[band].middle()) / wrap,
                       std::log(bands_[band + 1].middle() / bands_[band].outer) / wrap, 0, 0, "ring"});
        }
      }
      if (!vented_) {
        const Cell &a = cells(band, false).back(), &c = cells(band, true).back();
        b_.net.link({a.node, c.node, Builder::half(a.thickness, area), Builder::half(c.thickness, area), 0, 0, "ring"});
      }
    }
  }

  void cool_band(std::size_t band) {
    const Band& bd = bands_[band];
    const double bare = bd.area() * (1 - assumed::kCoveredFace);
    for (const bool inboard : {false, true}) {
      const NodeId cell = cells(band, inboard).front().node;
      // Both faces of a band share a table unless a shield sets them apart.
      const bool shielded = inboard && b_.cooling.config().shield;
      b_.cool(cell, b_.air, bare,
              fmt::format("ring face {:.4f} to {:.4f} m{}", bd.inner, bd.outer, shielded ? ", shielded" : ""),
              RingFace{bd.inner, bd.outer, shielded});
      b_.radiate(cell, kAmbient, (bd.swept ? ring_.emissivity : b_.material(ring_.material).emissivity) * bare);
      if (b_.cooling.config().aim == session::DuctAim::face && inboard && b_.cooling.config().duct_area > 0)
        b_.cool(cell, kAmbient, bd.area() / annulus_area(vanes_.inner_radius, vanes_.outer_radius),
                "duct on the inboard face",
                DuctedAir{assumed::kDuctOnFace * annulus_area(vanes_.inner_radius, vanes_.outer_radius),
                          vanes_.outer_radius - vanes_.inner_radius});
    }
    if (!vented_) return;
    // Passage walls: the vanes' flanks cool the vane node, the cheeks' inner sides the innermost layers.
    const double wetted = models::vane_wetted_area(vanes_);
    const double flanks = 2.0 * vanes_.count * (vanes_.outer_radius - vanes_.inner_radius) * vanes_.height / wetted;
    const VanePassages passage{vanes_};
    const DuctedAir eye{wetted, vanes_.outer_radius - vanes_.inner_radius, models::vane_inlet_area(vanes_)};
    const bool ducted = b_.cooling.config().aim == session::DuctAim::eye && b_.cooling.config().duct_area > 0;
    const auto cool_wall = [&](NodeId node, double share) {
      b_.cool(node, b_.air, share, "vane passages", passage);
      if (ducted) b_.cool(node, kAmbient, share, "duct into the eye", eye);
    };
    cool_wall(vane_nodes_[band], flanks * vane_share(band));
    for (const bool inboard : {false, true}) {
      const double ring_area = annulus_area(vanes_.inner_radius, vanes_.outer_radius);
      cool_wall(cells(band, inboard).back().node, 0.5 * (1 - flanks) * bd.area() / ring_area);
    }
  }

  // Outer rim and bore of both cheeks, and the mouths of the passages, which see out as near-black cavities.
  void cool_rims() {
    const double outer = vanes_.outer_radius, bore = vanes_.inner_radius;
    const double emissivity = b_.material(ring_.material).emissivity;
    const std::size_t last = bands_.size() - 1;
    for (const bool inboard : {false, true}) {
      const NodeId rim = cells(last, inboard).back().node, inner = cells(0, inboard).back().node;
      const double rim_area = 2 * M_PI * outer * plate_, bore_area = 2 * M_PI * bore * plate_;
      b_.cool(rim, b_.air, rim_area, "ring rim", RingEdge{outer});
      b_.cool(inner, b_.air, bore_area, "ring bore", RingEdge{bore});
      b_.radiate(rim, kAmbient, emissivity * rim_area);
    }
    if (vented_)
      b_.radiate(vane_nodes_[last], kAmbient, assumed::kVaneMouthEmissivity * models::vane_outlet_area(vanes_));
  }

  void list_bands() {
    std::vector<NodeId> swept[2];
    for (std::size_t band = 0; band < bands_.size(); ++band) {
      std::vector<NodeId> both;
      for (const bool inboard : {false, true})
        for (const Cell& cell : cells(band, inboard)) {
          both.push_back(cell.node);
          if (bands_[band].swept) swept[inboard ? 1 : 0].push_back(cell.node);
        }
      b_.net.ring_bands.push_back({bands_[band].inner, bands_[band].outer, b_.net.by_mass(both)});
    }
    for (const std::size_t side : {0U, 1U}) b_.net.cheeks[side] = b_.net.by_mass(swept[side]);
  }

  Builder& b_;
  const session::Ring& ring_;
  bool vented_;
  NodeId first_;
  std::vector<Band> bands_;
  double plate_ = 0;
  std::vector<double> layers_;
  models::VaneGeometry vanes_;
  std::vector<std::vector<Cell>> cells_;  // band by band: outboard column, inboard column, from the face inward
  std::vector<NodeId> vane_nodes_;
};

}  // namespace

models::VaneGeometry vane_geometry(const session::Ring& ring) {
  const double plates = ring.kind == session::RingKind::vented ? 2 * ring.cheek_thickness : ring.thickness;
  return {ring.outer_diameter / 2, ring.inner_diameter / 2, ring.thickness - plates, ring.vanes.thickness,
          ring.vanes.count};
}

RingNodes build_ring(Builder& b) {
  return RingBuilder(b).build();
}

}  // namespace hatring::network
