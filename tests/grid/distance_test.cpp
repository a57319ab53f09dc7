// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/distance.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "castplan/grid/sweep.hpp"

using namespace castplan;

namespace {

Grid<char> random_marks(unsigned seed, int rows, int cols, double share) {
  std::mt19937 random(seed);
  std::bernoulli_distribution mark(share);
  Grid<char> marks({.corner = {0, 0}, .cell = Metres(2.5), .rows = rows, .cols = cols});
  for (char& cell : marks.cells()) cell = mark(random) ? 1 : 0;
  return marks;
}

Grid<Metres32> distance_to_marks(const Grid<char>& marks) {
  return distance_to(marks.frame(), [&](Cell at) { return marks[at] != 0; });
}

double nearest_mark(const Grid<char>& marks, Cell from) {
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const Cell at = marks.cell_of(i);
    if (marks[i] != 0) nearest = std::min(nearest, 2.5 * std::hypot(at.row - from.row, at.col - from.col));
  }
  return nearest;
}

}  // namespace

TEST_CASE("distance equals the smallest over all marked cells") {
  for (const unsigned seed : {1U, 2U, 3U}) {
    for (const double share : {0.3, 0.01, 0.001}) {
      const auto marks = random_marks(seed, 70, 90, share);
      const auto distance = distance_to_marks(marks);
      INFO("seed " << seed << ", share " << share);
      double worst = 0;
      for (std::size_t i = 0; i < marks.size(); ++i) {
        const double truth = nearest_mark(marks, marks.cell_of(i));
        if (std::isinf(truth)) {
          CHECK(std::isinf(distance[i].value()));
        } else {
          worst = std::max(worst, std::abs(static_cast<double>(distance[i].value()) - truth));
        }
      }
      CHECK(worst < 2e-5);  // float rounding at 200 m
    }
  }
}

TEST_CASE("distance is right round islands, in ponds and with marks in a few columns only") {
  for (unsigned seed = 0; seed < 24; ++seed) {
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const auto below = [&](int end) { return std::uniform_int_distribution<int>(0, end - 1)(random); };
    Grid<char> marks({.corner = {0, 0}, .cell = Metres(2.5), .rows = 1 + below(100), .cols = 1 + below(150)});
    const Cell middle{below(marks.rows()), below(marks.cols())};
    const double radius = 3 + below(60);
    for (std::size_t i = 0; i < marks.size(); ++i) {
      const Cell at = marks.cell_of(i);
      const bool inside = std::hypot(at.row - middle.row, at.col - middle.col) < radius;
      const bool columns = at.col % 37 == 5 && at.row % 11 == 3;
      marks[i] = (seed % 3 == 0 ? inside : seed % 3 == 1 ? !inside : columns) ? 1 : 0;
    }
    const auto distance = distance_to_marks(marks);
    double worst = 0;
    for (std::size_t i = 0; i < marks.size(); ++i) {
      const double truth = nearest_mark(marks, marks.cell_of(i));
      const double found = static_cast<double>(distance[i].value());
      if (!(std::isinf(truth) && std::isinf(found))) worst = std::max(worst, std::abs(found - truth));
    }
    CHECK(worst < 5e-5);  // float rounding at 450 m
  }
}

TEST_CASE("distance is infinite where nothing is marked") {
  const auto distance = distance_to_marks(random_marks(1, 5, 130, 0.0));
  for (const Metres32 cell : distance.cells()) CHECK(std::isinf(cell.value()));
}

TEST_CASE("distance is the same at 1 and 2 threads") {
  const auto marks = random_marks(4, 300, 300, 0.002);
  set_threads(1);
  const auto alone = distance_to_marks(marks);
  set_threads(2);
  const auto together = distance_to_marks(marks);
  set_threads(0);
  CHECK(std::equal(alone.cells().begin(), alone.cells().end(), together.cells().begin()));
}
