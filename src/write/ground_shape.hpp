// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/geo/shape.hpp"
#include "castplan/write/text.hpp"

namespace castplan {

/// A place as it is printed: millionths of a degree, WGS 84. Whole numbers, so that what is checked is what is written.
struct MicroPlace {
  std::int64_t lon{};
  std::int64_t lat{};
  bool operator==(const MicroPlace&) const = default;
};
using MicroPath = std::vector<MicroPlace>;

/// Outer ring anticlockwise, holes clockwise, all closed, four places or more, none repeated in a row.
struct MicroPolygon {
  MicroPath outer;
  std::vector<MicroPath> holes;
};

/// A shape as it is printed: points, lines or polygons; any of them may be empty.
using GroundShape = std::variant<MicroPath, std::vector<MicroPath>, std::vector<MicroPolygon>>;

MicroPlace printed(LonLat place);
LonLat lonlat(MicroPlace place);

/// A shape of the working grid in longitude and latitude, rounded to what is printed, cut at the 180th meridian, rings
/// in the order of RFC 7946. What collapses in rounding (a line with fewer than two places, a ring with fewer than
/// four or without area) is left out.
GroundShape ground_shape(const Geometry& geometry, const Projection& projection);

bool is_empty(const GroundShape& shape);

/// A GeoJSON geometry, or null for an empty shape: Point, LineString or Polygon for one part, else Multi.
void write_geometry(JsonText& json, const GroundShape& shape);

/// [lon, lat]
void write_place(JsonText& json, MicroPlace place);

/// The box of all that was written, for `bbox`. Across the 180th meridian west is greater than east (RFC 7946, 5.2).
/// Requires that all of it spans less than 180 degrees, as a lake does.
class Extent {
 public:
  void add(MicroPlace place);
  void add(const GroundShape& shape);
  struct Box {
    MicroPlace south_west;
    MicroPlace north_east;
  };
  [[nodiscard]] std::optional<Box> box() const;  ///< nothing when nothing was added

 private:
  struct Range {
    std::optional<std::int64_t> low, high;
    void add(std::int64_t value);
  };
  Range east_, west_, lat_;  // longitudes from 0 up, and below 0
};

/// Key and value; nothing when nothing was added.
void write_bbox(JsonText& json, const Extent& extent);

}  // namespace castplan
