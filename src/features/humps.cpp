// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/features/detect.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/sweep.hpp"
#include "features/basin.hpp"

namespace castplan {

namespace {

// The flank of a hump fades into the floor, so its outline is drawn where a tenth of its relief has been climbed.
constexpr float kOutlineShare = 0.1F;

// Height is depth with its sign turned; the shore stands at 0 and every hump joins it in the end.
Grid<Metres32> heights(const Lake& lake) {
  Grid<Metres32> field(lake.depth.frame());
  sweep(field.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      const auto depth = lake.depth.row(row);
      const auto out = field.row(row);
      for (std::size_t col = 0; col < out.size(); ++col) out[col] = -depth[col];
    }
  });
  return field;
}

Feature hump_feature(const Grid<Metres32>& field, const Summit& summit, float base) {
  const float relief = summit.height - base;
  const Basin basin = basin_above(field, summit.cell, base + kOutlineShare * relief);
  Feature feature;
  feature.kind = Kind::hump;
  feature.anchor = field.frame().centre(field.cell_of(summit.cell));
  feature.details = Hump{Metres(-summit.height), feature.anchor, Metres(-base), Metres(relief), area(basin.outline)};
  feature.geometry = simplified(basin.outline, field.frame().cell * 0.1);
  return feature;
}

}  // namespace

std::vector<Feature> find_humps(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.quiet();
  const Grid<Metres32> field = heights(lake);
  std::vector<Summit> summits = merge_tree(field);
  std::erase_if(summits, [&](const Summit& summit) {
    // a summit at 0 is land
    return summit.height >= 0 || (summit.parent >= 0 && summit.prominence() < options.hump_relief.value());
  });
  std::sort(summits.begin(), summits.end(), [](const Summit& a, const Summit& b) {
    if (a.height != b.height) return a.height > b.height;
    return a.cell < b.cell;
  });
  std::vector<Feature> humps;
  for (const Summit& summit : summits) {
    // without a pass it is the shallowest place of water that meets no shore on this map: only the map's edge bounds it
    float base = summit.parent >= 0 ? summit.pass : std::numeric_limits<float>::lowest();
    bool certain = true;
    if (const auto contact = highest_unknown_contact(field, lake, cells_above(field, summit.cell, base))) {
      certain = false;
      base = *contact;
    }
    if (summit.height - base < options.hump_relief.value() || base == std::numeric_limits<float>::lowest()) continue;
    Feature feature = hump_feature(field, summit, base);
    const Metres relief = std::get<Hump>(feature.details).relief;
    feature.confidence = confidence_in(relief, options.hump_relief, lake, feature.anchor) * (certain ? 1.0 : 0.5);
    feature.name = fmt::format("Hump {}", humps.size() + 1);
    humps.push_back(std::move(feature));
  }
  return humps;
}

}  // namespace castplan
