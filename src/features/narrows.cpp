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
#include "castplan/grid/sweep.hpp"
#include "features/coarse.hpp"
#include "features/made_apart.hpp"
#include "features/shore_ring.hpp"

namespace castplan {

namespace {

/// The shortest way across the water at a place.
struct Waist {
  XY one;
  XY other;
  [[nodiscard]] XY middle() const { return (one + other) * 0.5; }
  [[nodiscard]] Metres width() const { return distance(one, other); }
};

/// Half of the water's width along its middle: distance to land, on cells that follow the lake's size; NaN off the
/// water. Unknown cells are no shore, so that the width there is only an upper bound.
Grid<Metres32> half_widths(const Lake& lake) {
  const Metres most = std::clamp(Metres(0.004 * std::sqrt(lake.area.value())), Metres(5), Metres(15));
  const Grid<Cover> cover = coarse_cover(lake, coarse_step(lake.depth.frame().cell, most));
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

using Segments = std::vector<std::pair<XY, XY>>;

Segments shore_near(const Lake& lake, XY place, double within) {
  Segments near;
  const auto take = [&](const Ring& ring) {
    for (std::size_t i = 1; i < ring.size(); ++i) {
      const XY nearest = nearest_on(place, ring[i - 1], ring[i]);
      if (distance(nearest, place).value() <= within) near.emplace_back(ring[i - 1], ring[i]);
    }
  };
  for (const Polygon& polygon : lake.outline) {
    take(polygon.outer);
    for (const Ring& hole : polygon.holes) take(hole);
  }
  return near;
}

/// The nearest place of the shore on one side of a line through `middle` across `towards`.
std::optional<XY> nearest_side(const Segments& shore, XY from, XY middle, XY towards) {
  std::optional<XY> best;
  for (const auto& [a, b] : shore) {
    const XY at = nearest_on(from, a, b);
    if (dot(at - middle, towards) <= 0) continue;
    if (!best || distance(at, from) < distance(*best, from)) best = at;
  }
  return best;
}

/// From a place in the middle to the shortest line between its two shores: each end in turn goes to the place of its
/// own shore that is nearest to the other end.
std::optional<Waist> waist_at(const Lake& lake, XY place, double half_width) {
  const Segments shore = shore_near(lake, place, 2 * half_width + 4 * lake.depth.frame().cell.value());
  XY nearest = place;
  double least = HUGE_VAL;
  for (const auto& [a, b] : shore) {
    const XY at = nearest_on(place, a, b);
    if (distance(at, place).value() < least) least = distance(nearest = at, place).value();
  }
  if (!(least > 0) || !std::isfinite(least)) return std::nullopt;
  const auto across = nearest_side(shore, place, place, place - nearest);
  if (!across) return std::nullopt;
  Waist waist{nearest, *across};
  for (int i = 0; i < 50; ++i) {
    const Waist before = waist;
    const auto one = nearest_side(shore, waist.other, waist.middle(), waist.one - waist.other);
    if (!one) return std::nullopt;
    waist.one = *one;
    const auto other = nearest_side(shore, waist.one, waist.middle(), waist.other - waist.one);
    if (!other) return std::nullopt;
    waist.other = *other;
    if (distance(before.one, waist.one) + distance(before.other, waist.other) < Metres(1e-3)) break;
  }
  return waist;
}

/// All the way over water from shore to shore, and both shores are known.
bool crosses_water(const Lake& lake, const Waist& waist) {
  if (beside_unknown(lake, waist.one) || beside_unknown(lake, waist.other)) return false;
  return over_water(lake, waist.one, waist.other);
}

Feature narrows_feature(const Lake& lake, const Waist& waist, double ratio, const DetectOptions& options) {
  Feature feature;
  feature.kind = Kind::narrows;
  feature.anchor = waist.middle();
  feature.geometry = Points{feature.anchor};
  feature.details = Narrows{Metres(depth_at(lake, feature.anchor)), waist.width()};
  // each shore lies somewhere within a cell
  feature.confidence = confidence_of_shape(ratio / options.narrows_ratio, lake.depth.frame().cell / waist.width());
  return feature;
}

}  // namespace

std::vector<Feature> find_narrows(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.lake;
  const Grid<Metres32> half = half_widths(lake);
  const double slack = half.frame().cell.value();  // the distance is to the middle of a cell of land
  std::vector<Feature> found;
  for (const Summit& summit : merge_tree(half)) {
    if (summit.parent < 0 || summit.height < options.narrows_basin.value()) continue;
    if (2 * (summit.pass - slack) > options.narrows_width.value()) continue;
    if (summit.height < options.narrows_ratio * (summit.pass - slack)) continue;
    const auto waist = waist_at(lake, half.frame().centre(half.cell_of(summit.pass_cell)), summit.pass);
    if (!waist || waist->width() > options.narrows_width || !crosses_water(lake, *waist)) continue;
    const double ratio = (2 * summit.height - slack) / waist->width().value();
    if (ratio < options.narrows_ratio) continue;
    if (cover_at(lake, waist->middle()) != Cover::water) continue;
    found.push_back(narrows_feature(lake, *waist, ratio, options));
  }
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) {
    return std::get<Narrows>(a.details).width < std::get<Narrows>(b.details).width;
  });
  return numbered(std::move(found), "Narrows");
}

}  // namespace castplan
