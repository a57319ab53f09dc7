// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/spread.hpp"

#include <algorithm>

namespace castplan {

namespace {

constexpr SquareMetres kOneReach(40e4);  // a boat is soon anywhere on smaller water

constexpr int kMostInPart = 4, kMostOfKind = 5;

}  // namespace

Spread::Spread(const Lake& lake)
    : water_(bounds(lake.outline).value_or(Box{})), parts_(lake.area >= kOneReach && !lake.outline.empty()) {}

std::size_t Spread::part_of(XY at) const {
  const auto third = [](double from, double to, double place) {
    return static_cast<std::size_t>(std::clamp(3 * (place - from) / (to - from), 0.0, 2.0));
  };
  return 3 * third(water_.low.y, water_.high.y, at.y) + third(water_.low.x, water_.high.x, at.x);
}

bool Spread::has_enough_like(const Target& target) const {
  const auto kind = of_kind_.find(target.feature->kind);
  return (kind != of_kind_.end() && kind->second >= kMostOfKind) ||
         (parts_ && in_part_[part_of(target.at)] >= kMostInPart);
}

void Spread::add(const Target& target) {
  ++of_kind_[target.feature->kind];
  if (parts_) ++in_part_[part_of(target.at)];
}

}  // namespace castplan
