// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/map_buttons.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace castplan {

namespace {

constexpr double kLift = 26.0;  // pixels from the boat's place to the middle of its button
constexpr double kFurther = 46.0;
constexpr double kClear = 32.0;  // a button is 30 pixels wide

// Behind the boat first, then to the sides, nearest turn first.
constexpr std::array kTurns{0.0, 50.0, -50.0, 100.0, -100.0, 150.0, -150.0};

XY offset_at(const Spot& spot, double turn, double lift) {
  const double away = (grid_bearing(spot.boat, spot.target).value() + 180 + turn) * std::numbers::pi / 180;
  return {lift * std::sin(away), -lift * std::cos(away)};
}

bool is_clear(XY middle, const std::vector<XY>& taken) {
  return std::none_of(taken.begin(), taken.end(), [&](XY other) { return distance(middle, other).value() < kClear; });
}

}  // namespace

std::vector<XY> button_offsets(std::span<const Spot> spots, double metres_a_pixel) {
  std::vector<XY> offsets;
  std::vector<XY> taken;
  for (const Spot& spot : spots) {
    const XY boat{spot.boat.x / metres_a_pixel, -spot.boat.y / metres_a_pixel};
    XY chosen = offset_at(spot, 0, kLift);
    bool found = false;
    for (const double lift : {kLift, kFurther}) {
      for (const double turn : kTurns) {
        if (found || !is_clear(boat + offset_at(spot, turn, lift), taken)) continue;
        chosen = offset_at(spot, turn, lift);
        found = true;
      }
    }
    offsets.push_back(chosen);
    taken.push_back(boat + chosen);
  }
  return offsets;
}

}  // namespace castplan
