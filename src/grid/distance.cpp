// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/distance.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <limits>
#include <vector>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"
#include "grid/envelope.hpp"

namespace castplan {
namespace {

constexpr int kRows = 32;    // of a block: as many as a word has bits
constexpr int kStrip = 256;  // columns joined at once

/// A block of rows. Distances along a column are whole numbers of cells in a float: exact for up to 2^24 rows.
struct Block {
  std::vector<std::uint32_t> marks;  ///< of each column, a bit a row
  std::vector<float> above;          ///< from the row before its first to the nearest mark upwards
  std::vector<float> below;          ///< from the row after its last to the nearest mark downwards
};

CASTPLAN_HOT void note_marks(const std::uint8_t* marked, std::uint32_t bit, std::uint32_t* marks, std::size_t cols) {
  for (std::size_t i = 0; i < cols; ++i) marks[i] |= marked[i] != 0 ? bit : 0U;
}

std::vector<Block> read_marks(const Frame& frame, const RowMarks& marks) {
  const auto cols = static_cast<std::size_t>(frame.cols);
  std::vector<Block> blocks(static_cast<std::size_t>((frame.rows + kRows - 1) / kRows));
  each(static_cast<int>(blocks.size()), [&](int number) {
    Block block{std::vector<std::uint32_t>(cols), std::vector<float>(cols), std::vector<float>(cols)};
    std::vector<std::uint8_t> marked(cols);
    const int first = number * kRows;
    for (int row = first; row < std::min(frame.rows, first + kRows); ++row) {
      marks(row, 0, marked);
      note_marks(marked.data(), std::uint32_t{1} << (row - first), block.marks.data(), cols);
    }
    blocks[static_cast<std::size_t>(number)] = std::move(block);
  });
  return blocks;
}

/// What the blocks have above and below them, for some columns. The last block may have fewer rows than bits: none of
/// those that it lacks is marked, and nothing lies below it.
void join_strip(std::vector<Block>& blocks, std::size_t first, std::size_t last) {
  std::array<float, kStrip> reach;
  reach.fill(kFar);
  for (Block& block : blocks) {
    for (std::size_t col = first; col < last; ++col) {
      float& here = reach[col - first];
      block.above[col] = here;
      const std::uint32_t marks = block.marks[col];
      here = marks != 0 ? static_cast<float>(std::countl_zero(marks)) : here + kRows;
    }
  }
  reach.fill(kFar);
  for (auto block = blocks.rbegin(); block != blocks.rend(); ++block) {
    for (std::size_t col = first; col < last; ++col) {
      float& here = reach[col - first];
      block->below[col] = here;
      const std::uint32_t marks = block->marks[col];
      here = marks != 0 ? static_cast<float>(std::countr_zero(marks)) : here + kRows;
    }
  }
}

CASTPLAN_HOT void step_down(const std::uint32_t* marks, std::uint32_t bit, const float* above, float* here,
                            std::size_t cols) {
  for (std::size_t i = 0; i < cols; ++i) {
    const float further = above[i] + 1.0F;
    here[i] = (marks[i] & bit) != 0 ? 0.0F : further;
  }
}

CASTPLAN_HOT void step_up(const float* below, float* here, std::size_t cols) {
  for (std::size_t i = 0; i < cols; ++i) {
    const float further = below[i] + 1.0F;
    here[i] = further < here[i] ? further : here[i];
  }
}

/// Room for the distances along the columns in a block, with what `Envelope` asks for on both sides of a row.
class Columns {
 public:
  explicit Columns(int cols)
      : wide_(static_cast<std::size_t>(cols) + 2 * kAside), cells_(wide_ * kRows + Envelope::kBeyond, kFar) {}
  float* row(int number) { return cells_.data() + static_cast<std::size_t>(number) * wide_ + kAside; }

 private:
  static constexpr std::size_t kAside = 1;
  std::size_t wide_;
  std::vector<float> cells_;
};

void measure_block(const Block& block, int first, Columns& columns, Envelope& envelope, Grid<Metres32>& cells) {
  const std::size_t cols = block.marks.size();
  const int rows = std::min(cells.rows() - first, kRows);
  const float* above = block.above.data();
  for (int row = 0; row < rows; ++row) {
    step_down(block.marks.data(), std::uint32_t{1} << row, above, columns.row(row), cols);
    above = columns.row(row);
  }
  const float* below = block.below.data();
  for (int row = rows - 1; row >= 0; --row) {
    step_up(below, columns.row(row), cols);
    below = columns.row(row);
    envelope.measure(below, cells.frame().cell, cells.row(first + row));
  }
}

}  // namespace

Grid<Metres32> distance_to(const Frame& frame, const std::function<bool(Cell)>& test) {
  return distance_to_marks(frame, [&](int row, int first, std::span<std::uint8_t> out) {
    for (std::uint8_t& mark : out) mark = test({row, first++}) ? 1 : 0;
  });
}

Grid<Metres32> distance_to_marks(const Frame& frame, const RowMarks& marks) {
  Grid<Metres32> cells(frame);
  std::vector<Block> blocks = read_marks(frame, marks);
  each((frame.cols + kStrip - 1) / kStrip, [&](int number) {
    const int first = number * kStrip;
    join_strip(blocks, static_cast<std::size_t>(first), static_cast<std::size_t>(std::min(first + kStrip, frame.cols)));
  });
  // blocks that follow each other share their room, since one row's envelope says much about the next
  const int count = static_cast<int>(blocks.size());
  const int groups = std::min(count, 16);
  each(groups, [&](int group) {
    Columns columns(frame.cols);
    Envelope envelope(frame.cols);
    for (int number = count * group / groups; number < count * (group + 1) / groups; ++number) {
      measure_block(blocks[static_cast<std::size_t>(number)], number * kRows, columns, envelope, cells);
    }
  });
  return cells;
}

}  // namespace castplan
