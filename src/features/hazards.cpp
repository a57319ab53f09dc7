// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "castplan/features/detect.hpp"
#include "castplan/grid/components.hpp"
#include "castplan/grid/distance.hpp"
#include "castplan/grid/isoline.hpp"

namespace castplan {

namespace {

/// A shoal: its cells, and whether it is part of the strip along a shore.
struct Shoal {
  std::vector<std::size_t> cells;
  bool joined_to_shore = false;
};

/// The strip along the shore is no hazard; what is left of a shoal begins this far from land.
struct CutFromShore {
  const Grid<Metres32>* from_land;
  float beyond;
};

bool beside_land(const Lake& lake, Cell at) {
  for (int r = at.row - 1; r <= at.row + 1; ++r) {
    for (int c = at.col - 1; c <= at.col + 1; ++c) {
      if (lake.cover.holds({r, c}) && lake.cover[Cell{r, c}] == Cover::land) return true;
    }
  }
  return false;
}

std::vector<Shoal> shoals(const Lake& lake, const std::function<bool(Cell)>& test) {
  const Components groups = components(lake.depth.frame(), test);
  std::vector<Shoal> found(static_cast<std::size_t>(groups.count));
  for (std::size_t cell = 0; cell < groups.label.size(); ++cell) {
    if (groups.label[cell] < 0) continue;
    Shoal& shoal = found[static_cast<std::size_t>(groups.label[cell])];
    shoal.cells.push_back(cell);
    shoal.joined_to_shore = shoal.joined_to_shore || beside_land(lake, groups.label.cell_of(cell));
  }
  return found;
}

// How far inside the shoal's edge a place lies, in metres of height: positive where shallower than the limit and, for a
// part that was cut from the strip along the shore, further from land than allowed. Distance counts as if it rose by
// one in twenty, about as a shoal's own flank does, so that neither edge pulls at the other between cells.
float inside_by(const Lake& lake, Cell at, float limit, const CutFromShore* cut) {
  constexpr float kRise = 0.05F;
  const float under = limit - lake.depth[at].value();
  return cut == nullptr ? under : std::min(under, kRise * ((*cut->from_land)[at].value() - cut->beyond));
}

// Outline of a group of cells where the depth passes the limit, or at the distance from land where it was cut.
Polygons outline(const Lake& lake, const std::vector<std::size_t>& cells, float limit, const CutFromShore* cut) {
  Frame frame = lake.depth.frame();
  Cell low = lake.depth.cell_of(cells.front());
  Cell high = low;
  for (const std::size_t index : cells) {
    const Cell at = lake.depth.cell_of(index);
    low = {std::min(low.row, at.row), std::min(low.col, at.col)};
    high = {std::max(high.row, at.row), std::max(high.col, at.col)};
  }
  const double side = frame.cell.value();
  frame.corner = frame.corner + XY{(low.col - 1) * side, -(low.row - 1) * side};
  frame.rows = high.row - low.row + 3;
  frame.cols = high.col - low.col + 3;
  Grid<Metres32> height(frame, Metres32(-limit));
  for (int row = 0; row < frame.rows; ++row) {
    for (int col = 0; col < frame.cols; ++col) {
      const Cell at{row + low.row - 1, col + low.col - 1};
      if (!lake.depth.holds(at)) continue;
      // not of another group, which is as far inside as this one
      const float inside = inside_by(lake, at, limit, cut);
      if (inside <= 0) height[Cell{row, col}] = Metres32(inside);
    }
  }
  for (const std::size_t index : cells) {
    const Cell at = lake.depth.cell_of(index);
    height[Cell{at.row - low.row + 1, at.col - low.col + 1}] = Metres32(inside_by(lake, at, limit, cut));
  }
  return area_above(height, std::numeric_limits<float>::min());
}

Feature hazard_feature(const Lake& lake, const std::vector<std::size_t>& cells, Metres limit,
                       const CutFromShore* cut = nullptr) {
  const auto top = *std::min_element(cells.begin(), cells.end(), [&](std::size_t a, std::size_t b) {
    return lake.depth[a] < lake.depth[b] || (lake.depth[a] == lake.depth[b] && a < b);
  });
  Feature feature;
  feature.kind = Kind::hazard;
  feature.anchor = lake.depth.frame().centre(lake.depth.cell_of(top));
  feature.confidence = lake.depth_error_known ? 0.9 : 0.8;
  feature.details = Structure{Metres(lake.depth[top]), "", "shoal"};
  feature.geometry = outline(lake, cells, static_cast<float>(limit.value()), cut);
  return feature;
}

}  // namespace

std::vector<Feature> find_hazards(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.quiet();
  const Metres limit = floating_depth(lake, options.draft, options.margin);
  const auto is_shallow = [&](Cell at) { return lake.cover[at] == Cover::water && lake.depth[at] < Metres32(limit); };
  const Frame& frame = lake.depth.frame();
  const Grid<Metres32> from_land = distance_to(frame, [&](Cell at) { return lake.cover[at] == Cover::land; });
  std::vector<Feature> found;
  std::vector<bool> strip(lake.depth.size());
  for (const Shoal& shoal : shoals(lake, is_shallow)) {
    if (!shoal.joined_to_shore) {
      found.push_back(hazard_feature(lake, shoal.cells, limit));
      continue;
    }
    for (const std::size_t cell : shoal.cells) strip[cell] = true;
  }
  // bars and shelves that run out from the shore: the part beyond where people expect them
  const auto is_far = [&](Cell at) {
    return strip[lake.depth.index(at)] && from_land[at] > Metres32(options.hazard_from_land);
  };
  const CutFromShore cut{&from_land, static_cast<float>(options.hazard_from_land.value())};
  for (const Shoal& shoal : shoals(lake, is_far)) found.push_back(hazard_feature(lake, shoal.cells, limit, &cut));
  for (std::size_t i = 0; i < found.size(); ++i) found[i].name = fmt::format("Shoal {}", i + 1);
  return found;
}

}  // namespace castplan
