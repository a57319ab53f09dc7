// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string_view>

#include "write/sheet_canvas.hpp"

namespace castplan::sheet {

/// A word in the section of a term's drawing: how far along the way from A to B, and at which depth.
struct SectionNote {
  double along{}, depth{};
  std::string_view words;
};

/// One term: what it is, and a floor in closed form that shows it.
struct Term {
  std::string_view name, what, sounder, why;
  /// Depth of the floor in metres, negative on land; x from west to east and y from north to south, both 0 to 1.
  double (*depth)(double x, double y);
  Place from, to;       ///< A and B, the ends of the section
  Place fish;           ///< where a fish waits: along the section, metres deep
  Place fish_on_map;    ///< the same, on the map
  bool plants = false;  ///< plants stand on the floor down to their edge
  bool layers = false;  ///< the water is layered: a curve of temperature takes the place of the map
  std::span<const SectionNote> notes{};
};
std::span<const Term> terms();  ///< twelve

inline constexpr double kPlantsEnd = 3.5;  ///< metres, in the drawing of a weed line
inline constexpr double kLayerTop = 5.0;   ///< metres, in the drawing of a thermocline
inline constexpr double kLayerBase = 7.0;

/// Map and section of a term, side by side.
void draw_term(Canvas& canvas, const Term& term, Area area);

}  // namespace castplan::sheet
