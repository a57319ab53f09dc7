// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "castplan/geo/quantity_text.hpp"
#include "castplan/geo/shape.hpp"
#include "castplan/grid/lake.hpp"
#include "castplan/write/ramp.hpp"

namespace castplan {

/// The part of the working plane that the page shows, and its drawing units: whole numbers from the north-west corner,
/// x east, y south, each `unit` metres long.
struct MapView {
  Box box;
  double unit{};  ///< metres a drawing unit

  [[nodiscard]] double width() const { return box.high.x - box.low.x; }   ///< metres
  [[nodiscard]] double height() const { return box.high.y - box.low.y; }  ///< metres
  /// Metres that a pixel of the depth picture stands for; geometry is simplified to it.
  [[nodiscard]] Metres pixel() const;
  /// Share of the width from the west and of the height from the north, in per cent.
  [[nodiscard]] XY percent(XY place) const;
};

/// Pixels along the longer side of the depth picture.
inline constexpr int kPictureSide = 1400;

/// The water and what else must be seen, with a margin, widened or heightened so that width over height lies between
/// 0.75 and 1.9: a long river still has a page.
MapView view_of(const Lake& lake, const Points& also);

/// CSS colour stops of the ramp, for the legend.
std::string ramp_gradient();

/// Depths as PNG bytes that cover the view: water in the ramp's colours, land in one neutral colour, unknown clear.
/// Depths are read at the middle of each pixel (`depth_at`); shore is where the outline runs. At most kPictureSide
/// pixels a side, fewer when the file would pass about 700 kB.
std::string depth_picture(const Lake& lake, const MapView& view);

/// The depths that contours are drawn from: the lake's own cells, or one value a pixel where cells are finer.
Grid<Metres32> contour_field(const Lake& lake, const MapView& view);

/// The step between contours, in the reader's unit, that gives about six to ten of them.
struct ContourStep {
  double in_unit{};  ///< metres or feet
  double metres{};
};
ContourStep contour_step(Metres max_depth, Units units);

/// The lines of the depth picture, shallowest first, specks left out.
struct Contour {
  double in_unit{};  ///< depth in metres or feet
  Line line;
};
std::vector<Contour> depth_contours(const Lake& lake, const MapView& view, Units units);

}  // namespace castplan
