// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <limits>
#include <span>

#include "castplan/grid/grid.hpp"

namespace castplan {

/// A field looked at as heights, without a copy of it: as it is, only where it is positive (depths of water; land that
/// touches water carries 0 and would join two lakes over a beach), or upside down (humps of a field of depths).
class Heights {
 public:
  enum Reading { as_is, positive_only, upside_down };

  explicit Heights(const Grid<Metres32>& field, Reading reading = as_is) : field_(&field), reading_(reading) {}

  [[nodiscard]] const Grid<Metres32>& field() const { return *field_; }
  [[nodiscard]] const Frame& frame() const { return field_->frame(); }

  [[nodiscard]] float operator[](std::size_t cell) const { return read((*field_)[cell].value()); }

  /// Heights of one row from a column on, as many as out takes; NaN where there is none.
  void copy_row(int row, int first, std::span<float> out) const {
    const auto in = field_->row(row).subspan(static_cast<std::size_t>(first), out.size());
    if (reading_ == as_is) {
      std::transform(in.begin(), in.end(), out.begin(), [](Metres32 value) { return value.value(); });
    } else if (reading_ == upside_down) {
      std::transform(in.begin(), in.end(), out.begin(), [](Metres32 value) { return -value.value(); });
    } else {
      std::transform(in.begin(), in.end(), out.begin(), [](Metres32 value) { return where_positive(value.value()); });
    }
  }

  /// Calls work with a test of raw values of the field that holds exactly where the height is above the level.
  template <class Work>
  auto with_test(float level, const Work& work) const {
    if (reading_ == upside_down) return work([limit = -level](Metres32 value) { return value.value() < limit; });
    const float limit = reading_ == positive_only ? std::max(level, 0.0F) : level;
    return work([limit](Metres32 value) { return value.value() > limit; });
  }

 private:
  static float where_positive(float value) { return value > 0 ? value : std::numeric_limits<float>::quiet_NaN(); }
  [[nodiscard]] float read(float value) const {
    if (reading_ == as_is) return value;
    return reading_ == upside_down ? -value : where_positive(value);
  }

  const Grid<Metres32>* field_;
  Reading reading_;
};

}  // namespace castplan
