// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <gdal.h>

#include <array>
#include <memory>
#include <string>

#include "castplan/geo/coordinate.hpp"

namespace castplan {

/// Where a raster's cells lie: from column and row (fractions; 0, 0 is the outer corner of the first cell) to the
/// coordinates of the file's own system, in its own unit, and back.
class PixelMap {
 public:
  /// From the geotransform, else from ground control points. InputError when the file has neither.
  static PixelMap of(GDALDatasetH dataset, const std::string& shown);

  [[nodiscard]] XY to_plane(XY pixel) const;
  /// NaN where the inverse fails.
  [[nodiscard]] XY to_pixel(XY plane) const;

  /// Rows run due east or west and columns due north or south, to a thousandth of a cell over the whole raster.
  [[nodiscard]] bool aligned() const;
  [[nodiscard]] bool by_control_points() const { return points_ != nullptr; }
  /// GDAL's six numbers; only meaningful when not by control points.
  [[nodiscard]] const std::array<double, 6>& affine() const { return affine_; }

 private:
  PixelMap() = default;
  std::array<double, 6> affine_{};
  std::array<double, 6> inverse_{};
  std::shared_ptr<void> points_;
  int cols_ = 0;
  int rows_ = 0;
};

}  // namespace castplan
