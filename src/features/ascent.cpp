// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/ascent.hpp"

#include <limits>

#include "castplan/grid/hot.hpp"

namespace castplan {

CASTPLAN_HOT void ascent_row(const float* above, const float* here, const float* below, int count, std::uint8_t* out) {
  for (int i = 0; i < count; ++i) {
    float highest = -std::numeric_limits<float>::infinity();
    int place = 4;
    const auto look = [&](float value, int at) {
      place = value > highest ? at : place;  // false for NaN; the first of equals stays
      highest = value > highest ? value : highest;
    };
    look(above[i - 1], 0);
    look(above[i], 1);
    look(above[i + 1], 2);
    look(here[i - 1], 3);
    look(here[i], 4);
    look(here[i + 1], 5);
    look(below[i - 1], 6);
    look(below[i], 7);
    look(below[i + 1], 8);
    out[i] = static_cast<std::uint8_t>(here[i] == here[i] ? place : kNoAscent);
  }
}

AscentBand::AscentBand(const Heights& heights, const Band& band) : band_(band), cols_(heights.frame().cols) {
  const auto rows = static_cast<std::size_t>(band.last - band.first);
  heights_.assign((rows + 2) * stride(), std::numeric_limits<float>::quiet_NaN());
  ascents_.resize(rows * static_cast<std::size_t>(cols_));
  for (int number = std::max(band.first - 1, 0); number < std::min(band.last + 1, heights.frame().rows); ++number) {
    float* out = heights_.data() + static_cast<std::size_t>(number - band_.first + 1) * stride() + 1;
    heights.copy_row(number, 0, {out, static_cast<std::size_t>(cols_)});
  }
  for (int number = band.first; number < band.last; ++number) {
    ascent_row(row(number - 1), row(number), row(number + 1), cols_,
               ascents_.data() + static_cast<std::size_t>(number - band_.first) * static_cast<std::size_t>(cols_));
  }
}

}  // namespace castplan
