// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "../src/write/sheet_ways.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>
#include <random>

#include "support/plans.hpp"

using namespace castplan;
using namespace castplan::sheet;

namespace {

struct Task {
  std::vector<int> parts;
  std::vector<double> start;
  std::vector<std::vector<double>> between;
};

// Places in a square of 1 km, the start in its corner, straight lines between them.
Task random_task(unsigned seed, std::size_t count) {
  std::mt19937 random(seed);
  std::vector<XY> places;
  Task task;
  for (std::size_t i = 0; i < count; ++i) {
    places.push_back({static_cast<double>(random() % 1000), static_cast<double>(random() % 1000)});
    task.parts.push_back(static_cast<int>(random() % 3));
  }
  for (const XY a : places) {
    task.start.push_back(std::hypot(a.x, a.y));
    task.between.emplace_back();
    for (const XY b : places) task.between.back().push_back(distance(a, b).value());
  }
  return task;
}

int changes(const Task& task, const std::vector<std::size_t>& order) {
  int count = 0;
  for (std::size_t i = 1; i < order.size(); ++i) count += task.parts[order[i]] != task.parts[order[i - 1]] ? 1 : 0;
  return count;
}

double tour(const Task& task, const std::vector<std::size_t>& order) {
  double length = task.start[order.front()] + task.start[order.back()];
  for (std::size_t i = 1; i < order.size(); ++i) length += task.between[order[i - 1]][order[i]];
  return length;
}

}  // namespace

// Against every order there is: of 6 places there are 720.
TEST_CASE("the running order keeps parts together and is the shortest of those that do") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    CAPTURE(seed);
    const Task task = random_task(seed, 6);
    const std::vector<std::size_t> order = running_order(task.parts, task.start, task.between);
    std::vector<std::size_t> any(6);
    std::iota(any.begin(), any.end(), std::size_t{0});
    CHECK(std::is_permutation(order.begin(), order.end(), any.begin(), any.end()));
    int fewest = 100;
    double shortest = 1e30;
    do {
      const int changed = changes(task, any);
      if (changed < fewest || (changed == fewest && tour(task, any) < shortest)) {
        fewest = changed;
        shortest = tour(task, any);
      }
    } while (std::next_permutation(any.begin(), any.end()));
    CHECK(changes(task, order) == fewest);
    CHECK(tour(task, order) == Approx(shortest));
    CHECK(task.start[order.front()] <= task.start[order.back()]);
  }
}

TEST_CASE("with no start the order begins at the first place") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const Task task = random_task(seed, 5);
    CHECK(running_order(task.parts, std::nullopt, task.between).front() == 0);
  }
  CHECK(running_order({}, std::nullopt, {}).empty());
  CHECK(running_order({4}, std::vector<double>{10.0}, {{0.0}}) == std::vector<std::size_t>{0});
}

// A round bowl of radius 300 m: a diameter between places 280 m out is 560 m, of which 400 m lie over 100 m from the
// shore. Steps to the eight neighbours are at most 8.24 % longer than the straight line (1 / cos 22.5 degrees) and
// along the axes exact, up to a cell at each end.
TEST_CASE("ways over a round lake: length, and the stretch far from land") {
  const Lake lake = sample::bowl({Longitude{-40.0}, Latitude{45.5}});
  const WaterWays ways(lake);
  const auto across = ways.from({-280, 0}, {{280, 0}, {0, 280}, {-280, 0}});
  CHECK(across[0].length == Approx(560).margin(20));
  CHECK(across[0].open == Approx(400).margin(30));
  const double chord = std::hypot(280, 280);
  CHECK(across[1].length >= chord - 1);
  CHECK(across[1].length <= chord * 1.0824 + 20);
  CHECK(across[2].length == 0);
  CHECK(across[2].open == 0);
}

TEST_CASE("a way goes round what lies between, and is long where no water joins two places") {
  Lake lake = sample::bowl({Longitude{-40.0}, Latitude{45.5}});
  // a wall from the northern shore down to 100 m south of the middle
  for (int row = 0; row < 43; ++row) {
    for (int col = 32; col < 34; ++col) lake.cover[Cell{row, col}] = Cover::land;
  }
  const double round = WaterWays(lake).from({-200, 0}, {{200, 0}})[0].length;
  CHECK(round >= 2 * std::hypot(200 - 10, 100) - 1);  // by the end of the wall, 10 m to each side of the middle
  CHECK(round <= 2 * std::hypot(200, 100) * 1.0824 + 40);
  for (int row = 0; row < 66; ++row) lake.cover[Cell{row, 32}] = Cover::land;
  CHECK(WaterWays(lake).from({-200, 0}, {{200, 0}})[0].length > 1e5);
}
