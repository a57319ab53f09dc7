// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/map_plane.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {
namespace {

void widen(double& low, double& high, double wanted) {
  const double more = std::max(0.0, (wanted - (high - low)) / 2.0);
  low -= more;
  high += more;
}

}  // namespace

MapPlane::MapPlane(LonLat centre, const Polygons& outline)
    : projection_(Projection::transverse_mercator(centre)), centre_(centre) {
  Points all;
  for (const XY at : vertices(outline)) all.push_back(projection_.from_lonlat({Longitude{at.x}, Latitude{at.y}}));
  Box box = bounds(all).value_or(Box{{-100.0, -100.0}, {100.0, 100.0}});
  const double margin = std::max(10.0, 0.05 * std::max(box.high.x - box.low.x, box.high.y - box.low.y));
  box = {box.low - XY{margin, margin}, box.high + XY{margin, margin}};
  widen(box.low.x, box.high.x, 0.75 * (box.high.y - box.low.y));
  widen(box.low.y, box.high.y, (box.high.x - box.low.x) / 1.9);
  unit_ = std::max(box.high.x - box.low.x, box.high.y - box.low.y) / kLongest;
  corner_ = {box.low.x, box.high.y};
  width_ = (box.high.x - box.low.x) / unit_;
  height_ = (box.high.y - box.low.y) / unit_;
}

bool MapPlane::may_hold(LonLat place) const {
  const double metres = std::abs(place.lat.degrees - centre_.lat.degrees) * 110000.0;
  return metres <= (width_ + height_) * unit_;
}

XY MapPlane::drawn(XY degrees) const {
  const XY at = projection_.from_lonlat({Longitude{degrees.x}, Latitude{degrees.y}});
  return {(at.x - corner_.x) / unit_, (corner_.y - at.y) / unit_};
}

}  // namespace castplan
