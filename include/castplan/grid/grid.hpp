// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cassert>
#include <cstddef>
#include <span>
#include <type_traits>
#include <vector>

#include "castplan/grid/frame.hpp"
#include "castplan/grid/room.hpp"

namespace castplan {

/// One value a cell on a frame, row by row from the north. Owns its cells. Unknown is NaN for quantities.
template <class T>
class Grid {
 public:
  Grid() = default;
  /// All cells zero, which costs nothing until they are used.
  explicit Grid(const Frame& frame) : frame_(frame), cells_(cells_in(frame)) {}
  Grid(const Frame& frame, T fill) : frame_(frame), cells_(cells_in(frame), fill) {}

  [[nodiscard]] const Frame& frame() const { return frame_; }
  [[nodiscard]] int rows() const { return frame_.rows; }
  [[nodiscard]] int cols() const { return frame_.cols; }
  [[nodiscard]] std::size_t size() const { return cells_.size(); }
  [[nodiscard]] bool holds(Cell at) const { return frame_.holds(at); }

  [[nodiscard]] std::size_t index(Cell at) const {
    assert(holds(at));
    return static_cast<std::size_t>(at.row) * static_cast<std::size_t>(frame_.cols) + static_cast<std::size_t>(at.col);
  }
  [[nodiscard]] Cell cell_of(std::size_t index) const {
    const auto cols = static_cast<std::size_t>(frame_.cols);
    return {static_cast<int>(index / cols), static_cast<int>(index % cols)};
  }
  T& operator[](Cell at) { return cells_[index(at)]; }
  const T& operator[](Cell at) const { return cells_[index(at)]; }
  T& operator[](std::size_t index) { return cells_[index]; }
  const T& operator[](std::size_t index) const { return cells_[index]; }

  [[nodiscard]] std::span<T> row(int number) {
    return {cells_.data() + index({number, 0}), static_cast<std::size_t>(frame_.cols)};
  }
  [[nodiscard]] std::span<const T> row(int number) const {
    return {cells_.data() + index({number, 0}), static_cast<std::size_t>(frame_.cols)};
  }
  [[nodiscard]] std::span<T> cells() { return cells_; }
  [[nodiscard]] std::span<const T> cells() const { return cells_; }

 private:
  static_assert(std::is_trivially_copyable_v<T>);
  static std::size_t cells_in(const Frame& frame) {
    return static_cast<std::size_t>(frame.rows) * static_cast<std::size_t>(frame.cols);
  }

  Frame frame_{};
  std::vector<T, CellAllocator<T>> cells_;
};

}  // namespace castplan
