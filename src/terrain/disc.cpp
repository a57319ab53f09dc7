// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/disc.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"
#include "terrain/disc_sums.hpp"

namespace castplan {
namespace {

constexpr double kMostCells = 20000;
constexpr int kPiece = 256;    ///< columns done at once, so that the sums about them stay in a near cache
constexpr int kCounted = 128;  ///< of which the known cells are counted, or not, at once
constexpr Metres32 kUnknown{std::numeric_limits<float>::quiet_NaN()};

struct Span {
  float low = std::numeric_limits<float>::infinity();
  float high = -std::numeric_limits<float>::infinity();
};

/// Least and greatest by column; NaN changes nothing in this order.
CASTPLAN_HOT void widen(const Metres32* in, int count, float* __restrict low, float* __restrict high) {
  for (int i = 0; i < count; ++i) {
    const float v = in[i].value();
    low[i] = v < low[i] ? v : low[i];
    high[i] = v > high[i] ? v : high[i];
  }
}

Span span_of(const Grid<Metres32>& depth) {
  std::vector<Span> of_band(static_cast<std::size_t>(band_count(depth.rows())));
  sweep(depth.rows(), [&](const Band& band) {
    Span& span = of_band[static_cast<std::size_t>(band.number)];
    std::array<float, kPiece> low, high;
    low.fill(span.low);
    high.fill(span.high);
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < depth.cols(); col += kPiece) {
        widen(depth.row(row).data() + col, std::min(kPiece, depth.cols() - col), low.data(), high.data());
      }
    }
    span = {*std::min_element(low.begin(), low.end()), *std::max_element(high.begin(), high.end())};
  });
  Span all;
  for (const Span& span : of_band) all = {std::min(all.low, span.low), std::max(all.high, span.high)};
  return all;
}

/// Values as whole steps over the lowest, and 1 or 0 for known or not.
struct Rounding {
  float low;
  float steps_per_metre;
};

CASTPLAN_HOT void round_row(const Metres32* in, int count, Rounding to, std::uint32_t* steps) {
  for (int i = 0; i < count; ++i) {
    const float v = (in[i].value() - to.low) * to.steps_per_metre + 0.5F;
    steps[i] = v >= 0 ? static_cast<std::uint32_t>(static_cast<std::int32_t>(v)) : 0;
  }
}

/// How many are known.
CASTPLAN_HOT int mark_row(const Metres32* in, int count, std::uint32_t* known) {
  int all = 0;
  for (int i = 0; i < count; ++i) {
    const int is = static_cast<int>(in[i].value() == in[i].value());
    known[i] = static_cast<std::uint32_t>(is);
    all += is;
  }
  return all;
}

CASTPLAN_HOT void mean_row(const Metres32* own, const std::uint32_t* sum, const std::uint32_t* known, int count,
                           double low, double step, Metres32* out) {
  for (int i = 0; i < count; ++i) {
    const double mean = low + step * static_cast<double>(sum[i]) / static_cast<double>(known[i]);
    out[i] = own[i].value() == own[i].value() ? Metres32(static_cast<float>(mean)) : kUnknown;
  }
}

class TileMeans {
 public:
  TileMeans(const Grid<Metres32>& depth, const DiscShape& shape, Rounding rounding, int rows, int cols)
      : depth_(depth),
        shape_(shape),
        rounding_(rounding),
        values_(shape, rows, cols),
        known_(shape, rows, cols),
        sum_(kPiece),
        count_(sum_.size()) {}

  void run(Cell corner, int rows, int cols, Grid<Metres32>& out) {
    const Known known = read(corner, rows);
    if (known != Known::nothing) values_.add_up();
    if (known == Known::part) known_.add_up();
    for (int col = 0; col < cols; col += kPiece) {
      for (int row = 0; row < rows; ++row) {
        const Cell at{corner.row + row, corner.col + col};
        means({row, col}, std::min(kPiece, cols - col), known, depth_.row(at.row).data() + at.col,
              out.row(at.row).data() + at.col);
      }
    }
  }

 private:
  enum class Known { nothing, part, all };

  /// Means of a piece of a row, from its first known cell to its last: sums are only made where they are asked for.
  void means(Cell first, int count, Known known, const Metres32* own, Metres32* out) {
    const auto is_known = [](Metres32 d) { return d == d; };
    const Metres32* const begin = known == Known::nothing ? own + count : std::find_if(own, own + count, is_known);
    const Metres32* end = own + count;
    while (end != begin && !is_known(*(end - 1))) --end;
    std::fill(out, out + (begin - own), kUnknown);
    std::fill(out + (end - own), out + count, kUnknown);
    if (begin == end) return;
    const Cell at{first.row, first.col + static_cast<int>(begin - own)};
    const auto cells = static_cast<int>(end - begin);
    values_.row(at, cells, sum_.data());
    count_known(at, cells, known);
    mean_row(begin, sum_.data(), count_.data(), cells, static_cast<double>(rounding_.low),
             1.0 / static_cast<double>(rounding_.steps_per_metre), out + (begin - own));
  }

  /// How many cells of each disc are known; they are only counted where something beside them is not.
  void count_known(Cell first, int count, Known known) {
    for (int i = 0; i < count; i += kCounted) {
      const int cells = std::min(kCounted, count - i);
      const Cell at{first.row, first.col + i};
      const auto whole = static_cast<std::uint32_t>((2 * shape_.reach + 1) * (2 * shape_.reach + cells));
      if (known == Known::all || known_.box(at, cells) == whole) {
        std::fill_n(count_.begin() + i, cells, static_cast<std::uint32_t>(shape_.cells));
      } else {
        known_.row(at, cells, count_.data() + i);
      }
    }
  }

  /// What is known, halo included.
  Known read(Cell corner, int rows) {
    long long known_cells = 0;
    const int first = std::max(corner.col - shape_.reach, 0);
    const int last = std::min(corner.col - shape_.reach + values_.width(), depth_.cols());
    const int before = first - (corner.col - shape_.reach);
    for (int row = -shape_.reach; row < rows + shape_.reach; ++row) {
      std::uint32_t* value = values_.input(row);
      std::uint32_t* known = known_.input(row);
      const int number = corner.row + row;
      const bool inside = number >= 0 && number < depth_.rows();
      const int begin = inside ? before : values_.width(), end = inside ? before + last - first : values_.width();
      for (std::uint32_t* line : {value, known}) {
        std::fill(line, line + begin, 0U);
        std::fill(line + end, line + values_.width(), 0U);
      }
      if (!inside) continue;
      const Metres32* in = depth_.row(number).data() + first;
      round_row(in, last - first, rounding_, value + before);
      known_cells += mark_row(in, last - first, known + before);
    }
    if (known_cells == 0) return Known::nothing;
    return known_cells == static_cast<long long>(rows + 2 * shape_.reach) * values_.width() ? Known::all : Known::part;
  }

  const Grid<Metres32>& depth_;
  const DiscShape& shape_;
  Rounding rounding_;
  DiscSums values_, known_;
  std::vector<std::uint32_t> sum_, count_;  ///< of a piece
};

}  // namespace

Metres disc_step(Metres lowest, Metres highest, double radius_in_cells) {
  // a float still tells halves of whole numbers below 2^22; a power of two keeps the multiplication exact
  const auto cells = static_cast<double>(DiscShape(radius_in_cells).cells);
  const double steps = std::min(4294967295.0 / cells - 1, 4194303.0);
  const double range = std::max((highest - lowest).value(), 1e-6);
  return Metres(std::exp2(std::ceil(std::log2(range / steps))));
}

Grid<Metres32> disc_mean(const Grid<Metres32>& depth, Metres radius) {
  const double in_cells = radius / depth.frame().cell;
  if (!(in_cells >= 0 && in_cells <= kMostCells)) throw std::invalid_argument("disc_mean: radius of 0 to 20000 cells");
  Grid<Metres32> out(depth.frame());
  const Span span = span_of(depth);
  if (span.low > span.high) return depth;
  const Metres step =
      disc_step(Metres(static_cast<double>(span.low)), Metres(static_cast<double>(span.high)), in_cells);
  const Rounding rounding{span.low, static_cast<float>(1 / step.value())};
  const DiscShape shape(in_cells);
  // higher tiles for wide discs, whose halo would else cost more than the tile
  const int tile_rows = shape.reach > 40 ? 512 : 128;
  const int tile_cols = std::min(depth.cols(), std::max(512, 2 * shape.reach));
  each((depth.rows() + tile_rows - 1) / tile_rows, [&](int number) {
    TileMeans tile(depth, shape, rounding, tile_rows, tile_cols);
    const int top = number * tile_rows;
    const int rows = std::min(tile_rows, depth.rows() - top);
    for (int left = 0; left < depth.cols(); left += tile_cols) {
      tile.run({top, left}, rows, std::min(tile_cols, depth.cols() - left), out);
    }
  });
  return out;
}

}  // namespace castplan
