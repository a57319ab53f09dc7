// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/shape.hpp"

namespace castplan {

/// One measured depth on the working plane, below the surface that the survey is reduced to.
struct Sounding {
  XY at;
  Metres32 depth;  ///< metres, positive downwards
  int file = 0;    ///< number of the input that it came from
  int track = -1;  ///< number of the boat track within all inputs; -1: not from a track
};

/// A line of equal depth, closed (first point repeated) or open.
struct DepthContour {
  Line line;
  Metres depth;
  int file = 0;
};

}  // namespace castplan
