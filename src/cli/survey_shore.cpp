// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/survey_shore.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "castplan/geo/planar.hpp"

namespace castplan {

Polygons zero_contours(const std::vector<DepthContour>& contours) {
  Lines rings;
  for (const DepthContour& contour : contours) {
    const bool closed = contour.line.size() > 3 && contour.line.front() == contour.line.back();
    if (contour.depth == Metres(0) && closed) rings.push_back(contour.line);
  }
  std::stable_sort(rings.begin(), rings.end(), [](const Line& a, const Line& b) {
    return std::abs(signed_area(a).value()) > std::abs(signed_area(b).value());
  });
  Polygons shore;
  for (const Line& ring : rings) {
    const auto around = std::find_if(shore.rbegin(), shore.rend(),
                                     [&](const Polygon& lake) { return contains(lake.outer, ring.front()); });
    const bool in_hole =
        around != shore.rend() && std::any_of(around->holes.begin(), around->holes.end(),
                                              [&](const Line& hole) { return contains(hole, ring.front()); });
    if (around == shore.rend() || in_hole) {
      shore.push_back({ring, {}});
    } else {
      around->holes.push_back(ring);
    }
  }
  return made_valid(shore);
}

namespace {

/// Places with a depth, each sounding and each vertex of a contour.
Points places_of(std::span<const Sounding> soundings, std::span<const DepthContour> contours) {
  Points places;
  for (const Sounding& sounding : soundings) places.push_back(sounding.at);
  for (const DepthContour& contour : contours) {
    if (contour.depth > Metres(0)) places.insert(places.end(), contour.line.begin(), contour.line.end());
  }
  std::erase_if(places, [](XY at) { return !std::isfinite(at.x) || !std::isfinite(at.y); });
  return places;
}

bool meet(const Box& a, const Box& b) {
  return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

bool holds_any(const Polygons& one, const Points& places, const Box& reach) {
  const std::optional<Box> box = bounds(one);
  if (!box || !meet(*box, reach)) return false;
  const PreparedShape shape(one);
  return std::any_of(places.begin(), places.end(), [&](XY at) { return holds(*box, at) && shape.covers(at); });
}

}  // namespace

Polygons with_depths(const Polygons& shoreline, std::span<const Sounding> soundings,
                     std::span<const DepthContour> contours) {
  if (shoreline.size() < 2) return shoreline;
  const Points places = places_of(soundings, contours);
  const std::optional<Box> reach = bounds(places);
  Polygons kept;
  for (const Polygon& polygon : shoreline) {
    if (reach && holds_any({polygon}, places, *reach)) kept.push_back(polygon);
  }
  return kept.empty() ? shoreline : kept;
}

}  // namespace castplan
