// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>
#include <variant>
#include <vector>

#include "castplan/geo/coordinate.hpp"

namespace castplan {

/// Shapes on the working grid's plane. Rings are closed (first point repeated), outer rings anticlockwise, holes
/// clockwise; that is also the order that RFC 7946 wants.
using Line = std::vector<XY>;
using Ring = std::vector<XY>;

struct Polygon {
  Ring outer;
  std::vector<Ring> holes;
};

using Points = std::vector<XY>;
using Lines = std::vector<Line>;
using Polygons = std::vector<Polygon>;
using Geometry = std::variant<Points, Lines, Polygons>;

struct Box {
  XY low;
  XY high;
};

Metres length(const Line& line);
/// Signed: positive for an anticlockwise ring.
SquareMetres signed_area(const Ring& ring);
/// Outer ring less holes; never negative.
SquareMetres area(const Polygon& polygon);
SquareMetres area(const Polygons& polygons);

/// The point a share (0 to 1) of the length along the line. Requires a line with at least one point.
XY point_along(const Line& line, double share);

/// A closed line is turned so that it begins at its northernmost vertex (the westernmost of equals), an open one so
/// that its northern end (the western of equals) comes first: the same line always has the same middle.
Line begun_at_north(Line line);

/// Points at even steps along the line, both ends included; the step is shortened so that it divides the length.
Line resampled(const Line& line, Metres step);

/// Cuts a line into pieces of equal length none longer than most. A closed line starts at its first vertex.
Lines cut(const Line& line, Metres most);

/// All vertices of a shape, in order.
Points vertices(const Geometry& geometry);
/// Smallest box that holds the shape; nullopt for an empty one.
std::optional<Box> bounds(const Geometry& geometry);

bool holds(const Box& box, XY place);
/// Distance between two boxes; 0 where they touch.
Metres apart(const Box& a, const Box& b);

/// The place between a and b that is nearest to a point.
XY nearest_on(XY point, XY a, XY b);
/// Distance from a point to the nearest place on a line.
Metres distance(XY point, const Line& line);

/// True inside the ring (even-odd rule); the boundary itself may fall either way.
bool contains(const Ring& ring, XY point);
bool contains(const Polygons& polygons, XY point);

}  // namespace castplan
