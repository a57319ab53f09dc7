// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/components.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <vector>

#include "castplan/grid/groups.hpp"
#include "castplan/grid/sweep.hpp"

using namespace castplan;

namespace {

Grid<char> random_marks(unsigned seed, int rows, int cols, double share) {
  std::mt19937 random(seed);
  std::bernoulli_distribution mark(share);
  Grid<char> marks({.corner = {0, 0}, .cell = Metres(1), .rows = rows, .cols = cols});
  for (char& cell : marks.cells()) cell = mark(random) ? 1 : 0;
  return marks;
}

Components of_marks(const Grid<char>& marks) {
  return components(marks.frame(), [&](Cell at) { return marks[at] != 0; });
}

/// The plain way: flood from each cell that has no label yet, in order.
Components flooded(const Grid<char>& marks) {
  Components out{.label = Grid<std::int32_t>(marks.frame(), -1), .count = 0};
  for (std::size_t i = 0; i < marks.size(); ++i) {
    if (marks[i] == 0 || out.label[i] >= 0) continue;
    std::vector<Cell> open{marks.cell_of(i)};
    out.label[i] = out.count;
    while (!open.empty()) {
      const Cell at = open.back();
      open.pop_back();
      for (int row = at.row - 1; row <= at.row + 1; ++row) {
        for (int col = at.col - 1; col <= at.col + 1; ++col) {
          const Cell next{row, col};
          if (!marks.holds(next) || marks[next] == 0 || out.label[next] >= 0) continue;
          out.label[next] = out.count;
          open.push_back(next);
        }
      }
    }
    ++out.count;
  }
  return out;
}

bool same(const Components& a, const Components& b) {
  return a.count == b.count && std::equal(a.label.cells().begin(), a.label.cells().end(), b.label.cells().begin());
}

}  // namespace

TEST_CASE("groups kept as runs tell of each cell what a flood tells") {
  for (unsigned seed = 20; seed < 30; ++seed) {
    const Grid<char> marks = random_marks(seed, 150, 37, 0.4);
    Groups groups = groups_of(marks.frame(), [&](int row, int first, std::span<std::uint8_t> out) {
      for (std::uint8_t& mark : out) mark = marks[Cell{row, first++}] != 0 ? 1 : 0;
    });
    const Components expected = flooded(marks);
    CHECK(groups.count() == expected.count);
    bool equal = true;
    for (std::size_t i = 0; i < marks.size(); ++i) equal = equal && groups[i] == expected.label[i];
    CHECK(equal);
    std::vector<std::int32_t> number;
    for (int i = 0; i < groups.count(); ++i) number.push_back(1000 - i);
    groups.number_anew(number);
    for (std::size_t i = 0; i < marks.size(); ++i) {
      equal = equal && groups[i] == (expected.label[i] < 0 ? -1 : 1000 - expected.label[i]);
    }
    CHECK(equal);
  }
}

TEST_CASE("components equal a flood from each cell") {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    for (const double share : {0.0, 0.1, 0.3, 0.4, 0.6, 1.0}) {
      INFO("seed " << seed << ", share " << share);
      const auto marks = random_marks(seed, 150, 67, share);
      CHECK(same(of_marks(marks), flooded(marks)));
    }
  }
}

TEST_CASE("components join over corners and are the same at 1 and 2 threads") {
  Grid<char> marks({.corner = {0, 0}, .cell = Metres(1), .rows = 3, .cols = 5});
  for (const Cell at : {Cell{0, 4}, Cell{1, 3}, Cell{2, 0}}) marks[at] = 1;
  const auto few = of_marks(marks);
  CHECK(few.count == 2);
  CHECK(few.label[Cell{0, 4}] == 0);
  CHECK(few.label[Cell{1, 3}] == 0);
  CHECK(few.label[Cell{2, 0}] == 1);

  const auto many = random_marks(3, 500, 500, 0.35);
  set_threads(1);
  const auto alone = of_marks(many);
  set_threads(2);
  const auto together = of_marks(many);
  set_threads(0);
  CHECK(same(alone, together));
}
