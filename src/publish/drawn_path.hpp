// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "publish/map_plane.hpp"
#include "publish/world_grid.hpp"

namespace castplan {

/// Shapes in degrees as SVG path data in the units of a map, with one decimal, simplified to half a unit; closed lines
/// end with "z".
Line drawn_line(const MapPlane& plane, const Line& degrees);
std::string drawn_path(const MapPlane& plane, const Line& degrees);
std::string drawn_path(const MapPlane& plane, const Geometry& degrees);
/// The outline of polygons, without the seam where they are cut at 180 degrees.
std::string drawn_shore(const MapPlane& plane, const Polygons& degrees);
/// A square of the world grid; its sides are bent where the map bends them.
std::string drawn_square(const MapPlane& plane, const CellEdges& edges);

}  // namespace castplan
