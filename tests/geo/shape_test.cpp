// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/shape.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

using namespace castplan;

namespace {

Ring circle(XY centre, double radius, int corners) {
  Ring ring;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / corners;
    ring.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  ring.push_back(ring.front());
  return ring;
}

Ring square(double side, XY low = {0.0, 0.0}) {
  return {low, low + XY{side, 0.0}, low + XY{side, side}, low + XY{0.0, side}, low};
}

Ring reversed(Ring ring) {
  std::reverse(ring.begin(), ring.end());
  return ring;
}

}  // namespace

TEST_CASE("bearings on the plane run clockwise from grid north", "[coordinate]") {
  CHECK(grid_bearing({0, 0}, {0, 1}).value() == Approx(0.0));
  CHECK(grid_bearing({0, 0}, {1, 1}).value() == Approx(45.0));
  CHECK(grid_bearing({0, 0}, {1, 0}).value() == Approx(90.0));
  CHECK(grid_bearing({0, 0}, {0, -1}).value() == Approx(180.0));
  CHECK(grid_bearing({0, 0}, {-1, 0}).value() == Approx(270.0));
  CHECK(distance(XY{1, 2}, XY{4, 6}).value() == Approx(5.0));  // the 3-4-5 triangle
}

TEST_CASE("a wrapped bearing lies in [0, 360)", "[coordinate]") {
  CHECK(wrap_bearing(Degrees(360.0)).value() == 0.0);
  CHECK(wrap_bearing(Degrees(-90.0)).value() == 270.0);
  CHECK(wrap_bearing(Degrees(725.0)).value() == 5.0);
  CHECK(wrap_bearing(Degrees(-1e-18)).value() == 0.0);
  CHECK_FALSE(std::signbit(wrap_bearing(Degrees(-720.0)).value()));
  for (double angle = -2000.0; angle < 2000.0; angle += 13.7) {
    const double wrapped = wrap_bearing(Degrees(angle)).value();
    CHECK((wrapped >= 0.0 && wrapped < 360.0));
    CHECK(std::abs(std::remainder(wrapped - angle, 360.0)) < 1e-9);
  }
}

TEST_CASE("areas of a square and of a regular polygon", "[shape]") {
  CHECK(signed_area(square(10.0)).value() == Approx(100.0));
  CHECK(signed_area(reversed(square(10.0))).value() == Approx(-100.0));
  // Closed form: n/2 r^2 sin(2 pi / n), far from the origin as map coordinates are.
  for (const int corners : {3, 6, 720}) {
    const double exact = corners / 2.0 * 2500.0 * std::sin(2.0 * std::numbers::pi / corners);
    CHECK(signed_area(circle({577432.18, 5094533.59}, 50.0, corners)).value() == Approx(exact).epsilon(1e-9));
  }
  const Polygon holed{.outer = square(10.0), .holes = {reversed(square(2.0, {4.0, 4.0}))}};
  CHECK(area(holed).value() == Approx(96.0));
  CHECK(area(Polygons{holed, Polygon{.outer = square(3.0, {20.0, 0.0}), .holes = {}}}).value() == Approx(105.0));
  CHECK(area(Polygon{.outer = square(1.0), .holes = {square(2.0)}}).value() == 0.0);
  CHECK(signed_area({{0, 0}, {1, 1}, {0, 0}}).value() == 0.0);
}

TEST_CASE("length and places along a line", "[shape]") {
  const Line line{{0, 0}, {30, 40}, {30, 100}};  // 50 + 60
  CHECK(length(line).value() == Approx(110.0));
  CHECK(length(Line{}).value() == 0.0);
  CHECK(length({{1, 1}}).value() == 0.0);
  // Closed form: 2 n r sin(pi / n)
  CHECK(length(circle({0, 0}, 50.0, 90)).value() == Approx(2.0 * 90 * 50.0 * std::sin(std::numbers::pi / 90)));
  CHECK(point_along(line, 0.0) == XY{0, 0});
  CHECK(point_along(line, 1.0) == XY{30, 100});
  const XY half = point_along(line, 0.5);  // 55 m: 5 m up the second leg
  CHECK(half.x == Approx(30.0));
  CHECK(half.y == Approx(45.0));
  CHECK(point_along({{7, 8}}, 0.3) == XY{7, 8});
  CHECK(point_along({{7, 8}, {7, 8}}, 0.3) == XY{7, 8});
  CHECK(point_along({{0, 0}, {0, 0}, {10, 0}}, 0.5).x == Approx(5.0));
}

TEST_CASE("a line begins at its north, however it was written", "[shape]") {
  const Line open{{0, 0}, {5, 5}, {10, 1}};
  CHECK(begun_at_north(open).front() == XY{10, 1});
  CHECK(begun_at_north(reversed(open)) == begun_at_north(open));
  CHECK(begun_at_north({{3, 2}, {1, 2}}).front() == XY{1, 2});  // the western of equals
  const Line loop{{0, 0}, {4, 1}, {5, 6}, {2, 6}, {0, 0}};
  const Line begun = begun_at_north(loop);
  CHECK(begun == Line{{2, 6}, {0, 0}, {4, 1}, {5, 6}, {2, 6}});
  for (std::size_t turn = 0; turn < 4; ++turn) {
    Line other(loop.begin(), loop.end() - 1);
    std::rotate(other.begin(), other.begin() + static_cast<std::ptrdiff_t>(turn), other.end());
    other.push_back(other.front());
    CHECK(begun_at_north(other) == begun);
    const XY middle = point_along(begun, 0.5);
    CHECK(distance(point_along(begun_at_north(reversed(other)), 0.5), middle).value() < 1e-12);
  }
  CHECK(begun_at_north({{1, 1}}) == Line{{1, 1}});
  CHECK(begun_at_north({}).empty());
}

TEST_CASE("resampling keeps both ends and never exceeds the step", "[shape]") {
  const Line line{{0, 0}, {30, 40}, {30, 100}};
  const Line points = resampled(line, Metres(25.0));  // 110 m in 5 steps of 22
  REQUIRE(points.size() == 6);
  CHECK(points.front() == line.front());
  CHECK(points.back() == line.back());
  CHECK(points[1].x == Approx(22.0 * 0.6));
  CHECK(points[1].y == Approx(22.0 * 0.8));
  CHECK(points[3].y == Approx(40.0 + 16.0));
  CHECK(resampled({{0, 0}, {0.3, 0}}, Metres(0.1)).size() == 4);  // 0.3 / 0.1 rounds to a little over 3
  CHECK(resampled({{0, 0}, {1, 0}}, Metres(50.0)) == Line{{0, 0}, {1, 0}});
  CHECK(resampled({{2, 2}, {2, 2}}, Metres(1.0)).size() == 2);
}

TEST_CASE("pieces of a cut line have equal length and add up to the line", "[shape]") {
  std::mt19937 random(20);
  std::uniform_real_distribution<double> step(-40.0, 60.0);
  for (int trial = 0; trial < 200; ++trial) {
    Line line{{500000.0, 5000000.0}};
    for (int i = 0; i < 12; ++i) line.push_back(line.back() + XY{step(random), step(random)});
    if (trial % 2 == 0) line.push_back(line.front());
    INFO("seed 20, trial " << trial);
    const Lines pieces = cut(line, Metres(70.0));
    const double whole = length(line).value();
    CHECK(static_cast<double>(pieces.size()) == std::ceil(whole / 70.0));
    CHECK(pieces.front().front() == line.front());
    CHECK(pieces.back().back() == line.back());
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      CHECK(length(pieces[i]).value() == Approx(whole / static_cast<double>(pieces.size())).epsilon(1e-9));
      if (i > 0) CHECK(pieces[i].front() == pieces[i - 1].back());
    }
  }
}

TEST_CASE("a short line is one piece, and corners on a cut are not doubled", "[shape]") {
  const Line line{{0, 0}, {50, 0}, {100, 0}};
  CHECK(cut(line, Metres(100.0)) == Lines{line});
  CHECK(cut(line, Metres(50.0)) == Lines{{{0, 0}, {50, 0}}, {{50, 0}, {100, 0}}});
  CHECK(cut({{1, 1}}, Metres(5.0)) == Lines{{{1, 1}}});
}

TEST_CASE("vertices and bounds of a shape", "[shape]") {
  const Polygon holed{.outer = square(10.0, {-2.0, 3.0}), .holes = {reversed(square(2.0, {4.0, 4.0}))}};
  const Geometry shape = Polygons{holed};
  CHECK(vertices(shape).size() == 10);
  REQUIRE(bounds(shape).has_value());
  CHECK(bounds(shape)->low == XY{-2.0, 3.0});
  CHECK(bounds(shape)->high == XY{8.0, 13.0});
  CHECK_FALSE(bounds(Geometry{Lines{}}).has_value());
  CHECK(vertices(Geometry{Points{{1, 2}, {3, 4}}}) == Points{{1, 2}, {3, 4}});
}

TEST_CASE("distance to a line", "[shape]") {
  const Line line{{0, 0}, {10, 0}};
  CHECK(distance(XY{5, 3}, line).value() == Approx(3.0));
  CHECK(distance(XY{13, 4}, line).value() == Approx(5.0));  // past the end
  CHECK(distance(XY{3, 4}, Line{{0, 0}}).value() == Approx(5.0));
  CHECK(distance(XY{3, 4}, Line{{0, 0}, {0, 0}}).value() == Approx(5.0));
  CHECK(std::isinf(distance(XY{3, 4}, Line{}).value()));
}

TEST_CASE("inside and outside agree with the circle", "[shape]") {
  const Ring ring = circle({100.0, 200.0}, 50.0, 3600);
  const Polygons lake{Polygon{.outer = ring, .holes = {reversed(circle({100.0, 200.0}, 20.0, 3600))}}};
  std::mt19937 random(7);
  std::uniform_real_distribution<double> off(-60.0, 60.0);
  for (int i = 0; i < 5000; ++i) {
    const XY place{100.0 + off(random), 200.0 + off(random)};
    const double from_centre = distance(place, XY{100.0, 200.0}).value();
    if (std::abs(from_centre - 50.0) < 0.01 || std::abs(from_centre - 20.0) < 0.01) continue;
    INFO("seed 7, place " << place.x << " " << place.y);
    REQUIRE(contains(ring, place) == (from_centre < 50.0));
    REQUIRE(contains(lake, place) == (from_centre < 50.0 && from_centre > 20.0));
  }
  CHECK(contains(square(2.0), XY{1.0, 1.0}));
  const Ring diamond{{0, -1}, {1, 0}, {0, 1}, {-1, 0}, {0, -1}};
  CHECK(contains(diamond, XY{0.0, 0.0}));  // level with two vertices
  CHECK_FALSE(contains(diamond, XY{-2.0, 0.0}));
}
