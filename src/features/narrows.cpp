// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/grid/distance.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sweep.hpp"
#include "features/coarse.hpp"
#include "features/made_apart.hpp"
#include "features/shore_ring.hpp"
#include "features/waist.hpp"

namespace castplan {

namespace {

/// The water that is deeper than a level, with all that is not as its land; the lake itself at level 0.
struct Deeper {
  Metres level;
  Grid<Cover> wide;          ///< on cells that follow the lake's size
  const Grid<Cover>& cover;  ///< on cells as fine as the outline
  const Polygons& outline;
};

/// Half of the water's width along its middle: distance to land, NaN off the water. Unknown cells are no shore, so that
/// the width there is only an upper bound.
Grid<Metres32> half_widths(const Grid<Cover>& cover) {
  Grid<Metres32> half = distance_to(cover.frame(), [&](Cell at) { return cover[at] == Cover::land; });
  sweep(half.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (std::size_t col = 0; col < half.row(row).size(); ++col) {
        Metres32& value = half.row(row)[col];
        const bool water = cover.row(row)[col] == Cover::water && std::isfinite(value.value());
        value = water ? value : Metres32(std::numeric_limits<float>::quiet_NaN());
      }
    }
  });
  return half;
}

/// What is deeper than a level is water, what is known and not is land.
Grid<Cover> cover_below(const Grid<Metres32>& depth, Metres level) {
  Grid<Cover> out(depth.frame(), Cover::unknown);
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const double d = static_cast<double>(depth[i].value());
    if (!std::isnan(d)) out[i] = d > level.value() ? Cover::water : Cover::land;
  }
  return out;
}

/// ratio: of the basins' width to the waist's.
Feature narrows_feature(const Ground& ground, const Waist& waist, const Deeper& water, double ratio,
                        const DetectOptions& options) {
  Feature feature;
  feature.kind = Kind::narrows;
  feature.anchor = waist.middle();
  feature.geometry = Points{feature.anchor};
  const Metres depth(depth_at(water.level > Metres(0) ? ground.quiet() : ground.lake, feature.anchor));
  feature.details = Narrows{depth, waist.width(), water.level};
  // each shore lies somewhere within a cell; a contour moves with the survey's errors besides
  const Metres cell = water.cover.frame().cell;
  feature.confidence = confidence_of_shape(ratio / options.narrows_ratio, cell / waist.width());
  if (water.level > Metres(0)) {
    const Evidence under{.relief = depth - water.level, .asked = options.narrows_relief};
    feature.confidence = std::min(feature.confidence, confidence_of(under, ground, feature.anchor));
  }
  return feature;
}

/// All the way over water from shore to shore, and both shores are known.
bool crosses_water(const Grid<Cover>& cover, const Waist& waist) {
  if (beside_unknown(cover, waist.one) || beside_unknown(cover, waist.other)) return false;
  return cover_at(cover, waist.middle()) == Cover::water && over_water(cover, waist.one, waist.other);
}

/// The waists of one level, each between two basins that are wider.
std::vector<Feature> waists(const Ground& ground, const Deeper& water, const DetectOptions& options) {
  const Grid<Metres32> half = half_widths(water.wide);
  const double slack = half.frame().cell.value();  // the distance is to the middle of a cell of land
  std::vector<Feature> found;
  for (const Summit& summit : merge_tree(half)) {
    if (summit.parent < 0 || summit.height < options.narrows_basin.value()) continue;
    if (2 * (summit.pass - slack) > options.narrows_width.value()) continue;
    if (summit.height < options.narrows_ratio * (summit.pass - slack)) continue;
    const auto waist = waist_at(water.outline, half.frame().centre(half.cell_of(summit.pass_cell)),
                                Metres(summit.pass + 2 * water.cover.frame().cell.value()));
    if (!waist || waist->width() > options.narrows_width || !crosses_water(water.cover, *waist)) continue;
    const double ratio = (2 * summit.height - slack) / waist->width().value();
    if (ratio < options.narrows_ratio) continue;
    Feature narrows = narrows_feature(ground, *waist, water, ratio, options);
    const Metres depth = std::get<Narrows>(narrows.details).depth;
    if (water.level > Metres(0) &&
        !(depth - water.level >= over_noise(options.narrows_relief, ground.lake, waist->middle())))
      continue;
    found.push_back(std::move(narrows));
  }
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) {
    return std::get<Narrows>(a.details).width < std::get<Narrows>(b.details).width;
  });
  return found;
}

/// A deeper waist beside one that is known already is the same place.
bool is_known(const std::vector<Feature>& known, const Feature& narrows) {
  return std::any_of(known.begin(), known.end(), [&](const Feature& other) {
    const Metres apart = distance(other.anchor, narrows.anchor);
    return apart < std::max(std::get<Narrows>(other.details).width, Metres(60));
  });
}

}  // namespace

std::vector<Feature> find_narrows(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.lake;
  const Metres most = std::clamp(Metres(0.004 * std::sqrt(lake.area.value())), Metres(5), Metres(15));
  const int step = coarse_step(lake.depth.frame().cell, most);
  std::vector<Feature> found = waists(ground, {Metres(0), coarse_cover(lake, step), lake.cover, lake.outline}, options);
  const Grid<Metres32> depth = coarse_depth(ground.quiet(), step);
  for (const Metres level : options.narrows_levels) {
    const Grid<Cover> cover = cover_below(depth, level);
    const Polygons outline = area_above(depth, static_cast<float>(level.value()));
    for (Feature& narrows : waists(ground, {level, cover, cover, outline}, options)) {
      if (!is_known(found, narrows)) found.push_back(std::move(narrows));
    }
  }
  return numbered(std::move(found), "Narrows");
}

}  // namespace castplan
