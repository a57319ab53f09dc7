// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/shape.hpp"

namespace castplan {

/// Shapes in degrees whose longitudes run on past 180 (x is longitude, y latitude), cut where they cross the 180th
/// meridian: every part comes back with longitudes in [-180, 180]. Cuts are straight in longitude and latitude, as
/// RFC 7946 section 3.1.1 takes a line. Requires longitudes in [-540, 540], outer rings anticlockwise and holes
/// clockwise; a hole that meets the meridian becomes part of the outer rings.
Lines cut_at_180(const Lines& lines);
Polygons cut_at_180(const Polygons& polygons);

/// The same path with each longitude within 180 degrees of the one before, the first within 180 of `near`.
Line unwrapped(Line path, double near);

}  // namespace castplan
