// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/write/plan.hpp"
#include "write/sheet_canvas.hpp"

namespace castplan::sheet {

/// A number on the map, at least 5 mm high, beside the place that it means.
struct Mark {
  std::string label;
  XY at;
};

/// The map with its key, scale and north below it, in greys that a black-and-white printer keeps apart. Draws one
/// Figure and returns its text for those who cannot see it.
std::string draw_map(Canvas& canvas, const Plan& plan, Area area, const std::vector<Mark>& marks);

}  // namespace castplan::sheet
