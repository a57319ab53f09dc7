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

/// A feature that is drawn, with the letter of its kind near a place: that of the spot that it makes, or its own.
struct Lettered {
  const Feature* feature{};
  std::string letter;
  XY near;
};

struct MapLook {
  bool shaded = true;   ///< depths in greys; else lines of equal depth alone, more of them, to draw on with a pencil
  bool dangers = true;  ///< hazards and closures
  std::vector<Lettered> features{};
};

/// The map with its key, scale and north below it, in greys that a black-and-white printer keeps apart. Draws one
/// Figure and returns its text for those who cannot see it.
std::string draw_map(Canvas& canvas, const Plan& plan, Area area, const std::vector<Mark>& marks,
                     const MapLook& look = {});

}  // namespace castplan::sheet
