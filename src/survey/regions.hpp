// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "castplan/grid/grid.hpp"
#include "castplan/grid/soundings.hpp"

namespace castplan::survey {

/// Water between contours that no contour crosses.
struct Region {
  float low{};  ///< metres: depths that its contours allow, widened by the soundings in it
  float high{};
  float edge_low{};  ///< shallowest and deepest contour (or shore) at its edge
  float edge_high{};
  bool ends = false;  ///< one contour all round and nothing further: a hole, a hump, or a bay above the first contour
};

struct Regions {
  Grid<std::int32_t> of_cell;  ///< -1 on land and on cells that a contour crosses; empty without contours
  std::vector<Region> regions;
};

/// Distinct depths of the contours and 0, shallowest first; depths within 1 cm are one.
std::vector<float> contour_levels(std::span<const DepthContour> contours);
/// Most frequent step between the levels, the smallest of equals; 0 for fewer than two.
float contour_interval(const std::vector<float>& levels);

/// soundings: those to be used. Without contours there are no regions.
Regions find_regions(const Grid<std::uint8_t>& water, std::span<const DepthContour> contours,
                     std::span<const Sounding> soundings);

/// Brings the depths of each region within what it allows. The order of depths is kept and nothing is cut flat; regions
/// that keep to it already are not touched.
void keep_within(const Regions& regions, Grid<Metres32>& depth);

}  // namespace castplan::survey
