// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <compare>
#include <vector>

#include "castplan/geo/coordinate.hpp"

namespace castplan {

/// A cell of the world grid; rows count from the south pole, columns from 180 degrees west.
struct WorldCell {
  long long row{}, column{};
  auto operator<=>(const WorldCell&) const = default;
};

/// Its edges in millionths of a degree.
struct CellEdges {
  long long west{}, south{}, east{}, north{};
  bool operator==(const CellEdges&) const = default;
};

/// Squares fixed on the earth, whatever lake or spot lies in them, so that publishing again cannot narrow a place.
/// Every side is at least as long as asked: in latitude 0.00125 degree times a power of two, in longitude the same by
/// the row's edge nearer the pole. Squares of a larger size are made of whole squares of a smaller one: two sites of
/// different sizes tell no more than the finer. What remains at 90 north and 180 east belongs to the last square.
/// Source of the lengths: a degree of a meridian of the WGS 84 ellipsoid is shortest, 110.574 km, at the equator; a
/// degree of a parallel is at least cos(latitude) times 111.319 km (its equatorial radius 6378137 m).
class WorldGrid {
 public:
  explicit WorldGrid(Metres least);
  [[nodiscard]] WorldCell cell_of(LonLat place) const;
  [[nodiscard]] CellEdges edges(WorldCell cell) const;
  /// The cells that share a part of an edge, in order; across 180 degrees too.
  [[nodiscard]] std::vector<WorldCell> neighbours(WorldCell cell) const;
  [[nodiscard]] Metres least() const { return least_; }

 private:
  [[nodiscard]] long long rows() const;
  [[nodiscard]] long long longitude_step(long long row) const;
  [[nodiscard]] long long columns(long long row) const;
  [[nodiscard]] long long column_at(long long row, long long lon) const;
  void add_row(std::vector<WorldCell>& out, long long row, const CellEdges& beside) const;
  Metres least_;
  long long latitude_step_;
};

}  // namespace castplan
