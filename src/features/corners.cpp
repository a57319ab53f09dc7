// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/corners.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {

namespace {

constexpr Metres kArm(25);
constexpr Metres kShortest(75);
constexpr double kTurn = 60;  // degrees

struct Bend {
  std::size_t at;
  double degrees;
};

double turn_at(std::span<const XY> places, std::size_t at, std::size_t arm) {
  const XY before = places[at] - places[at - arm];
  const XY after = places[at + arm] - places[at];
  return std::abs(std::atan2(cross(before, after), dot(before, after))) * 180 / M_PI;
}

}  // namespace

std::vector<std::size_t> corners(std::span<const XY> places, Metres step) {
  const auto arm = static_cast<std::size_t>(std::max(1L, std::lround(kArm / step)));
  const auto apart = static_cast<std::size_t>(std::max(1.0, std::ceil(kShortest / step)));
  std::vector<Bend> bends;
  for (std::size_t i = std::max(arm, apart); i + std::max(arm, apart) < places.size(); ++i) {
    const double degrees = std::round(turn_at(places, i, arm) * 1e3) / 1e3;
    if (degrees >= kTurn) bends.push_back({i, degrees});
  }
  std::stable_sort(bends.begin(), bends.end(), [](const Bend& a, const Bend& b) { return a.degrees > b.degrees; });
  std::vector<std::size_t> found;
  for (const Bend& bend : bends) {
    const bool free = std::none_of(found.begin(), found.end(), [&](std::size_t other) {
      return std::max(other, bend.at) - std::min(other, bend.at) < apart;
    });
    if (free) found.push_back(bend.at);
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace castplan
