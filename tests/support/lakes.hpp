// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// Round lakes with a closed form, centred on (0, 0), which is a corner shared by four cells. Values are metres,
// positive below the surface; land is -infinity (its height is not known), unless a function says otherwise.

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>
#include <vector>

#include "castplan/grid/lake.hpp"

namespace castplan::lakes {

inline constexpr Metres32 kLand{-std::numeric_limits<float>::infinity()};
inline constexpr Metres32 kUnknown{std::numeric_limits<float>::quiet_NaN()};

/// A square frame about (0, 0) that reaches at least `reach` to each side.
inline Frame frame_about(Metres reach, Metres cell) {
  const int half = static_cast<int>(std::ceil(reach / cell - 1e-9));
  return {.corner = {-half * cell.value(), half * cell.value()}, .cell = cell, .rows = 2 * half, .cols = 2 * half};
}

/// Grid of value(place) over cell centres; the function takes an XY and returns metres.
template <class Value>
Grid<Metres32> filled(const Frame& frame, const Value& value) {
  Grid<Metres32> grid(frame);
  for (std::size_t i = 0; i < grid.size(); ++i) {
    grid[i] = Metres32(static_cast<float>(value(frame.centre(grid.cell_of(i)))));
  }
  return grid;
}

/// Paraboloid: depth (1 - r^2 / R^2). Area pi R^2, volume pi R^2 depth / 2, mean depth = depth / 2, slope
/// atan(2 depth r / R^2), the line of depth d at r = R sqrt(1 - d / depth). margin: land beyond the shore.
inline Grid<Metres32> bowl(Metres radius, Metres depth, Metres cell, Metres margin) {
  return filled(frame_about(radius + margin, cell), [&](XY at) {
    const double share = dot(at, at) / (radius * radius).value();
    return share < 1.0 ? depth.value() * (1.0 - share) : static_cast<double>(kLand.value());
  });
}

/// The same with the land's height known: the paraboloid goes on above the water, as negative values.
inline Grid<Metres32> bowl_with_heights(Metres radius, Metres depth, Metres cell, Metres margin) {
  return filled(frame_about(radius + margin, cell),
                [&](XY at) { return depth.value() * (1.0 - dot(at, at) / (radius * radius).value()); });
}

/// Constant depth inside the radius, land of unknown height outside: walls on every side.
inline Grid<Metres32> disc(Metres radius, Metres depth, Metres cell, Metres margin) {
  return filled(frame_about(radius + margin, cell), [&](XY at) {
    return std::hypot(at.x, at.y) < radius.value() ? depth.value() : static_cast<double>(kLand.value());
  });
}

/// A round lake with one ring-shaped break: shelf depth outside radius + width / 2, basin depth inside
/// radius - width / 2, a straight ramp between (grade (basin - shelf) / width, facing the centre), land beyond the
/// shore radius, with a margin of four cells.
inline Grid<Metres32> ring_break(Metres radius, Metres shelf, Metres basin, Metres width, Metres shore, Metres cell) {
  return filled(frame_about(shore + 4.0 * cell, cell), [&](XY at) {
    const double r = std::hypot(at.x, at.y);
    if (r >= shore.value()) return static_cast<double>(kLand.value());
    const double down = std::clamp((radius.value() + width.value() / 2 - r) / width.value(), 0.0, 1.0);
    return shelf.value() + down * (basin - shelf).value();
  });
}

/// A Gaussian bump on a floor: `rise` exp(-r^2 / (2 sigma^2)) about a place.
struct Gauss {
  XY at;
  Metres rise;  ///< how much deeper (pits) or shallower (hump) its middle is than the floor
  Metres sigma;
};

inline double gauss_at(const Gauss& gauss, XY at) {
  const XY away = at - gauss.at;
  return gauss.rise.value() * std::exp(-dot(away, away) / (2.0 * (gauss.sigma * gauss.sigma).value()));
}

/// Pits in a flat floor of a round lake with walls: depth = floor + sum of the pits. Two equal pits 2a apart, a well
/// above sigma, have their sill half-way, at floor + 2 rise exp(-a^2 / (2 sigma^2)).
inline Grid<Metres32> gaussian_pits(Metres floor, const std::vector<Gauss>& pits, Metres shore, Metres cell) {
  return filled(frame_about(shore + 4.0 * cell, cell), [&](XY at) {
    if (std::hypot(at.x, at.y) >= shore.value()) return static_cast<double>(kLand.value());
    double depth = floor.value();
    for (const Gauss& pit : pits) depth += gauss_at(pit, at);
    return depth;
  });
}

/// One hump on a flat floor of a round lake with walls: depth = floor - hump. Requires that it stays under water. The
/// line at height h above the floor (0 < h < rise) is the circle r = sigma sqrt(2 ln(rise / h)).
inline Grid<Metres32> gaussian_hump(Metres floor, const Gauss& hump, Metres shore, Metres cell) {
  return filled(frame_about(shore + 4.0 * cell, cell), [&](XY at) {
    if (std::hypot(at.x, at.y) >= shore.value()) return static_cast<double>(kLand.value());
    return floor.value() - gauss_at(hump, at);
  });
}

/// The lake of these values, in the open ocean at 45.5 N 40 W: true scale, grid north = true north at the centre.
inline Lake lake_of(Grid<Metres32> values) {
  return make_lake(Projection::transverse_mercator({Longitude{-40.0}, Latitude{45.5}}), std::move(values));
}

}  // namespace castplan::lakes
