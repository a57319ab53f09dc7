// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/flood.hpp"

#include <algorithm>
#include <bitset>
#include <memory>

namespace castplan {

namespace {

/// A bit a cell, in pages that are made where they are needed.
class Seen {
 public:
  explicit Seen(std::size_t cells) : pages_(cells / kPage + 1) {}
  [[nodiscard]] bool has(std::size_t cell) const {
    const auto& page = pages_[cell / kPage];
    return page && page->test(cell % kPage);
  }
  void add(std::size_t cell) {
    auto& page = pages_[cell / kPage];
    if (!page) page = std::make_unique<std::bitset<kPage>>();
    page->set(cell % kPage);
  }

 private:
  static constexpr std::size_t kPage = 4096;
  std::vector<std::unique_ptr<std::bitset<kPage>>> pages_;
};

template <class Test>
class Flood {
 public:
  Flood(const Grid<Metres32>& field, Test above) : field_(field), above_(above), seen_(field.size()) {}

  std::vector<Run> from(std::size_t start) {
    starts_.push_back(start);
    // whole runs of a row at a time; each run then looks for new ones in the rows above and below
    while (!starts_.empty()) {
      const Cell at = field_.cell_of(starts_.back());
      starts_.pop_back();
      if (!above_(field_[at]) || seen_.has(field_.index(at))) continue;
      take_run(at);
    }
    return std::move(found_);
  }

 private:
  void take_run(Cell at) {
    const auto row = field_.row(at.row);
    // what touches a cell of the run in its row is in the run, so none of it was seen before
    int west = at.col, east = at.col + 1;
    while (west > 0 && above_(row[static_cast<std::size_t>(west) - 1])) --west;
    while (east < field_.cols() && above_(row[static_cast<std::size_t>(east)])) ++east;
    const std::size_t first = field_.index({at.row, 0});
    for (int col = west; col < east; ++col) seen_.add(first + static_cast<std::size_t>(col));
    found_.push_back({at.row, west, east});
    if (at.row > 0) look(at.row - 1, west, east);
    if (at.row + 1 < field_.rows()) look(at.row + 1, west, east);
  }

  void look(int number, int west, int east) {
    const auto row = field_.row(number);
    const std::size_t first = field_.index({number, 0});
    const int last = std::min(field_.cols() - 1, east);
    for (int col = std::max(0, west - 1); col <= last; ++col) {
      if (!above_(row[static_cast<std::size_t>(col)])) continue;
      // runs are seen as a whole
      if (!seen_.has(first + static_cast<std::size_t>(col))) starts_.push_back(first + static_cast<std::size_t>(col));
      while (col < last && above_(row[static_cast<std::size_t>(col) + 1])) ++col;
    }
  }

  const Grid<Metres32>& field_;
  Test above_;
  Seen seen_;
  std::vector<std::size_t> starts_;
  std::vector<Run> found_;
};

}  // namespace

std::vector<Run> runs_above(const Heights& heights, std::size_t from, float level) {
  return heights.with_test(level, [&](auto test) { return Flood(heights.field(), test).from(from); });
}

}  // namespace castplan
