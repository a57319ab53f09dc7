// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/plate.hpp"

#include <array>
#include <cstddef>

namespace castplan::survey {
namespace {

template <class Sum>
struct Plate {
  const Level& level;
  const float* values;

  [[nodiscard]] Sum value(int row, int col) const { return static_cast<Sum>(values[level.at(row, col)]); }
  [[nodiscard]] bool has(int row, int col, std::uint8_t bit) const {
    return row >= 0 && col >= 0 && row < level.rows && col < level.cols && (level.flags[level.at(row, col)] & bit);
  }
  [[nodiscard]] Sum bend_x(int row, int col) const {
    return value(row, col - 1) - 2 * value(row, col) + value(row, col + 1);
  }
  [[nodiscard]] Sum bend_y(int row, int col) const {
    return value(row - 1, col) - 2 * value(row, col) + value(row + 1, col);
  }
  [[nodiscard]] Sum twist(int row, int col) const {
    return value(row, col) - value(row, col + 1) - value(row + 1, col) + value(row + 1, col + 1);
  }
};

/// All pieces that touch a cell, each asked for; for the rim.
template <class Sum>
Sum piecewise(const Plate<Sum>& plate, int row, int col) {
  Sum bend = 0;
  for (int k = -1; k <= 1; ++k) {
    const Sum factor = k == 0 ? Sum(-2) : Sum(1);
    if (plate.has(row, col + k, kBendX)) bend += factor * plate.bend_x(row, col + k);
    if (plate.has(row + k, col, kBendY)) bend += factor * plate.bend_y(row + k, col);
  }
  for (int up = -1; up <= 0; ++up) {
    for (int left = -1; left <= 0; ++left) {
      if (plate.has(row + up, col + left, kTwist)) {
        bend += (up == left ? Sum(2) : Sum(-2)) * plate.twist(row + up, col + left);
      }
    }
  }
  Sum stretch = 0;
  const Sum here = plate.value(row, col);
  if (plate.has(row, col - 1, kStretchX)) stretch += here - plate.value(row, col - 1);
  if (plate.has(row, col, kStretchX)) stretch += here - plate.value(row, col + 1);
  if (plate.has(row - 1, col, kStretchY)) stretch += here - plate.value(row - 1, col);
  if (plate.has(row, col, kStretchY)) stretch += here - plate.value(row + 1, col);
  return static_cast<Sum>(plate.level.bend) * bend + static_cast<Sum>(plate.level.stretch) * stretch;
}

/// Where all pieces are there they add up to the 13-point biharmonic stencil and the 5-point Laplacian.
template <class Sum>
void interior(const Level& level, const float* here, Run run, Sum* out) {
  const auto cols = static_cast<std::ptrdiff_t>(level.cols);
  const auto bend = static_cast<Sum>(level.bend);
  const Sum stretch = run.kind == Run::Kind::taut ? static_cast<Sum>(level.stretch) : Sum(0);
  const Sum centre = 20 * bend + 4 * stretch;
  const Sum side = -8 * bend - stretch;
  const Sum corner = 2 * bend;
  for (std::ptrdiff_t c = run.first; c < run.last; ++c) {
    const float* v = here + c;
    const Sum sides =
        static_cast<Sum>(v[-1]) + static_cast<Sum>(v[1]) + static_cast<Sum>(v[-cols]) + static_cast<Sum>(v[cols]);
    const Sum corners = static_cast<Sum>(v[-cols - 1]) + static_cast<Sum>(v[-cols + 1]) +
                        static_cast<Sum>(v[cols - 1]) + static_cast<Sum>(v[cols + 1]);
    const Sum far = static_cast<Sum>(v[-2]) + static_cast<Sum>(v[2]) + static_cast<Sum>(v[-2 * cols]) +
                    static_cast<Sum>(v[2 * cols]);
    out[c] = centre * static_cast<Sum>(v[0]) + side * sides + corner * corners + bend * far;
  }
}

/// lower: the row is the southern one of the squares.
template <class Sum>
void add_data(const Level& level, const Plate<Sum>& plate, int square_row, bool lower, std::span<Sum> out) {
  for (const Square& square : level.squares_of(square_row)) {
    const std::array<Sum, 4> v = {plate.value(square_row, square.col), plate.value(square_row, square.col + 1),
                                  plate.value(square_row + 1, square.col), plate.value(square_row + 1, square.col + 1)};
    std::array<Sum, 10> m{};
    for (std::size_t i = 0; i < m.size(); ++i) m[i] = static_cast<Sum>(square.matrix[i]);
    const auto col = static_cast<std::size_t>(square.col);
    if (lower) {
      out[col] += m[2] * v[0] + m[5] * v[1] + m[7] * v[2] + m[8] * v[3];
      out[col + 1] += m[3] * v[0] + m[6] * v[1] + m[8] * v[2] + m[9] * v[3];
    } else {
      out[col] += m[0] * v[0] + m[1] * v[1] + m[2] * v[2] + m[3] * v[3];
      out[col + 1] += m[1] * v[0] + m[4] * v[1] + m[5] * v[2] + m[6] * v[3];
    }
  }
}

}  // namespace

template <class Sum>
void multiply_row(const Level& level, const std::vector<float>& values, int row, std::span<Sum> out) {
  const Plate<Sum> plate{level, values.data()};
  for (const Run& run : level.runs_of(row)) {
    if (run.kind == Run::Kind::rim) {
      for (int col = run.first; col < run.last; ++col) {
        out[static_cast<std::size_t>(col)] = piecewise(plate, row, col);
      }
    } else {
      interior(level, values.data() + level.at(row, 0), run, out.data());
    }
  }
  if (row > 0) add_data(level, plate, row - 1, true, out);
  add_data(level, plate, row, false, out);
}

template void multiply_row<float>(const Level&, const std::vector<float>&, int, std::span<float>);
template void multiply_row<double>(const Level&, const std::vector<float>&, int, std::span<double>);

}  // namespace castplan::survey
