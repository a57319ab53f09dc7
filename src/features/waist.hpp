// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

#include "castplan/geo/shape.hpp"

namespace castplan {

/// The shortest way across the water at a place.
struct Waist {
  XY one;
  XY other;
  [[nodiscard]] XY middle() const { return (one + other) * 0.5; }
  [[nodiscard]] Metres width() const { return distance(one, other); }
};

/// From a place in the middle, so far from land or a little more, to the shortest line between the two shores beside
/// it: each end in turn goes to the place of its own shore that is nearest to the other end. None where there is a
/// shore on one side only.
std::optional<Waist> waist_at(const Polygons& outline, XY place, Metres half_width);

}  // namespace castplan
