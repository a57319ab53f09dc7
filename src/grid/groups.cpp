// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/groups.hpp"

#include <algorithm>
#include <cstring>

#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

/// Forest of runs. The root of a tree is its lowest run, which holds the group's first cell by row and column.
class Forest {
 public:
  explicit Forest(std::size_t size) : parent_(size) {
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

void append_runs(std::span<const std::uint8_t> marks, std::vector<GroupRun>& out) {
  const std::uint8_t* begin = marks.data();
  const std::uint8_t* end = begin + marks.size();
  const auto find = [end](const std::uint8_t* from, int value) {
    const void* found = from == end ? nullptr : std::memchr(from, value, static_cast<std::size_t>(end - from));
    return found == nullptr ? end : static_cast<const std::uint8_t*>(found);
  };
  for (const std::uint8_t* first = find(begin, 1); first != end;) {
    const std::uint8_t* last = find(first, 0);
    out.push_back({static_cast<int>(first - begin), static_cast<int>(last - begin), -1});
    first = find(last, 1);
  }
}

struct Runs {
  std::vector<GroupRun> run;
  std::vector<std::size_t> start;
};

Runs find_runs(const Frame& frame, const RowMarks& marks) {
  std::vector<std::vector<GroupRun>> of_band(static_cast<std::size_t>(band_count(frame.rows)));
  std::vector<std::size_t> count(static_cast<std::size_t>(frame.rows));
  sweep(frame.rows, [&](const Band& band) {
    auto& runs = of_band[static_cast<std::size_t>(band.number)];
    std::vector<std::uint8_t> room(static_cast<std::size_t>(frame.cols));
    for (int row = band.first; row < band.last; ++row) {
      const std::size_t before = runs.size();
      marks(row, 0, room);
      append_runs(room, runs);
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

void join_rows(const Runs& runs, std::size_t row, Forest& forest) {
  std::size_t above = runs.start[row - 1];
  std::size_t here = runs.start[row];
  while (above < runs.start[row] && here < runs.start[row + 1]) {
    const GroupRun& a = runs.run[above];
    const GroupRun& b = runs.run[here];
    // Touching corners join: [first, last) and [first, last) may be a gap of zero apart.
    if (a.first <= b.last && b.first <= a.last) forest.join(above, here);
    if (a.last < b.last) {
      ++above;
    } else {
      ++here;
    }
  }
}

}  // namespace

std::int32_t Groups::operator[](Cell at) const {
  const auto runs = row(at.row);
  const auto after =
      std::upper_bound(runs.begin(), runs.end(), at.col, [](int col, const GroupRun& run) { return col < run.first; });
  return after != runs.begin() && at.col < std::prev(after)->last ? std::prev(after)->group : -1;
}

std::int32_t Groups::operator[](std::size_t index) const {
  const auto cols = static_cast<std::size_t>(frame_.cols);
  return (*this)[Cell{static_cast<int>(index / cols), static_cast<int>(index % cols)}];
}

void Groups::number_anew(std::span<const std::int32_t> number) {
  for (GroupRun& run : runs_) run.group = number[static_cast<std::size_t>(run.group)];
}

Groups groups_of(const Frame& frame, const RowMarks& marks) {
  Runs runs = find_runs(frame, marks);
  Forest forest(runs.run.size());
  for (std::size_t row = 1; row < static_cast<std::size_t>(frame.rows); ++row) join_rows(runs, row, forest);
  int count = 0;
  for (std::size_t i = 0; i < runs.run.size(); ++i) {
    const std::size_t root = forest.root(i);
    runs.run[i].group = root == i ? count++ : runs.run[root].group;
  }
  return {frame, std::move(runs.run), std::move(runs.start), count};
}

}  // namespace castplan
