// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/write/plan.hpp"
#include "write/sheet_canvas.hpp"
#include "write/sheet_map_view.hpp"

namespace castplan::sheet {

/// The parts of the still map, map.png and map.svg.

inline constexpr Font kPictureText{10.5};

/// A spot with its number on the map.
struct PictureSpot {
  std::string label;
  const Spot* spot;
};
/// All spots of a plan of one phase; where several are planned, the best three of each, lettered by phase.
std::vector<PictureSpot> picture_spots(const Plan& plan);

/// The ramp's colour of a depth.
Shade depth_shade(double depth_m, double deepest_m);
/// The depths in the ramp's colours, one colour between two lines of `draw_depth_lines`.
void draw_depth_bands(const Map& map);

/// Everything inside the frame.
void draw_picture_map(const Map& map, const std::vector<PictureSpot>& spots);
/// Colours of depth, marks, scale and true north, below the map; returns where it ends.
double draw_picture_key(const Map& map, double top);

/// What those who cannot see the picture, and programs, read: title and text as SVG elements, or as text chunks of a
/// PNG (ISO/IEC 15948, iTXt, UTF-8).
std::string with_svg_text(const std::string& svg, const std::string& title, const std::string& text);
std::string with_png_text(const std::string& png, const std::string& title, const std::string& text);

}  // namespace castplan::sheet
