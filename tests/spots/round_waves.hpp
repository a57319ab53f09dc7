// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cmath>
#include <numbers>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/terrain/fetch.hpp"
#include "castplan/terrain/waves.hpp"

namespace castplan::lakes {

/// Height of the waves at a place on a round lake about (0, 0) whose floor is level but for the rim, from the chords of
/// the circle. Source: effective fetch by the Shore Protection Manual, as in Rogala 1997; waves by the same, 1984, eq.
/// 3-39.
inline double wave_height(XY at, const Wind& wind, double shore, double floor) {
  std::array<Metres, kFetchRadials> lengths{};
  const auto bearings = fetch_bearings(wind.from);
  for (std::size_t i = 0; i < bearings.size(); ++i) {
    const double way = bearings[i].value() * std::numbers::pi / 180;
    const double along = at.x * std::sin(way) + at.y * std::cos(way);
    lengths[i] = Metres(-along + std::sqrt(shore * shore - at.x * at.x - at.y * at.y + along * along));
  }
  return shallow_waves(wind.speed, effective_fetch(lengths), Metres(floor)).height.value();
}

}  // namespace castplan::lakes
