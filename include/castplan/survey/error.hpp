// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <vector>

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// Standard error of a gridded depth against the distance to the nearest datum (sounding, contour or shore): straight
/// between the knots, never falling, beyond the last knot in proportion to the distance.
struct ErrorCurve {
  struct Knot {
    Metres distance;
    Metres error;
  };
  std::vector<Knot> knots;  ///< by distance; at least one
  Metres least;             ///< the data's own error: no less anywhere

  [[nodiscard]] Metres at(Metres distance) const;
};

/// What the surface says where data were held back, less what they say.
struct HeldBack {
  std::size_t count{};
  Metres rmse;
  Metres bias;  ///< mean; positive: the surface is too deep
  Metres p95;   ///< 95th percentile of the absolute difference
};

struct HeldBackByDepth {
  Metres from;  ///< of the held-back depth
  Metres to;
  HeldBack result;
};

/// Cross-validation by blocks: the data of whole squares (of a contour: of one depth in a square) are left out
/// together, so that near twins do not vouch for each other. Source: Roberts et al. (2017), Ecography 40, 913-929,
/// doi:10.1111/ecog.02881.
struct CrossValidation {
  HeldBack all;
  std::vector<HeldBackByDepth> by_depth;  ///< classes of equal width that hold anything, shallowest first
  int folds{};
  Metres block;  ///< side of a square
  Metres cell;   ///< of the grid it ran on: the surface's own, or a coarser one for large lakes
  ErrorCurve curve;
};

}  // namespace castplan
