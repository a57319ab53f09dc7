// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/map_buttons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "write/map_page.hpp"

namespace castplan {

namespace {

constexpr double kLift = 26.0;  // pixels from the boat's place to the middle of its button
constexpr double kFurther = 46.0;
constexpr double kFurthest = 66.0;
constexpr double kClear = 32.0;  // a button is 30 pixels wide

// Behind the boat first, then to the sides, nearest turn first.
constexpr std::array kTurns{0.0, 50.0, -50.0, 100.0, -100.0, 150.0, -150.0};

/// Finds room for one button after the other, in pixels.
class Room {
 public:
  /// away: degrees clockwise from up, where the button should stand as seen from the place.
  XY take(XY place, double away) {
    XY chosen = offset_at(away, kLift);
    bool found = false;
    for (const double lift : {kLift, kFurther, kFurthest}) {
      for (const double turn : kTurns) {
        if (found || !is_clear(place + offset_at(away + turn, lift))) continue;
        chosen = offset_at(away + turn, lift);
        found = true;
      }
    }
    taken_.push_back(place + chosen);
    return chosen;
  }

 private:
  static XY offset_at(double away, double lift) {
    const double angle = away * std::numbers::pi / 180;
    return {lift * std::sin(angle), -lift * std::cos(angle)};
  }
  [[nodiscard]] bool is_clear(XY middle) const {
    return std::none_of(taken_.begin(), taken_.end(),
                        [&](XY other) { return distance(middle, other).value() < kClear; });
  }
  std::vector<XY> taken_;
};

std::vector<XY> offsets_in(Room& room, std::span<const Spot> spots, double metres_a_pixel) {
  std::vector<XY> offsets;
  for (const Spot& spot : spots) {
    const XY boat{spot.boat.x / metres_a_pixel, -spot.boat.y / metres_a_pixel};
    offsets.push_back(room.take(boat, grid_bearing(spot.boat, spot.target).value() + 180));
  }
  return offsets;
}

}  // namespace

std::vector<XY> button_offsets(std::span<const Spot> spots, double metres_a_pixel) {
  Room room;
  return offsets_in(room, spots, metres_a_pixel);
}

std::vector<XY> button_offsets(std::span<const Pass> passes, std::span<const Spot> spots, double metres_a_pixel) {
  Room room;
  offsets_in(room, spots, metres_a_pixel);
  std::vector<XY> offsets;
  for (const Pass& pass : passes) {
    const XY start{pass.lane.front().x / metres_a_pixel, -pass.lane.front().y / metres_a_pixel};
    offsets.push_back(room.take(start, grid_bearing(pass.lane[0], pass.lane[1]).value() + 180));
  }
  return offsets;
}

std::string button_place(const MapView& view, XY place, XY towards, XY offset) {
  const XY at = view.percent(place);
  return fmt::format("data-away=\"{:.0f}\" style=\"left:{:.2f}%;top:{:.2f}%;--dx:{:.0f}px;--dy:{:.0f}px\"",
                     std::fmod(grid_bearing(place, towards).value() + 180.0, 360.0), at.x, at.y, offset.x, offset.y);
}

}  // namespace castplan
