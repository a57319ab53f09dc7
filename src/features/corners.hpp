// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "castplan/geo/shape.hpp"

namespace castplan {

/// Where a line turns a corner that a boat cannot follow at a cast's distance: its way over 25 m before and after the
/// place differ by 60 degrees or more. The sharpest of each bend, 75 m or more from the ends and from sharper ones.
/// places: every `step` along the line. Numbers of places, ascending. Limits are design choices.
std::vector<std::size_t> corners(std::span<const XY> places, Metres step);

}  // namespace castplan
