// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "castplan/geo/shape.hpp"

namespace castplan {

/// Plane geometry that GEOS does for us; no GEOS type leaves this header. Throws InputError with GEOS' words for shapes
/// that it cannot build (rings that are not closed, coordinates that are not finite).

/// Fewer vertices, nowhere further than tolerance from the original (Douglas-Peucker). Closed lines stay closed; a
/// loop smaller than the tolerance is kept as it is.
Line simplified(const Line& line, Metres tolerance);
/// The same for polygons; never turns a valid polygon into an invalid or empty one (keeps the original then).
Polygons simplified(const Polygons& polygons, Metres tolerance);

/// Everything within a distance of the shape. Arcs are chords of 5.6 degrees: at most 0.13 % of the distance too
/// narrow.
Polygons buffered(const Geometry& geometry, Metres distance);

/// Lines to the left of a line (negative: to the right), everywhere at this distance from it and nowhere nearer, in no
/// stated direction; what would fold over itself in a bend is cut away, so that there may be several pieces or none.
Lines beside(const Line& line, Metres left);

/// True when the line meets itself nowhere, not at its ends either. Requires two places or more.
bool is_simple(const Line& line);

/// Empty when the polygons are valid (OGC simple features); else what is wrong, in GEOS' words.
std::string invalidity(const Polygons& polygons);
/// Nearest valid form of polygons that cross or touch themselves or each other; overlapping ones are united. Open rings
/// are closed and rings without an area left out. Valid polygons come back unchanged.
Polygons made_valid(const Polygons& polygons);

/// A fixed shape that many questions are asked of; polygons that are not valid are made valid first. Copies share one
/// prepared geometry; not safe across threads.
class PreparedShape {
 public:
  explicit PreparedShape(const Geometry& geometry);
  [[nodiscard]] bool covers(XY point) const;
  [[nodiscard]] bool touches(const Line& line) const;  ///< any point in common
  [[nodiscard]] Metres distance_to(XY point) const;    ///< 0 inside
 private:
  struct Impl;
  std::shared_ptr<Impl> impl_;
};

}  // namespace castplan
