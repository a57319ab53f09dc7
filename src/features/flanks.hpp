// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "features/floor.hpp"

namespace castplan {

/// How far the floor falls away on both sides of a crest.
struct Flanks {
  Metres lower{0};   ///< on the side that falls further
  Metres higher{0};  ///< on the other
  bool certain = true;
};

/// The two flanks lie across from each other, a sixteenth of a turn more or less: of all such pairs the one whose
/// higher flank falls furthest below the depth given within the window. The floor is read smoothed, so that noise digs
/// no flanks; what it hides beyond the map makes them uncertain.
Flanks flanks_of(const Lake& lake, const Floor& floor, XY pass, Metres depth, Metres window);

}  // namespace castplan
