// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "castplan/grid/frame.hpp"

namespace castplan {

/// Says of the cells of a row, from a column on, which are meant: 1 for those, 0 for the others, as many as there is
/// room for. Called from several threads at once, for some cells more than once.
using RowMarks = std::function<void(int row, int first, std::span<std::uint8_t> out)>;

/// Cells of one row, side by side, of one group.
struct GroupRun {
  int first;
  int last;  ///< one past the last column
  std::int32_t group;
};

/// Groups of cells joined by sides and corners, kept as runs: a small part of the memory of a number a cell.
class Groups {
 public:
  Groups() = default;
  Groups(const Frame& frame, std::vector<GroupRun> runs, std::vector<std::size_t> starts, int count)
      : frame_(frame), runs_(std::move(runs)), starts_(std::move(starts)), count_(count) {}

  [[nodiscard]] const Frame& frame() const { return frame_; }
  [[nodiscard]] bool holds(Cell at) const { return frame_.holds(at); }
  /// Groups are numbered 0, 1, 2 ... in order of their first cell by row and column, unless numbered anew.
  [[nodiscard]] int count() const { return count_; }
  /// Runs of a row, west to east.
  [[nodiscard]] std::span<const GroupRun> row(int number) const {
    const auto at = static_cast<std::size_t>(number);
    return std::span(runs_).subspan(starts_[at], starts_[at + 1] - starts_[at]);
  }
  /// The group of a cell; -1 where it belongs to none. Takes a search in the row.
  std::int32_t operator[](Cell at) const;
  std::int32_t operator[](std::size_t index) const;

  /// number[i]: what group i is called from now on.
  void number_anew(std::span<const std::int32_t> number);

 private:
  Frame frame_{};
  std::vector<GroupRun> runs_;       ///< by row, then column
  std::vector<std::size_t> starts_;  ///< of each row's runs; one more than there are rows
  int count_ = 0;
};

Groups groups_of(const Frame& frame, const RowMarks& marks);

}  // namespace castplan
