// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "castplan/features/detect.hpp"
#include "features/floor.hpp"

namespace castplan {

/// Depths from a place of the bed outwards to one side, every half cell; NaN from the first unknown on.
struct BedSide {
  std::vector<double> depth;
  bool shore_within_bank = false;
};

/// What lies behind a bank: floor about as high as the bank, floor that goes on rising (or the shore, or the unknown),
/// or floor that falls away again.
enum class Behind { level, rising, falling };

/// What one side of the bed does.
struct Bank {
  double rise = 0;
  Behind behind = Behind::rising;
};

struct BedPlace {
  XY at;
  XY left;  ///< unit vector across the bed
  std::array<BedSide, 2> side;
  std::array<Bank, 2> bank;
  double bed = 0;
  double width = 0;

  [[nodiscard]] bool falls_behind() const {
    return bank[0].behind == Behind::falling || bank[1].behind == Behind::falling;
  }
  [[nodiscard]] int level_sides() const {
    return (bank[0].behind == Behind::level ? 1 : 0) + (bank[1].behind == Behind::level ? 1 : 0);
  }
  [[nodiscard]] double relief() const { return std::min(bank[0].rise, bank[1].rise); }
};

/// Places along a line, 5 m or a block apart, each with the floor across it: means over the cross profiles of 15 m to
/// either side along the line.
std::vector<BedPlace> bed_places(const Line& line, const Lake& lake, const Floor& floor, const DetectOptions& options);

}  // namespace castplan
