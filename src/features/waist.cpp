// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/waist.hpp"

#include <cmath>
#include <utility>
#include <vector>

namespace castplan {

namespace {

using Segments = std::vector<std::pair<XY, XY>>;

Segments shore_near(const Polygons& outline, XY place, double within) {
  Segments near;
  const auto take = [&](const Ring& ring) {
    for (std::size_t i = 1; i < ring.size(); ++i) {
      const XY nearest = nearest_on(place, ring[i - 1], ring[i]);
      if (distance(nearest, place).value() <= within) near.emplace_back(ring[i - 1], ring[i]);
    }
  };
  for (const Polygon& polygon : outline) {
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

}  // namespace

std::optional<Waist> waist_at(const Polygons& outline, XY place, Metres half_width) {
  const Segments shore = shore_near(outline, place, 2 * half_width.value());
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

}  // namespace castplan
