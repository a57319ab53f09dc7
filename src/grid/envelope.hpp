// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "castplan/geo/quantity.hpp"

namespace castplan {

constexpr float kFar = std::numeric_limits<float>::infinity();

/// The lower envelope of the parabolas that stand on the columns of a row, each as high as its column's squared
/// distance to a mark: the squared distance from each cell to the nearest mark of all.
class Envelope {
 public:
  explicit Envelope(int cols);

  /// Columns are looked at in whole lanes: so many after the last are read, whatever stands there.
  static constexpr int kBeyond = 8;

  /// Distances along a row from those along its columns, in cells; infinite where a column has no mark. One cell before
  /// the first and one after the last count too, and are infinite. The row may have been any before: one beside the
  /// last that was measured is quick.
  void measure(const float* columns, Metres cell, std::span<Metres32> out);

  /// One of those that make the envelope.
  struct Parabola {
    int vertex;    ///< column
    float height;  ///< of its vertex
    double sum;    ///< of its height and its column squared: what it has at column 0
    double from;   ///< where it begins to be the lowest
  };

 private:
  void build(const float* columns, int first, int last);
  void add(int col, double along);

  std::vector<std::uint32_t> keep_;  ///< of each column, whether it may stand: as wide as what decides it
  std::vector<Parabola> parabolas_;
  std::size_t count_ = 0;
  /// 1 / (2 n), since a division would cost as much as all else. Where two parabolas meet is then off by a rounding;
  /// a multiple of 1 / (2 n) that is no whole number lies much further from one, and at a whole one both are as near.
  std::vector<double> half_over_;
};

}  // namespace castplan
