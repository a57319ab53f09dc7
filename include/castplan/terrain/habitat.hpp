// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// What the floor of likely spawning ground looks like. Ranges are [least, most].
struct Habitat {
  struct Depths {
    Metres least, most;
  } depth;
  struct Grades {
    double least, most;
  } grade_pct;  ///< of the floor
  struct Areas {
    SquareMetres least, most;
  } area;                ///< of the shallow floor that hangs together
  Metres fetch_most;     ///< greatest effective fetch of any wind
  bool concave = false;  ///< no rises and noses of the floor
  bool plants = false;   ///< surer where plants grow
};

}  // namespace castplan
