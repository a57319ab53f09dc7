// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/planar.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include "castplan/geo/error.hpp"

using namespace castplan;

namespace {

Ring square(double side, XY low = {0.0, 0.0}) {
  return {low, low + XY{side, 0.0}, low + XY{side, side}, low + XY{0.0, side}, low};
}

Ring reversed(Ring ring) {
  std::reverse(ring.begin(), ring.end());
  return ring;
}

/// A shore with bays: a circle whose radius wobbles.
Ring shore(std::uint32_t seed, double radius) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> wobble(0.9, 1.1);
  Ring ring;
  for (int i = 0; i < 400; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / 400;
    const double r = radius * wobble(random) * (1.0 + 0.3 * std::sin(5.0 * angle));
    ring.push_back({500000.0 + r * std::cos(angle), 5000000.0 + r * std::sin(angle)});
  }
  ring.push_back(ring.front());
  return ring;
}

double furthest(const Line& from, const Line& to) {
  double most = 0.0;
  for (const XY place : from) most = std::max(most, distance(place, to).value());
  return most;
}

}  // namespace

TEST_CASE("a buffered point is a disc", "[planar]") {
  const Polygons disc = buffered(Points{{10.0, 20.0}}, Metres(100.0));
  REQUIRE(disc.size() == 1);
  // Closed form: a regular polygon of 64 corners, and by that pi r^2 less 0.16 %.
  const double exact = 32.0 * 1e4 * std::sin(2.0 * std::numbers::pi / 64.0);
  CHECK(area(disc).value() == Approx(exact).epsilon(1e-9));
  CHECK(area(disc).value() == Approx(std::numbers::pi * 1e4).epsilon(0.002));
  CHECK(signed_area(disc[0].outer).value() > 0.0);
  // The promise of the header: at most 0.13 % of the distance too narrow.
  CHECK(distance(XY{10.0, 20.0}, disc[0].outer).value() >= 100.0 * (1.0 - 0.0013));
}

TEST_CASE("a buffered line and a buffered polygon", "[planar]") {
  // Closed form: 2 r l + pi r^2 for a line, and area + perimeter r + pi r^2 for a convex polygon.
  const double r = 5.0;
  CHECK(area(buffered(Lines{{{0, 0}, {300, 400}}}, Metres(r))).value() ==
        Approx(2 * r * 500 + std::numbers::pi * r * r).epsilon(1e-3));
  const Polygons pond{Polygon{.outer = square(100.0), .holes = {}}};
  CHECK(area(buffered(pond, Metres(r))).value() == Approx(1e4 + 400 * r + std::numbers::pi * r * r).epsilon(1e-3));
  CHECK(area(buffered(pond, Metres(-r))).value() == Approx(90.0 * 90.0));
  CHECK(area(buffered(Lines{{{3, 4}}}, Metres(r))).value() == Approx(std::numbers::pi * r * r).epsilon(2e-3));
  CHECK(buffered(Points{}, Metres(r)).empty());
  // a ring's hole stays a clockwise hole
  const Polygons ring = buffered(Lines{square(100.0)}, Metres(r));
  REQUIRE(ring.size() == 1);
  REQUIRE(ring[0].holes.size() == 1);
  CHECK(signed_area(ring[0].holes[0]).value() == Approx(-90.0 * 90.0));
}

TEST_CASE("a simplified line stays within the tolerance", "[planar]") {
  for (std::uint32_t seed = 1; seed <= 20; ++seed) {
    INFO("seed " << seed);
    const Line line = shore(seed, 300.0);
    const Line fewer = simplified(line, Metres(10.0));
    CHECK(fewer.size() < line.size());
    CHECK(fewer.front() == fewer.back());
    CHECK(furthest(line, fewer) <= 10.0 + 1e-9);
    CHECK(furthest(fewer, line) <= 1e-9);  // its vertices are the line's own
  }
  CHECK(simplified({{0, 0}, {5, 0.5}, {10, 0}}, Metres(1.0)) == Line{{0, 0}, {10, 0}});
  CHECK(simplified({{0, 0}, {5, 1.5}, {10, 0}}, Metres(1.0)).size() == 3);
  CHECK(simplified(square(1.0), Metres(50.0)) == square(1.0));
  CHECK(simplified({{1, 1}}, Metres(1.0)) == Line{{1, 1}});
}

TEST_CASE("simplified polygons stay valid, whole and within the tolerance", "[planar]") {
  for (std::uint32_t seed = 1; seed <= 20; ++seed) {
    INFO("seed " << seed);
    const Polygons lake{Polygon{.outer = shore(seed, 300.0), .holes = {reversed(shore(seed + 100, 60.0))}}};
    REQUIRE(invalidity(lake).empty());
    const Polygons fewer = simplified(lake, Metres(8.0));
    REQUIRE(fewer.size() == 1);
    REQUIRE(fewer[0].holes.size() == 1);
    CHECK(invalidity(fewer).empty());
    CHECK(fewer[0].outer.size() < lake[0].outer.size());
    CHECK(furthest(lake[0].outer, fewer[0].outer) <= 8.0 + 1e-9);
    CHECK(signed_area(fewer[0].outer).value() > 0.0);
    CHECK(signed_area(fewer[0].holes[0]).value() < 0.0);
  }
  // a spit thinner than the tolerance beside a hole: thinning each ring for itself would let them cross
  const Ring outer{{0, 0}, {100, 0}, {100, 100}, {60, 100}, {50, 93}, {40, 100}, {0, 100}, {0, 0}};
  const Ring hole{{30, 60}, {50, 92}, {70, 60}, {30, 60}};
  for (const double tolerance : {1.0, 6.0, 8.0, 20.0}) {
    const Polygons close = simplified(Polygons{Polygon{.outer = outer, .holes = {hole}}}, Metres(tolerance));
    CHECK(invalidity(close).empty());
    REQUIRE(close.size() == 1);
    CHECK(furthest(outer, close[0].outer) <= tolerance + 1e-9);
  }
  // smaller than the tolerance: still a polygon
  const Polygons tiny{Polygon{.outer = square(1.0), .holes = {}}};
  const Polygons kept = simplified(tiny, Metres(50.0));
  REQUIRE(kept.size() == 1);
  CHECK(area(kept).value() > 0.0);
  CHECK(simplified(Polygons{}, Metres(1.0)).empty());
}

TEST_CASE("what is wrong with a polygon is said, and can be mended", "[planar]") {
  const Polygons bow{Polygon{.outer = {{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}}, .holes = {}}};
  CHECK_THAT(invalidity(bow), Catch::Matchers::Contains("Self-intersection"));
  const Polygons mended = made_valid(bow);
  CHECK(invalidity(mended).empty());
  CHECK(area(mended).value() == Approx(50.0));  // two triangles of base 10 and height 5
  const Polygons open{Polygon{.outer = {{0, 0}, {10, 0}, {10, 10}, {0, 10}}, .holes = {}}};
  CHECK_FALSE(invalidity(open).empty());
  CHECK(area(made_valid(open)).value() == Approx(100.0));
  const Polygons overlapping{Polygon{.outer = square(10.0), .holes = {}},
                             Polygon{.outer = square(10.0, {5.0, 0.0}), .holes = {}}};
  CHECK(area(made_valid(overlapping)).value() == Approx(150.0));
  CHECK(made_valid(Polygons{Polygon{.outer = {{0, 0}, {1, 1}, {0, 0}}, .holes = {}}}).empty());
}

TEST_CASE("shapes that cannot be built are refused in words", "[planar]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(buffered(Polygons{Polygon{.outer = {{0, 0}, {1, 0}, {1, 1}}, .holes = {}}}, Metres(1.0)), InputError);
  CHECK_FALSE(invalidity(Polygons{Polygon{.outer = {{0, 0}, {nan, 0}, {1, 1}, {0, 0}}, .holes = {}}}).empty());
}

TEST_CASE("a prepared shape answers as the closed forms do", "[planar]") {
  const PreparedShape lake(Polygons{Polygon{.outer = square(100.0), .holes = {reversed(square(20.0, {40.0, 40.0}))}}});
  CHECK(lake.covers({10.0, 10.0}));
  CHECK(lake.covers({0.0, 50.0}));  // the boundary belongs to it
  CHECK_FALSE(lake.covers({50.0, 50.0}));
  CHECK_FALSE(lake.covers({101.0, 50.0}));
  CHECK(lake.distance_to({10.0, 10.0}).value() == 0.0);
  CHECK(lake.distance_to({50.0, 55.0}).value() == Approx(5.0));
  CHECK(lake.distance_to({103.0, 104.0}).value() == Approx(5.0));
  CHECK(lake.touches({{-10.0, 50.0}, {-1.0, 50.0}, {1.0, 50.0}}));
  CHECK(lake.touches({{10.0, 10.0}, {11.0, 10.0}}));
  CHECK_FALSE(lake.touches({{45.0, 45.0}, {55.0, 55.0}}));
  CHECK(lake.touches({{10.0, 10.0}}));
  CHECK_FALSE(lake.touches({}));
  const PreparedShape copy = lake;  // shares the prepared geometry
  CHECK(copy.covers({10.0, 10.0}));
}

TEST_CASE("overlapping closures cover their overlap", "[planar]") {
  const PreparedShape both(
      Polygons{Polygon{.outer = square(10.0), .holes = {}}, Polygon{.outer = square(10.0, {5.0, 0.0}), .holes = {}}});
  CHECK(both.covers({7.0, 5.0}));
  CHECK(both.covers({2.0, 5.0}));
  CHECK(both.covers({13.0, 5.0}));
  CHECK_FALSE(both.covers({16.0, 5.0}));
}

TEST_CASE("an empty prepared shape covers nothing and is nowhere near", "[planar]") {
  const PreparedShape nothing{Geometry{Lines{}}};
  CHECK_FALSE(nothing.covers({0.0, 0.0}));
  CHECK_FALSE(nothing.touches({{0, 0}, {1, 1}}));
  CHECK(std::isinf(nothing.distance_to({0.0, 0.0}).value()));
}

TEST_CASE("distances to points and lines", "[planar]") {
  const PreparedShape logs(Lines{{{0, 0}, {10, 0}}, {{100, 0}, {110, 0}}});
  CHECK(logs.distance_to({5.0, 3.0}).value() == Approx(3.0));
  CHECK(logs.distance_to({97.0, 4.0}).value() == Approx(5.0));
  const PreparedShape rocks(Points{{0, 0}, {30, 40}});
  CHECK(rocks.distance_to({30.0, 37.0}).value() == Approx(3.0));
  CHECK(rocks.covers({30.0, 40.0}));
}
