// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/inside.hpp"
#include "castplan/terrain/fetch.hpp"
#include "features/made_apart.hpp"
#include "features/pockets.hpp"

namespace castplan {

namespace {

/// The ring left of a line, cut off along it (Sutherland & Hodgman 1974, Comm. ACM 17, 32-42); empty when nothing is.
Ring left_of(const Ring& ring, XY from, XY to) {
  const auto side = [&](XY at) { return cross(to - from, at - from); };
  Ring out;
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
    const double a = side(ring[i]), b = side(ring[i + 1]);
    if (a >= 0) out.push_back(ring[i]);
    if ((a < 0) != (b < 0)) out.push_back(ring[i] + (ring[i + 1] - ring[i]) * (a / (a - b)));
  }
  if (out.size() < 3) return {};
  out.push_back(out.front());
  return out;
}

/// The water behind the mouth, without its islands; one that stands in the mouth is cut along it.
Polygons bay_water(const Polygon& water, const Line& shore) {
  Polygon pocket{shore, {}};
  pocket.outer.push_back(shore.front());
  bool in_mouth = false;
  for (const Ring& island : water.holes) {
    const auto inside = std::count_if(island.begin(), island.end(), [&](XY at) { return contains(pocket.outer, at); });
    if (inside == 0) continue;
    const bool whole = inside == static_cast<std::ptrdiff_t>(island.size());
    in_mouth = in_mouth || !whole;
    Ring part = whole ? island : left_of(island, shore.back(), shore.front());
    if (!part.empty()) pocket.holes.push_back(std::move(part));
  }
  return in_mouth ? made_valid({pocket}) : Polygons{pocket};
}

/// Mean of the depths of the cells whose centres lie in the polygons; NaN without any.
double mean_depth(const Lake& lake, const Polygons& polygons) {
  double sum = 0;
  std::size_t count = 0;
  runs_inside(rings_of(polygons), lake.depth.frame(), [&](int row, int first, int last) {
    for (int col = first; col < last; ++col) {
      if (lake.cover[Cell{row, col}] != Cover::water) continue;
      sum += static_cast<double>(lake.depth[Cell{row, col}].value());
      ++count;
    }
  });
  return count > 0 ? sum / static_cast<double>(count) : NAN;
}

/// Length of water along the way between two places.
double water_along(const Lake& lake, XY from, XY to) {
  const int steps = std::max(1, static_cast<int>(std::ceil(4 * (distance(from, to) / lake.depth.frame().cell))));
  int islands = 0;
  for (int i = 0; i < steps; ++i) {
    const double share = (i + 0.5) / steps;
    const double from_end = std::min(share, 1 - share) * distance(from, to).value();
    const bool at_end = from_end < 1.5 * lake.depth.frame().cell.value();
    islands += !at_end && cover_at(lake, from + (to - from) * share) == Cover::land ? 1 : 0;
  }
  return distance(from, to).value() * (1 - static_cast<double>(islands) / steps);
}

/// The middle of the longest stretch of water in the mouth.
XY mouth_middle(const Lake& lake, XY a, XY b) {
  const int steps = std::max(2, static_cast<int>(std::ceil(4 * (distance(a, b) / lake.depth.frame().cell))));
  int best = 0, best_from = 0, run = 0;
  for (int i = 0; i < steps; ++i) {
    run = cover_at(lake, a + (b - a) * ((i + 0.5) / steps)) == Cover::water ? run + 1 : 0;
    if (run <= best) continue;
    best = run;
    best_from = i + 1 - run;
  }
  return a + (b - a) * (best > 0 ? (best_from + best / 2.0) / steps : 0.5);
}

Feature bay_feature(const Lake& lake, const Polygon& water, const ShoreRing& ring, const Pocket& pocket,
                    const DetectOptions& options) {
  const Line shore = ring.part(pocket.from, pocket.to);
  const Polygons shape = bay_water(water, shore);
  const XY first = shore.back(), second = shore.front();
  const XY out = unit({(second - first).y, -(second - first).x});
  Feature feature;
  feature.kind = Kind::bay;
  feature.anchor = mouth_middle(lake, first, second);
  feature.geometry = simplified(shape, lake.depth.frame().cell * 0.1);
  const double mouth = water_along(lake, first, second);
  feature.details = Bay{area(shape),
                        {first, second},
                        Metres(mouth),
                        Metres(mean_depth(lake, shape)),
                        true_bearing(lake.projection, feature.anchor, feature.anchor + out * 50),
                        effective_fetch(lake, feature.anchor, out)};
  // each end of the mouth lies somewhere within a cell
  const double margin = std::min(pocket.area / (pocket.area - pocket.beyond_half_circle()),
                                 (pocket.to - pocket.from) / (options.bay_winding * pocket.chord));
  feature.confidence = confidence_of_shape(margin, lake.depth.frame().cell.value() / pocket.chord);
  return feature;
}

}  // namespace

std::vector<Feature> find_bays(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.lake;
  std::vector<Feature> found;
  for (const Polygon& water : lake.outline) {
    if (water.outer.size() < 4 || options.bay_share * area(water).value() < options.bay_area.value()) continue;
    const ShoreRing ring(water.outer);
    for (const Pocket& pocket : pockets(lake, water, ring, options)) {
      Feature feature = bay_feature(lake, water, ring, pocket, options);
      if (std::isfinite(std::get<Bay>(feature.details).mean_depth.value())) found.push_back(std::move(feature));
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) {
    return std::get<Bay>(a.details).area > std::get<Bay>(b.details).area;
  });
  return numbered(std::move(found), "Bay");
}

}  // namespace castplan
