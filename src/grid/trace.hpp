// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "castplan/grid/isoline.hpp"

namespace castplan {

/// Where a level crosses the sides between neighbouring cell centres.
struct Crossing {
  XY at;
  std::int32_t next = -1;  ///< the following crossing, with larger values on the left of the way there; -1: none
  std::int32_t row = -1;   ///< of the two cells where they stand side by side; -1 where one lies north of the other
  bool led_to = false;     ///< some crossing leads here
};

/// A square with a NaN corner is left out; or NaN and everything outside the grid count as below the level, so that
/// every line is closed, and crossings keep a thousandth of a cell from cell centres, so that no line touches itself.
enum class Unknown { left_out, below };

/// All crossings of a level, linked, from north to south; those in one row of cells stand west to east. A crossing on
/// a border of two bands stands there twice, one linked to the other.
std::vector<Crossing> trace(const FieldRows& field, float level, Unknown unknown);

}  // namespace castplan
