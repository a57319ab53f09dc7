// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <limits>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/geo/planar.hpp"
#include "features/basin.hpp"
#include "features/floor.hpp"
#include "features/made_apart.hpp"

namespace castplan {

namespace {

// The flank of a hump fades into the floor, so its outline is drawn where a tenth of its relief has been climbed.
constexpr float kOutlineShare = 0.1F;

std::optional<Feature> hump_feature(const Heights& heights, const Summit& summit, const Ground& ground, bool all_known,
                                    const DetectOptions& options) {
  const Lake& lake = ground.quiet();
  // without a pass it is the shallowest place of water that meets no shore on this map: only the map's edge bounds it
  float base = summit.parent >= 0 ? summit.pass : std::numeric_limits<float>::lowest();
  bool certain = true;
  if (!all_known) {
    const auto contact = highest_unknown_contact(heights, lake, runs_above(heights, summit.cell, base));
    certain = !contact;
    base = contact.value_or(base);
  }
  const float relief = summit.height - base;
  const XY top = heights.frame().centre(heights.field().cell_of(summit.cell));
  const Metres least = over_noise(options.hump_relief, lake, top);
  if (relief < least.value() || base == std::numeric_limits<float>::lowest()) return std::nullopt;
  const Polygons outline = basin_above(heights, summit.cell, base + kOutlineShare * relief).outline;
  Feature feature;
  feature.kind = Kind::hump;
  feature.anchor = top;
  feature.details = Hump{Metres(-summit.height), feature.anchor, Metres(-base), Metres(relief), area(outline)};
  feature.geometry = simplified(outline, heights.frame().cell * 0.1);
  feature.confidence =
      confidence_of({.relief = Metres(relief),
                     .asked = options.hump_relief,
                     .seen_wide = seen_wide(ground.floor.get(), feature.anchor, Metres(-base), Metres(-summit.height)),
                     .certain = certain},
                    ground, feature.anchor);
  return feature;
}

}  // namespace

std::vector<Feature> find_humps(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.quiet();
  // height is depth with its sign turned; the shore stands at 0 and every hump joins it in the end
  const Heights heights(lake.depth, Heights::upside_down);
  std::vector<Summit> summits = merge_tree(heights);
  std::erase_if(summits, [&](const Summit& summit) {
    // a summit at 0 is land
    return summit.height >= 0 || (summit.parent >= 0 && summit.prominence() < options.hump_relief.value());
  });
  std::sort(summits.begin(), summits.end(), [](const Summit& a, const Summit& b) {
    if (a.height != b.height) return a.height > b.height;
    return a.cell < b.cell;
  });
  const bool all_known = !may_touch_unknown(lake);
  const auto make = [&](int i) {
    return hump_feature(heights, summits[static_cast<std::size_t>(i)], ground, all_known, options);
  };
  return numbered(in_parallel(static_cast<int>(summits.size()), make), "Hump");
}

}  // namespace castplan
