// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/working_grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

constexpr double kScaleTolerance = 0.002;
constexpr double kSquareTolerance = 1e-6;
constexpr int kMargin = 10;     ///< cells around the water that are warped too
constexpr int kEdgeSteps = 32;  ///< points a side when the box is moved to the target
constexpr double kMostCells = 2147483648.0;

LonLat lonlat_of(const PixelMap& map, const Projection& projection, XY pixel) {
  return projection.to_lonlat(map.to_plane(pixel) * projection.metres_per_unit());
}

/// Columns and rows that hold water, as a box of pixel coordinates.
Box water_box(const Grid<Metres32>& depth) {
  int top = depth.rows();
  int bottom = -1;
  int left = depth.cols();
  int right = -1;
  for (int r = 0; r < depth.rows(); ++r) {
    const auto row = depth.row(r);
    const auto wet = [](Metres32 cell) { return cell.value() > 0; };
    const auto first = std::find_if(row.begin(), row.end(), wet);
    if (first == row.end()) continue;
    const auto last = std::find_if(row.rbegin(), row.rend(), wet);
    top = std::min(top, r);
    bottom = r;
    left = std::min(left, static_cast<int>(first - row.begin()));
    right = std::max(right, static_cast<int>(row.rend() - last) - 1);
  }
  return {{static_cast<double>(left), static_cast<double>(top)}, {right + 1.0, bottom + 1.0}};
}

std::string compass_place(LonLat place) {
  return fmt::format("{:.2f} {} {:.2f} {}", std::fabs(place.lat.degrees), place.lat.degrees < 0 ? "S" : "N",
                     std::fabs(place.lon.degrees), place.lon.degrees < 0 ? "W" : "E");
}

/// Why the file's own cells cannot be kept; empty when they can.
std::string obstacle(const PixelMap& map, const Projection& projection, LonLat centre) {
  if (map.by_control_points()) return "the file is placed by control points";
  if (projection.is_geographic()) return "its cells are measured in degrees";
  if (!map.aligned()) return "its rows do not run along the axes";
  const double width = std::fabs(map.affine()[1]) * projection.metres_per_unit();
  const double height = std::fabs(map.affine()[5]) * projection.metres_per_unit();
  if (std::fabs(width / height - 1) > kSquareTolerance) {
    return fmt::format("its cells are not square ({:.3f} by {:.3f} m)", width, height);
  }
  const Projection::Scale scale = projection.scale_at(centre);
  if (!scale.conformal) return fmt::format("its projection ({}) changes shapes", projection.name());
  if (std::fabs(scale.parallel - 1) > kScaleTolerance || std::fabs(scale.meridian - 1) > kScaleTolerance) {
    return fmt::format("its projection ({}) is off scale by a factor of {:.4f} at the lake", projection.name(),
                       scale.parallel);
  }
  return {};
}

void flip_rows(Grid<Metres32>& grid) {
  for (int r = 0; r < grid.rows() / 2; ++r) {
    auto upper = grid.row(r);
    auto lower = grid.row(grid.rows() - 1 - r);
    std::swap_ranges(upper.begin(), upper.end(), lower.begin());
  }
}

void flip_columns(Grid<Metres32>& grid) {
  for (int r = 0; r < grid.rows(); ++r) {
    auto row = grid.row(r);
    std::reverse(row.begin(), row.end());
  }
}

/// The same cells, turned so that the north-west one comes first.
Grid<Metres32> kept(Grid<Metres32> depth, const PixelMap& map) {
  if (map.affine()[5] > 0) flip_rows(depth);
  if (map.affine()[1] < 0) flip_columns(depth);
  return depth;
}

LonLat rounded(LonLat place) {
  return {Longitude{std::round(place.lon.degrees * 100) / 100}, Latitude{std::round(place.lat.degrees * 100) / 100}};
}

/// Side of a square with the ground area of the source cell in the middle of the water.
Metres target_cell(const PixelMap& map, const Projection& from, const Projection& to, XY middle) {
  const auto at = [&](double dx, double dy) {
    return to.from_lonlat(lonlat_of(map, from, {middle.x + dx, middle.y + dy}));
  };
  const XY across = at(0.5, 0) - at(-0.5, 0);
  const XY down = at(0, 0.5) - at(0, -0.5);
  return Metres(std::sqrt(std::fabs(cross(across, down))));
}

Frame target_frame(const PixelMap& map, const Projection& from, const Projection& to, const Box& water, Metres cell,
                   const std::string& shown) {
  const XY low{water.low.x - kMargin, water.low.y - kMargin};
  const XY high{water.high.x + kMargin, water.high.y + kMargin};
  Box box{{1e300, 1e300}, {-1e300, -1e300}};
  const auto take = [&](XY pixel) {
    const XY place = to.from_lonlat(lonlat_of(map, from, pixel));
    if (!std::isfinite(place.x) || !std::isfinite(place.y)) return;
    box.low = {std::min(box.low.x, place.x), std::min(box.low.y, place.y)};
    box.high = {std::max(box.high.x, place.x), std::max(box.high.y, place.y)};
  };
  for (int i = 0; i <= kEdgeSteps; ++i) {
    const double x = low.x + (high.x - low.x) * i / kEdgeSteps;
    const double y = low.y + (high.y - low.y) * i / kEdgeSteps;
    for (const XY pixel : {XY{x, low.y}, XY{x, high.y}, XY{low.x, y}, XY{high.x, y}}) take(pixel);
  }
  // whole multiples of a cell, so that the cells do not depend on how far the raster reaches past the lake
  const double side = cell.value();
  const double west = std::floor(box.low.x / side) * side;
  const double north = std::ceil(box.high.y / side) * side;
  const double cols = std::ceil((box.high.x - west) / side);
  const double rows = std::ceil((north - box.low.y) / side);
  if (!(cols > 0 && rows > 0 && cols * rows <= kMostCells)) {
    throw InputError(fmt::format("{}: resampled it would have {:.0f} by {:.0f} cells; cut the lake out of it first",
                                 shown, cols, rows));
  }
  return {{west, north}, cell, static_cast<int>(rows), static_cast<int>(cols)};
}

/// The outer edge of the file's cells on the working plane; empty where part of it has no place there.
Polygons extent_of(const PixelMap& map, const Projection& from, const Projection& to, int rows, int cols) {
  const XY corners[] = {{0, 0}, {0, 1.0 * rows}, {1.0 * cols, 1.0 * rows}, {1.0 * cols, 0}, {0, 0}};
  Ring ring;
  for (int side = 0; side < 4; ++side) {
    for (int i = 0; i < kEdgeSteps; ++i) {
      const double share = static_cast<double>(i) / kEdgeSteps;
      const XY pixel = corners[side] * (1 - share) + corners[side + 1] * share;
      ring.push_back(to.from_lonlat(lonlat_of(map, from, pixel)));
      if (!std::isfinite(ring.back().x) || !std::isfinite(ring.back().y)) return {};
    }
  }
  ring.push_back(ring.front());
  if (signed_area(ring).value() < 0) std::reverse(ring.begin(), ring.end());
  return {{ring, {}}};
}

}  // namespace

Frame own_frame(const PixelMap& map, const Projection& projection, int rows, int cols) {
  const auto& t = map.affine();
  const double unit = projection.metres_per_unit();
  const double west = t[1] > 0 ? t[0] : t[0] + t[1] * cols;
  const double north = t[5] < 0 ? t[3] : t[3] + t[5] * rows;
  return {{west * unit, north * unit}, Metres(std::sqrt(std::fabs(t[1] * t[5])) * unit), rows, cols};
}

DepthRaster on_working_grid(Grid<Metres32> depth, const PixelMap& map, const Projection& projection,
                            const std::string& shown) {
  const Box water = water_box(depth);
  const XY middle = (water.low + water.high) * 0.5;
  const LonLat centre = lonlat_of(map, projection, middle);
  if (!std::isfinite(centre.lon.degrees) || !(std::fabs(centre.lat.degrees) <= 90)) {
    throw InputError(fmt::format("{}: its cells do not lie on the earth; check that its CRS is the right one", shown));
  }
  DepthRaster out;
  out.why_resampled = obstacle(map, projection, centre);
  if (out.why_resampled.empty()) {
    out.depth = kept(std::move(depth), map);
    out.projection = projection;
    return out;
  }
  const LonLat origin = rounded(centre);
  out.resampled = true;
  out.projection = Projection::transverse_mercator(origin);
  const Metres cell = target_cell(map, projection, out.projection, middle);
  const Frame frame = target_frame(map, projection, out.projection, water, cell, shown);
  out.depth = warped(depth, map, projection, out.projection, frame);
  out.extent = extent_of(map, projection, out.projection, depth.rows(), depth.cols());
  out.notes.push_back(fmt::format("{}: resampled to cells of {:.2f} m on a transverse Mercator at {}, because {}",
                                  shown, cell.value(), compass_place(origin), out.why_resampled));
  return out;
}

}  // namespace castplan
