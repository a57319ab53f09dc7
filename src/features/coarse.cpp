// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/coarse.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/grid/sweep.hpp"

namespace castplan {

int first_of(int number, int step, int count, int coarse_count) {
  return number * step - (coarse_count * step - count) / 2;
}

int coarse_step(Metres cell, Metres most) {
  const int whole = static_cast<int>(std::floor(most / cell + 1e-9));
  return std::max(1, whole - (whole % 2 == 0 ? 1 : 0));
}

Frame coarse_frame(const Frame& frame, int step) {
  const auto sides = [step](int count) {
    const int whole = (count + step - 1) / step;
    return whole + (whole * step - count) % 2;
  };
  Frame coarse = frame;
  coarse.rows = sides(frame.rows);
  coarse.cols = sides(frame.cols);
  coarse.cell = frame.cell * step;
  const double half = frame.cell.value() / 2;
  coarse.corner =
      frame.corner + XY{-half * (coarse.cols * step - frame.cols), half * (coarse.rows * step - frame.rows)};
  return coarse;
}

Grid<Metres32> coarse_depth(const Lake& lake, int step) {
  Grid<Metres32> out(coarse_frame(lake.depth.frame(), step));
  const int rows = lake.depth.rows(), cols = lake.depth.cols();
  const auto enough = static_cast<float>(step * step) / 2;
  sweep(out.rows(), [&](const Band& band) {
    std::vector<float> sum(static_cast<std::size_t>(cols)), known(sum.size());
    for (int row = band.first; row < band.last; ++row) {
      std::fill(sum.begin(), sum.end(), 0.0F);
      std::fill(known.begin(), known.end(), 0.0F);
      const int first = first_of(row, step, rows, out.rows());
      for (int r = std::max(first, 0); r < std::min(first + step, rows); ++r) {
        const Metres32* depth = lake.depth.row(r).data();
        const Cover* cover = lake.cover.row(r).data();
        // down the columns first: this loop is over all cells, and the compiler makes it wide
        for (std::size_t c = 0; c < sum.size(); ++c) {
          sum[c] += cover[c] == Cover::water ? depth[c].value() : 0.0F;
          known[c] += cover[c] == Cover::unknown ? 0.0F : 1.0F;
        }
      }
      for (int col = 0; col < out.cols(); ++col) {
        const int west = first_of(col, step, cols, out.cols());
        float part = 0, count = 0;
        for (int c = std::max(west, 0); c < std::min(west + step, cols); ++c) {
          part += sum[static_cast<std::size_t>(c)];
          count += known[static_cast<std::size_t>(c)];
        }
        out[Cell{row, col}] = Metres32(count >= enough ? part / count : std::numeric_limits<float>::quiet_NaN());
      }
    }
  });
  return out;
}

Grid<Cover> coarse_cover(const Lake& lake, int step) {
  Grid<Cover> out(coarse_frame(lake.depth.frame(), step), Cover::unknown);
  const int rows = lake.cover.rows(), cols = lake.cover.cols();
  static_assert(Cover::unknown < Cover::land && Cover::land < Cover::water);
  sweep(out.rows(), [&](const Band& band) {
    std::vector<Cover> most(static_cast<std::size_t>(cols));
    for (int row = band.first; row < band.last; ++row) {
      std::fill(most.begin(), most.end(), Cover::unknown);
      const int first = first_of(row, step, rows, out.rows());
      for (int r = std::max(first, 0); r < std::min(first + step, rows); ++r) {
        const Cover* cover = lake.cover.row(r).data();
        for (std::size_t c = 0; c < most.size(); ++c) most[c] = most[c] < cover[c] ? cover[c] : most[c];
      }
      for (int col = 0; col < out.cols(); ++col) {
        const int west = first_of(col, step, cols, out.cols());
        for (int c = std::max(west, 0); c < std::min(west + step, cols); ++c) {
          out[Cell{row, col}] = std::max(out[Cell{row, col}], most[static_cast<std::size_t>(c)]);
        }
      }
    }
  });
  return out;
}

}  // namespace castplan
