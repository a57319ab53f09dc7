// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

namespace castplan::survey {

/// One depth at a place, as the solver sees it. Places are in cells: x eastwards, y southwards, whole numbers at cell
/// centres of the level that the place is for.
struct Datum {
  double x{};
  double y{};
  float depth{};   ///< metres, positive down
  float weight{};  ///< how strongly the surface is held, against a bending of 1 m a cell (no unit)
};
using Data = std::vector<Datum>;

/// The same data in one order, whatever the order they came in: by row and column of the cells, then by place and
/// depth. Exact repeats are left out; data in the same quarter of a cell become one, at their weighted mean.
Data blocked(Data data);

}  // namespace castplan::survey
