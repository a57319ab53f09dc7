// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/soundings.hpp"

namespace castplan {

/// The even-odd area of the closed contours of depth 0: a ring within another is an island.
Polygons zero_contours(const std::vector<DepthContour>& contours);

/// The polygons that hold a sounding, or part of a contour deeper than 0: a layer often has other lakes too, whose
/// depths nobody knows. All of them where none does.
Polygons with_depths(const Polygons& shoreline, std::span<const Sounding> soundings,
                     std::span<const DepthContour> contours);

}  // namespace castplan
