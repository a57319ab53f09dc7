// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/write/plan.hpp"
#include "write/depth_picture.hpp"
#include "write/sheet_canvas.hpp"
#include "write/sheet_map.hpp"

namespace castplan::sheet {

inline constexpr Font kSmall{9.0};  ///< what is written on a map and below it

/// The view of a lake, laid into an area of the paper.
struct Map {
  Canvas& canvas;
  const Plan& plan;
  Area area;
  MapView view;
  double scale;  ///< points a metre

  [[nodiscard]] Place on_paper(XY at) const;
  [[nodiscard]] Metres speck() const;  ///< detail below this is not printed
  [[nodiscard]] Outline outline(const Line& line) const;
  [[nodiscard]] std::vector<Outline> outlines(const Polygons& polygons) const;
};

/// Depths in greys between a few lines, for a map of a hand's breadth. taken: where labels may not stand; those that
/// are drawn are added.
void draw_shaded_depths(const Map& map, std::vector<Area>& taken);
/// Lines of equal depth alone, as many as a large map has room for, with labels along them.
void draw_depth_lines(const Map& map, std::vector<Area>& taken);
/// A bar of a round length, at most a quarter of the map, from its lower left end. size: times that of the printed
/// sheet.
void draw_scale(const Map& map, Place at, double size = 1.0);
/// An arrow to true north about its middle, with its words before it.
void draw_north(const Map& map, Place at, double size = 1.0);
/// Outlines of features, each with its letter near the place that it is shown for.
void draw_lettered(const Map& map, const std::vector<Lettered>& features, std::vector<Area>& taken);

}  // namespace castplan::sheet
