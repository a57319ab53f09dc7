// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/shore_ring.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {

bool beside_unknown(const Grid<Cover>& cover, XY place) {
  const double reach = 1.5 * cover.frame().cell.value();
  const Cell low = cover.frame().cell_at({place.x - reach, place.y + reach});
  const Cell high = cover.frame().cell_at({place.x + reach, place.y - reach});
  for (int row = low.row; row <= high.row; ++row) {
    for (int col = low.col; col <= high.col; ++col) {
      if (!cover.holds({row, col}) || cover[Cell{row, col}] == Cover::unknown) return true;
    }
  }
  return false;
}

bool over_water(const Grid<Cover>& cover, XY from, XY to) {
  const double cell = cover.frame().cell.value();
  const double whole = distance(from, to).value();
  const double ends = 1.5 * cell;
  const int steps = std::max(1, static_cast<int>(std::ceil((whole - 2 * ends) / cell)));
  for (int i = 0; i <= steps && whole > 2 * ends; ++i) {
    const XY at = from + (to - from) * ((ends + (whole - 2 * ends) * i / steps) / whole);
    if (cover_at(cover, at) != Cover::water) return false;
  }
  return true;
}

ShoreRing::ShoreRing(const Ring& ring) : ring_(ring), along_(ring.size()), twice_(ring.size()) {
  for (std::size_t i = 1; i < ring.size(); ++i) {
    along_[i] = along_[i - 1] + distance(ring[i - 1], ring[i]).value();
    twice_[i] = twice_[i - 1] + cross(ring[i - 1] - ring[0], ring[i] - ring[0]);
  }
}

XY ShoreRing::place(double along) const {
  const double at = along - length() * std::floor(along / length());
  const auto next =
      static_cast<std::size_t>(std::upper_bound(along_.begin() + 1, along_.end() - 1, at) - along_.begin());
  const double side = along_[next] - along_[next - 1];
  const double share = side > 0 ? std::clamp((at - along_[next - 1]) / side, 0.0, 1.0) : 0.0;
  return ring_[next - 1] + (ring_[next] - ring_[next - 1]) * share;
}

double ShoreRing::swept(double along) const {
  const double rounds = std::floor(along / length());
  const double at = along - length() * rounds;
  const auto next =
      static_cast<std::size_t>(std::upper_bound(along_.begin() + 1, along_.end() - 1, at) - along_.begin());
  const double last = cross(ring_[next - 1] - ring_[0], place(at) - ring_[0]);
  return rounds * twice_.back() + twice_[next - 1] + last;
}

double ShoreRing::cut_off(double from, double to) const {
  const double back = cross(place(to) - ring_[0], place(from) - ring_[0]);
  return (swept(to) - swept(from) + back) / 2;
}

Line ShoreRing::part(double from, double to) const {
  Line line{place(from)};
  const double rounds = std::floor(from / length());
  for (double round = rounds; round * length() < to; ++round) {
    for (std::size_t i = 0; i + 1 < ring_.size(); ++i) {
      const double at = round * length() + along_[i];
      if (at > from && at < to && !(line.back() == ring_[i])) line.push_back(ring_[i]);
    }
  }
  if (!(line.back() == place(to))) line.push_back(place(to));
  return line;
}

}  // namespace castplan
