// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/slope_change.hpp"

#include <algorithm>
#include <limits>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/sample.hpp"

namespace castplan {

namespace {

constexpr float kUnknown = std::numeric_limits<float>::quiet_NaN();

inline float change_at(const Metres32* above, const Metres32* here, const Metres32* below, float side, float least) {
  const float n = above[0].value(), s = below[0].value(), w = here[-1].value(), e = here[1].value();
  const float gx = (e - w) / (2 * side);
  const float gy = (n - s) / (2 * side);
  const float steep = gx * gx + gy * gy;
  const float middle = here[0].value();
  const float xx = (e - 2 * middle + w) / (side * side);
  const float yy = (n - 2 * middle + s) / (side * side);
  const float xy = (above[1].value() - above[-1].value() - below[1].value() + below[-1].value()) / (4 * side * side);
  const float change = (gx * gx * xx + 2 * gx * gy * xy + gy * gy * yy) / steep;
  return steep >= least * least ? change : kUnknown;
}

CASTPLAN_HOT void change_row(const Metres32* above, const Metres32* here, const Metres32* below, int cols, float side,
                             float least, Metres32* out) {
  for (int i = 1; i + 1 < cols; ++i) out[i] = Metres32(change_at(above + i, here + i, below + i, side, least));
}

}  // namespace

FieldRows SlopeChange::rows() const {
  return {frame(), [*this](int row, std::vector<Metres32>& room) {
            const Frame& frame = smooth_->frame();
            if (row < 1 || row + 1 >= frame.rows) {
              std::fill(room.begin(), room.end(), Metres32(kUnknown));
            } else {
              change_row(smooth_->row(row - 1).data(), smooth_->row(row).data(), smooth_->row(row + 1).data(),
                         frame.cols, static_cast<float>(frame.cell.value()), least_, room.data());
              room.front() = room.back() = Metres32(kUnknown);
            }
            return static_cast<const Metres32*>(room.data());
          }};
}

float SlopeChange::at(XY place) const {
  const auto side = static_cast<float>(frame().cell.value());
  return bilinear(frame(), place, [&](Cell at) {
    if (at.row < 1 || at.col < 1 || at.row + 1 >= frame().rows || at.col + 1 >= frame().cols) return kUnknown;
    const Metres32* here = &(*smooth_)[at];
    return change_at(here - frame().cols, here, here + frame().cols, side, least_);
  });
}

}  // namespace castplan
