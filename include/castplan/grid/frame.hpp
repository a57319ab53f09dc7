// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>

#include "castplan/geo/coordinate.hpp"

namespace castplan {

/// Row and column of a cell; row 0 is the northernmost.
struct Cell {
  int row{};
  int col{};
  bool operator==(const Cell&) const = default;
};

/// Where a grid lies: square cells, north up, always. Anything else is warped before it gets here.
struct Frame {
  XY corner;    ///< outer north-west corner of cell (0, 0)
  Metres cell;  ///< side of a cell
  int rows{};
  int cols{};

  bool operator==(const Frame&) const = default;

  [[nodiscard]] XY centre(Cell at) const {
    return {corner.x + (at.col + 0.5) * cell.value(), corner.y - (at.row + 0.5) * cell.value()};
  }
  /// The cell that holds a place; may lie outside the frame.
  [[nodiscard]] Cell cell_at(XY place) const {
    return {static_cast<int>(std::floor((corner.y - place.y) / cell.value())),
            static_cast<int>(std::floor((place.x - corner.x) / cell.value()))};
  }
  [[nodiscard]] bool holds(Cell at) const { return at.row >= 0 && at.row < rows && at.col >= 0 && at.col < cols; }
  [[nodiscard]] SquareMetres cell_area() const { return cell * cell; }
};

}  // namespace castplan
