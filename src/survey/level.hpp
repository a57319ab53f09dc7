// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "castplan/grid/sweep.hpp"
#include "survey/datum.hpp"

namespace castplan::survey {

/// What there is of the plate at a cell, as bits. The energy is a sum of small pieces, each on cells that all belong to
/// the plate; at its rim pieces are simply missing, which is what a free edge means.
enum : std::uint8_t {
  kPlate = 1,      ///< the cell belongs to the plate
  kBendX = 2,      ///< second difference west-east, centred here
  kBendY = 4,      ///< second difference north-south, centred here
  kTwist = 8,      ///< mixed difference of the square whose north-west corner is here
  kStretchX = 16,  ///< first difference to the east
  kStretchY = 32,  ///< first difference to the south
  kTaut = 64,      ///< the plate is under tension here
};

/// Cells of one row, first to last (one past), that share one way of computing.
struct Run {
  enum class Kind : std::uint8_t { rim, taut, slack };
  int first;
  int last;
  Kind kind;  ///< all pieces there with or without tension, or not all (rim)
};

/// Pull of the data in one square between four cell centres: the symmetric matrix of their bilinear weights, rows of
/// its upper triangle; corners in the order NW, NE, SW, SE.
struct Square {
  int col;
  std::array<float, 10> matrix;
};

/// One grid of the hierarchy: the plate's energy in units of the finest grid's.
struct Level {
  int rows{};
  int cols{};
  float bend{};     ///< factor of squared second differences
  float stretch{};  ///< factor of squared first differences
  std::vector<std::uint8_t> flags;
  std::vector<Run> runs;
  std::vector<std::size_t> run_from;  ///< first run of each row, one more than rows
  std::vector<Square> squares;
  std::vector<std::size_t> square_from;  ///< first square of each row, one more than rows
  std::vector<float> over_diagonal;      ///< 1 / diagonal; 0 where no piece touches the cell

  [[nodiscard]] std::size_t size() const { return static_cast<std::size_t>(rows) * static_cast<std::size_t>(cols); }
  [[nodiscard]] std::size_t at(int row, int col) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) + static_cast<std::size_t>(col);
  }
  [[nodiscard]] std::span<const Run> runs_of(int row) const {
    return {runs.data() + run_from[static_cast<std::size_t>(row)],
            run_from[static_cast<std::size_t>(row) + 1] - run_from[static_cast<std::size_t>(row)]};
  }
  [[nodiscard]] std::span<const Square> squares_of(int row) const {
    return {squares.data() + square_from[static_cast<std::size_t>(row)],
            square_from[static_cast<std::size_t>(row) + 1] - square_from[static_cast<std::size_t>(row)]};
  }
};

/// flags: kPlate and kTaut set for each cell, the rest not yet. data: in this level's cells, blocked.
Level make_level(int rows, int cols, std::vector<std::uint8_t> flags, float bend, float stretch, const Data& data);

/// The next coarser grid: a cell for two by two, and a ring more on every side; cell i lies in coarse cell i / 2 + 1.
/// It belongs to the plate where any cell of its own or its eight neighbours' does, so that interpolation finds all.
std::vector<std::uint8_t> coarser_flags(const Level& fine);
inline int coarser_size(int size) { return (size + 1) / 2 + 2; }
inline double coarser_place(double place) { return (place - 0.5) / 2.0 + 1.0; }

/// Bands of a level's rows as `sweep` makes them; on this thread alone where the level is too small to share.
void sweep_level(int rows, int cols, const std::function<void(const Band&)>& work);
inline void sweep_level(const Level& level, const std::function<void(const Band&)>& work) {
  sweep_level(level.rows, level.cols, work);
}

/// Right-hand side: what the data pull towards.
std::vector<float> pull(const Level& level, const Data& data);

}  // namespace castplan::survey
