// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "castplan/write/plan.hpp"
#include "write/depth_picture.hpp"
#include "write/sheet_canvas.hpp"

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

/// The view, laid into an area of the picture.
struct PictureMap {
  Canvas& canvas;
  const Plan& plan;
  Area area;
  MapView view;
  double scale;  ///< points a metre

  [[nodiscard]] Place on_picture(XY at) const;
  [[nodiscard]] Outline outline(const Line& line) const;
  [[nodiscard]] std::vector<Outline> outlines(const Polygons& polygons) const;
  [[nodiscard]] Metres speck() const;  ///< detail below this is not drawn
};

/// The depths in the ramp's colours, a colour between two lines. taken: where no label may stand.
void draw_depth_bands(const PictureMap& map, std::vector<Area>& taken);

/// Everything inside the frame.
void draw_picture_map(const PictureMap& map, const std::vector<PictureSpot>& spots);
/// Colours of depth, marks, scale and true north, below the map; returns where it ends.
double draw_picture_key(const PictureMap& map, double top);

/// What those who cannot see the picture, and programs, read: title and text as SVG elements, or as text chunks of a
/// PNG (ISO/IEC 15948, iTXt, UTF-8).
std::string with_svg_text(const std::string& svg, const std::string& title, const std::string& text);
std::string with_png_text(const std::string& png, const std::string& title, const std::string& text);

}  // namespace castplan::sheet
