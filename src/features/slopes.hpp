// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "castplan/grid/sweep.hpp"
#include "features/heights.hpp"

namespace castplan {

using Index = std::uint32_t;
constexpr Index kNoSummit = 0x7FFFFFFF;

/// The lowest ground on the way from one summit's slopes to another's: the highest of the places where they touch.
struct SummitPass {
  float height;
  Index cell;  ///< the lower of the two cells, the first by number of equals
  Index a, b;  ///< summits by number, a < b
};

/// Order in which passes join summits: the highest first, then the first cell, then the summits' numbers.
bool joins_before(const SummitPass& p, const SummitPass& q);

/// Which summit each cell leads to by steepest ascent, a band of rows at a time: no label is kept for the whole field,
/// only those of each band's first and last row. Among equal heights the earlier cell counts as the higher.
class Slopes {
 public:
  explicit Slopes(const Heights& heights);

  /// Cells of the summits, in order.
  [[nodiscard]] const std::vector<Index>& summits() const { return summits_; }
  /// All passes between touching slopes; of each two summits the first to join them, seen band by band, so that the
  /// same two may come again from another band. In the order in which they join.
  [[nodiscard]] std::vector<SummitPass> passes() const;

 private:
  /// Of a border row: the summit's number, once known; before that the cell that the way leads to.
  struct Border {
    std::vector<Index> north, south;  ///< first and last row of the band
  };
  void resolve();
  [[nodiscard]] std::vector<SummitPass> passes_of(const Band& band) const;

  Heights heights_;
  std::vector<Index> summits_;
  std::vector<Border> borders_;            ///< a band
  std::vector<std::size_t> first_summit_;  ///< of each band, by number; one more than there are bands
};

}  // namespace castplan
