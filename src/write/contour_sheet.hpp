// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "write/sheet_parts.hpp"

namespace castplan::sheet {

/// Where the map stands on the contour sheet and on its key: alike, so that one can be held over the other.
inline constexpr double kAboveMap = 25.0 * kMm;
inline constexpr double kBelowMap = 118.0 * kMm;
inline Area contour_map_area(Area all) {
  return {all.left, all.top + kAboveMap, all.width, all.height - kAboveMap - kBelowMap};
}

}  // namespace castplan::sheet
