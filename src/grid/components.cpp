// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/components.hpp"

#include <algorithm>
#include <vector>

#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

/// Cells of one row, side by side, for which the test holds.
struct Run {
  int first;
  int last;  ///< one past the last column
};

struct Runs {
  std::vector<Run> run;            ///< by row, then column
  std::vector<std::size_t> start;  ///< of each row's runs; one more than there are rows
};

void append_runs(const std::function<bool(Cell)>& test, int row, int cols, std::vector<Run>& out) {
  int col = 0;
  while (col < cols) {
    if (!test({row, col})) {
      ++col;
      continue;
    }
    const int first = col;
    do {
      ++col;
    } while (col < cols && test({row, col}));
    out.push_back({first, col});
  }
}

Runs find_runs(const Frame& frame, const std::function<bool(Cell)>& test) {
  std::vector<std::vector<Run>> of_band(static_cast<std::size_t>(band_count(frame.rows)));
  std::vector<std::size_t> count(static_cast<std::size_t>(frame.rows));
  sweep(frame.rows, [&](const Band& band) {
    auto& runs = of_band[static_cast<std::size_t>(band.number)];
    for (int row = band.first; row < band.last; ++row) {
      const std::size_t before = runs.size();
      append_runs(test, row, frame.cols, runs);
      count[static_cast<std::size_t>(row)] = runs.size() - before;
    }
  });
  Runs all;
  all.start.push_back(0);
  for (const std::size_t in_row : count) all.start.push_back(all.start.back() + in_row);
  all.run.reserve(all.start.back());
  for (const auto& runs : of_band) all.run.insert(all.run.end(), runs.begin(), runs.end());
  return all;
}

/// Forest of runs. The root of a tree is its lowest run, which holds the group's first cell by row and column.
class Groups {
 public:
  explicit Groups(std::size_t size) : parent_(size) {
    for (std::size_t i = 0; i < size; ++i) parent_[i] = i;
  }
  std::size_t root(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::size_t> parent_;
};

void join_rows(const Runs& runs, std::size_t row, Groups& groups) {
  std::size_t above = runs.start[row - 1];
  std::size_t here = runs.start[row];
  while (above < runs.start[row] && here < runs.start[row + 1]) {
    const Run& a = runs.run[above];
    const Run& b = runs.run[here];
    // Touching corners join: [first, last) and [first, last) may be a gap of zero apart.
    if (a.first <= b.last && b.first <= a.last) groups.join(above, here);
    if (a.last < b.last) {
      ++above;
    } else {
      ++here;
    }
  }
}

}  // namespace

Components components(const Frame& frame, const std::function<bool(Cell)>& test) {
  const Runs runs = find_runs(frame, test);
  Groups groups(runs.run.size());
  for (std::size_t row = 1; row < static_cast<std::size_t>(frame.rows); ++row) join_rows(runs, row, groups);

  Components result{.label = Grid<std::int32_t>(frame, -1), .count = 0};
  std::vector<std::int32_t> label(runs.run.size());
  for (std::size_t i = 0; i < label.size(); ++i) {
    const std::size_t root = groups.root(i);
    label[i] = root == i ? result.count++ : label[root];
  }
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      const auto cells = result.label.row(row);
      for (std::size_t i = runs.start[static_cast<std::size_t>(row)]; i < runs.start[static_cast<std::size_t>(row) + 1];
           ++i) {
        std::fill(cells.begin() + runs.run[i].first, cells.begin() + runs.run[i].last, label[i]);
      }
    }
  });
  return result;
}

}  // namespace castplan
