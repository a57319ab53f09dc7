// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/grid/grid.hpp"
#include "castplan/io/inspect.hpp"

namespace castplan {

/// All of these take depths: more than 0 is water, NaN is no data.

/// Cells that water shuts in on all sides.
struct Block {
  std::size_t cells{};
  double around{};  ///< median depth of the water that touches it
  Cell at{};        ///< its first cell by row and column
};
enum class BlockKind { no_data, zero };
std::vector<Block> shut_in(const Grid<Metres32>& depth, BlockKind kind);

struct Flats {
  double share{};        ///< of the water cells: those that equal all 8 neighbours
  std::size_t levels{};  ///< different values among them
  double step{};         ///< mean difference between these values; 0 for one or none
};
Flats flats(const Grid<Metres32>& depth);

struct Levels {
  std::size_t count{};
  float commonest{};
  double commonest_share{};
};
/// The different values in the water.
Levels levels(const Grid<Metres32>& depth);

struct Spike {
  Cell at;
  double off{};  ///< depth less the median of its 3 x 3 cells
};
/// Water cells among 8 known neighbours that stand off their 3 x 3 median by more than `least` and by more than twice
/// the range of those neighbours, by row and column. Design choice: no slope, ridge or edge does that.
std::vector<Spike> spikes(const Grid<Metres32>& depth, double least);

/// At even steps of 1, 2 or 5 times a power of ten, 5 to 12 of them.
std::vector<DeeperShare> hypsography(const Grid<Metres32>& depth);

}  // namespace castplan
