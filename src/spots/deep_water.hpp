// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/grid/lake.hpp"

namespace castplan {

/// Answers how far it is to water of a depth, from the deepest water of each block of cells. Keeps the lake.
class DeepWater {
 public:
  explicit DeepWater(const Lake& lake);

  /// Distance to the nearest place, along rows and columns of cells, where the floor passes a depth, or to the nearest
  /// cell at least so deep where it does not; `within` where that is less.
  [[nodiscard]] Metres distance_to(XY from, Metres depth, Metres within) const;

 private:
  static constexpr int kSide = 16;  ///< cells
  struct Block {
    double away;  ///< to the nearest centre of a cell that it may have
    int number;
  };
  [[nodiscard]] std::vector<Block> blocks_about(XY from, float enough, double within) const;
  [[nodiscard]] double nearest_in(int block, XY from, float enough, double within) const;
  [[nodiscard]] double into(Cell deep, XY from, float enough) const;

  const Lake& lake_;
  int rows_, cols_;             ///< of blocks
  std::vector<float> deepest_;  ///< by block; less than nothing where there is no water
};

}  // namespace castplan
