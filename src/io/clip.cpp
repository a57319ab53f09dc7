// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <iterator>
#include <limits>

#include "castplan/grid/inside.hpp"
#include "castplan/io/raster.hpp"

namespace castplan {
namespace {

bool holds_water(const Grid<Metres32>& depth, const Polygon& polygon) {
  bool found = false;
  runs_inside(rings_of({polygon}), depth.frame(), [&](int row, int first, int last) {
    const auto cells = depth.row(row).subspan(static_cast<std::size_t>(first), static_cast<std::size_t>(last - first));
    found = found || std::any_of(cells.begin(), cells.end(), [](Metres32 cell) { return cell.value() > 0; });
  });
  return found;
}

}  // namespace

Polygons clip_to_shoreline(Grid<Metres32>& depth, const Polygons& shoreline) {
  const Metres32 land(-std::numeric_limits<float>::infinity());
  auto outside = depth.cells().begin();
  runs_inside(rings_of(shoreline), depth.frame(), [&](int row, int first, int last) {
    const auto begin = depth.cells().begin() + static_cast<std::ptrdiff_t>(depth.index({row, 0}));
    std::fill(outside, begin + first, land);
    outside = begin + last;
  });
  std::fill(outside, depth.cells().end(), land);
  Polygons wet;
  std::copy_if(shoreline.begin(), shoreline.end(), std::back_inserter(wet),
               [&](const Polygon& polygon) { return holds_water(depth, polygon); });
  return wet;
}

}  // namespace castplan
