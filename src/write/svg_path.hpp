// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "write/depth_picture.hpp"

namespace castplan {

/// "M12 40l3 -2 5 0": the line in the view's drawing units, rounded to whole ones, without vertices that fall together.
/// Empty when fewer than two are left. Closed lines end with z.
std::string svg_path(const MapView& view, const Line& line);
/// A place, as a line of no length: a dot where line ends are round.
std::string svg_dot(const MapView& view, XY place);
/// Rings of all polygons, to be filled by the even-odd rule.
std::string svg_path(const MapView& view, const Polygons& polygons);
/// Lines, polygons (simplified to a pixel of the depth picture); empty for points.
std::string svg_path(const MapView& view, const Geometry& geometry);

}  // namespace castplan
