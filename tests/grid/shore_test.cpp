// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cstdio>
#include <numbers>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/lake.hpp"
#include "support/lakes.hpp"

// The shoreline of round lakes against 2 pi r, and the shore development against 1 (Hutchinson 1957, A Treatise on
// Limnology 1: shore length over the circumference of a circle of equal area).

using namespace castplan;
using lakes::lake_of;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kRadius = 400;

/// Largest distance between the outline's vertices and the circle, metres.
double worst_stray(const Lake& lake) {
  double worst = 0;
  for (const XY at : vertices({Lines{lake.outline.at(0).outer}})) {
    worst = std::max(worst, std::abs(std::hypot(at.x, at.y) - kRadius));
  }
  return worst;
}

void report(const char* name, const Lake& lake) {
  std::printf("%s: shoreline %.3f of 2 pi r, development %.4f, area %.4f of pi r^2, outline strays %.2f m\n", name,
              lake.shoreline.value() / (2 * kPi * kRadius), lake.shoreline_development,
              area(lake.outline).value() / (kPi * kRadius * kRadius), worst_stray(lake));
}

}  // namespace

TEST_CASE("shore of a bowl in land of unknown height") {
  const Lake lake = lake_of(lakes::bowl(Metres(kRadius), Metres(20), Metres(5), Metres(30)));
  report("bowl, land unknown", lake);
  REQUIRE(lake.outline.size() == 1);
  CHECK(lake.shoreline.value() == Approx(2 * kPi * kRadius).epsilon(0.01));
  CHECK(lake.shoreline_development == Approx(1).margin(0.01));
  CHECK(area(lake.outline).value() == Approx(kPi * kRadius * kRadius).epsilon(2e-3));
  CHECK(worst_stray(lake) < 0.5);
}

TEST_CASE("shore of a bowl in land of known height") {
  const Lake lake = lake_of(lakes::bowl_with_heights(Metres(kRadius), Metres(20), Metres(5), Metres(30)));
  report("bowl, land known", lake);
  REQUIRE(lake.outline.size() == 1);
  CHECK(lake.shoreline.value() == Approx(2 * kPi * kRadius).epsilon(0.01));
  CHECK(lake.shoreline_development == Approx(1).margin(0.01));
  CHECK(area(lake.outline).value() == Approx(kPi * kRadius * kRadius).epsilon(1e-3));
  CHECK(worst_stray(lake) < 0.26);  // 0.05 cell kept from water centres
}

TEST_CASE("shore of a disc with vertical walls") {
  const Lake lake = lake_of(lakes::disc(Metres(kRadius), Metres(6), Metres(5), Metres(30)));
  report("disc", lake);
  REQUIRE(lake.outline.size() == 1);
  CHECK(lake.shoreline.value() == Approx(2 * kPi * kRadius).epsilon(0.03));
  CHECK(lake.shoreline_development == Approx(1).margin(0.03));
  CHECK(area(lake.outline).value() == Approx(kPi * kRadius * kRadius).epsilon(2e-3));
}

TEST_CASE("islands count in the shoreline, not in the development, and are holes") {
  const double inner = 100;
  auto values = lakes::bowl(Metres(kRadius), Metres(20), Metres(5), Metres(30));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY at = values.frame().centre(values.cell_of(i));
    const double r = std::hypot(at.x, at.y);
    if (r < inner) values[i] = lakes::kLand;
  }
  const Lake lake = lake_of(values);
  REQUIRE(lake.outline.size() == 1);
  REQUIRE(lake.outline[0].holes.size() == 1);
  CHECK(signed_area(lake.outline[0].outer).value() > 0);
  CHECK(signed_area(lake.outline[0].holes[0]).value() < 0);
  CHECK(lake.shoreline.value() == Approx(2 * kPi * (kRadius + inner)).epsilon(0.02));
  CHECK(lake.shoreline_development == Approx(1).margin(0.01));
}

TEST_CASE("the zero line lies where the values cross zero") {
  // Along a row: water 3 m and 1 m, land at -1 m: half-way between the last two. Land at 0 m has no height of its own:
  // the floor, carried on, surfaces half a cell from the last water (1 m deep, falling 2 m a cell).
  for (const float land : {-1.0F, 0.0F}) {
    Grid<Metres32> values({.corner = {0, 50}, .cell = Metres(10), .rows = 5, .cols = 9}, Metres32(land));
    for (int row = 0; row < 5; ++row) {
      values[Cell{row, 3}] = values[Cell{row, 5}] = Metres32(1);
      values[Cell{row, 4}] = Metres32(3);
    }
    const Lake lake = lake_of(values);
    CHECK(lake.shoreline == Metres(80));  // two lines over five rows, centre to centre
    REQUIRE(lake.outline.size() == 1);
    CHECK(area(lake.outline).value() == Approx(30.0 * 50 - 4 * 12.5));  // its corners are cut at the frame
    for (const XY at : lake.outline[0].outer) {
      if (at.y > 5.0 && at.y < 45.0) CHECK(std::abs(at.x - 45) == Approx(15));
    }
  }
}

TEST_CASE("outlines are valid and a diagonal join makes no knot") {
  Grid<Metres32> values({.corner = {0, 0}, .cell = Metres(10), .rows = 6, .cols = 6}, lakes::kLand);
  for (const Cell at : {Cell{1, 1}, Cell{2, 2}, Cell{3, 1}, Cell{4, 4}, Cell{3, 3}}) values[at] = Metres32(2);
  const Lake lake = lake_of(values);
  CHECK(lake.bodies.size() == 1);
  CHECK(invalidity(lake.outline).empty());
}
