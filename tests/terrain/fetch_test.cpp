// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/fetch.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "support/lakes.hpp"

using namespace castplan;
using namespace castplan::lakes;

// The formula itself is held against published rows in tests/season/waves_test.cpp.
TEST_CASE("in the middle of a round lake the fetch is its radius, whatever the wind") {
  const Lake lake = lake_of(disc(Metres(800), Metres(5), Metres(5), Metres(40)));
  for (const XY upwind : {XY{1, 0}, XY{0, -1}, unit({3, 4})}) {
    CHECK(effective_fetch(lake, {0, 0}, upwind)->value() == Approx(800).margin(5));
  }
  CHECK(WindFetch(lake).greatest({0, 0})->value() == Approx(800).margin(5));
}

TEST_CASE("from the shore of a round lake radials are chords, and the greatest fetch looks across") {
  const Lake lake = lake_of(disc(Metres(800), Metres(5), Metres(5), Metres(40)));
  // chord at angle a to the diameter from a place at distance p from the middle: p cos a + sqrt(R^2 - p^2 sin^2 a)
  const double p = 780;
  std::vector<Metres> chords;
  for (int i = -7; i <= 7; ++i) {
    const double a = i * 6 * M_PI / 180;
    chords.emplace_back(p * std::cos(a) + std::sqrt(800.0 * 800.0 - p * p * std::sin(a) * std::sin(a)));
  }
  const WindFetch fetch(lake);
  CHECK(fetch.greatest({p, 0})->value() == Approx(effective_fetch(chords).value()).margin(5));
  CHECK(fetch.greatest({0, -p})->value() == Approx(effective_fetch(chords).value()).margin(5));
}

TEST_CASE("strides over open water change nothing, islands stop the wind, the unknown leaves no answer") {
  Grid<Metres32> values = disc(Metres(600), Metres(5), Metres(5), Metres(40));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY at = values.frame().centre(values.cell_of(i));
    if (std::hypot(at.x - 200, at.y - 100) < 8) values[i] = kLand;  // a rock of a few cells
    if (std::hypot(at.x + 250, at.y) < 120) values[i] = kUnknown;
  }
  const Lake lake = lake_of(values);
  const WindFetch fetch(lake);
  int stopped = 0;
  for (int i = 0; i < 720; ++i) {
    const XY way{std::cos(i * M_PI / 360), std::sin(i * M_PI / 360)};
    // the same way looked at cell by cell
    std::optional<double> slow;
    for (double out = 0;; out += 2.5) {
      const Cover cover = cover_at(lake, way * out);
      if (cover == Cover::water) continue;
      if (cover == Cover::land) slow = out;
      break;
    }
    CHECK(fetch.radial({0, 0}, way) == slow);
    stopped += slow && *slow < 250 ? 1 : 0;
  }
  CHECK(stopped > 3);  // by the rock, 224 m away
  CHECK_FALSE(effective_fetch(lake, {0, 0}, {-1, 0}));
  CHECK(effective_fetch(lake, {0, 0}, {1, 0}));
  CHECK_FALSE(fetch.greatest({0, 0}));  // the unknown takes 57 of 360 degrees
}

TEST_CASE("a few places that the survey left out do not hide what the wind does") {
  Grid<Metres32> values = disc(Metres(600), Metres(5), Metres(5), Metres(40));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY at = values.frame().centre(values.cell_of(i));
    if (std::hypot(at.x + 590, at.y) < 50) values[i] = kUnknown;  // 10 of 360 degrees
  }
  CHECK(WindFetch(lake_of(values)).greatest({0, 0})->value() == Approx(600).margin(5));
}
