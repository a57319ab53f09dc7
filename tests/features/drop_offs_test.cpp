// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

// Angle between two bearings, degrees.
double apart(double a, double b) { return std::abs(std::remainder(a - b, 360.0)); }

std::vector<Feature> breaks_of(double shelf, double basin, double width, double cell) {
  // the shelf runs out to a shore of 2 m or less: a step there is no break
  return of_kind(
      detect(lake_of(ring_break(Metres(200), Metres(shelf), Metres(basin), Metres(width), Metres(350), Metres(cell)))),
      Kind::drop_off);
}

}  // namespace

TEST_CASE("a ring-shaped break: radius, top, base, grade, facing, length") {
  const auto [width, cell] = GENERATE(table<double, double>(
      {{4, 2}, {10, 2}, {20, 2}, {40, 2}, {10, 5}, {15, 5}, {20, 5}, {30, 5}, {45, 5}, {20, 10}, {30, 10}, {40, 10}}));
  INFO("ramp " << width << " m, cells of " << cell << " m");
  const auto breaks = breaks_of(2, 10, width, cell);
  REQUIRE(breaks.size() >= 5);
  CHECK(total_length<DropOff>(breaks) == Approx(2 * M_PI * 200).epsilon(0.01));
  const auto [low, high] = radii(breaks);
  CHECK(low > 200 - cell / 2);
  CHECK(high < 200 + cell / 2);
  for (const Feature& each : breaks) {
    const auto& edge = std::get<DropOff>(each.details);
    // a grid rounds the corners of a kink by up to about a seventh of its bend over a cell
    const double rounding = cell <= 5 && width >= 3 * cell ? 0.2 : 0.05 + 0.15 * cell * 8 / width;
    CHECK(edge.top_depth.value() == Approx(2).margin(rounding));
    CHECK(edge.base_depth.value() == Approx(10).margin(rounding));
    CHECK(edge.relief.value() == Approx(edge.base_depth.value() - edge.top_depth.value()).margin(1e-9));
    CHECK(edge.grade_pct == Approx(100 * 8 / width).epsilon(0.03 + 0.2 * cell / width));
    CHECK(edge.length <= Metres(300.5));
    // the floor falls towards the centre
    const double inwards = std::fmod(std::atan2(-each.anchor.x, -each.anchor.y) * 180 / M_PI + 360, 360);
    CHECK(apart(edge.faces.value(), inwards) < 3);
  }
}

TEST_CASE("on a broad even ramp the line lies where the slope is even") {
  const double cell = GENERATE(2.0, 5.0, 10.0);
  INFO("cells of " << cell << " m");
  const auto breaks = breaks_of(2, 12, 60, cell);
  CHECK(total_length<DropOff>(breaks) == Approx(2 * M_PI * 200).epsilon(0.015));
  // the window of the smoothing, three sigma to each side, lies within the ramp over 60 m less twice that; any line
  // there is a line of steepest floor
  const double even = 30 - 3 * std::max(8.0, 1.25 * cell);
  const auto [low, high] = radii(breaks);
  CHECK(low > 200 - std::max(0.0, even) - cell / 2);
  CHECK(high < 200 + std::max(0.0, even) + cell / 2);
  for (const Feature& each : breaks) {
    const auto& edge = std::get<DropOff>(each.details);
    CHECK(edge.top_depth.value() == Approx(2).margin(0.3));
    CHECK(edge.base_depth.value() == Approx(12).margin(0.3));
    CHECK(edge.grade_pct == Approx(100 * 10.0 / 60).epsilon(0.06));
  }
}

TEST_CASE("an even slope that is wider than the smoothing is one break, not several side by side") {
  // 2 m of water in the west, 20 m in the east, a straight ramp of 90 m (20 %) between: one line, as long as the map is
  // wide less what the map's edges take (two cells of the derivatives, and the profile's reach over the unknown)
  const Lake lake = lake_of(filled(frame_about(Metres(200), Metres(5)),
                                   [](XY at) { return 2 + 18 * std::clamp((at.x + 45) / 90, 0.0, 1.0); }));
  const auto breaks = of_kind(detect(lake), Kind::drop_off);
  CHECK(total_length<DropOff>(breaks) <= 400);
  CHECK(total_length<DropOff>(breaks) >= 340);
  for (const Feature& each : breaks) {
    const auto& edge = std::get<DropOff>(each.details);
    // corners half-way between cells are the hardest to read: they may be placed half a cell too far in, 0.5 m of fall
    CHECK(edge.top_depth.value() == Approx(2).margin(0.5));
    CHECK(edge.base_depth.value() == Approx(20).margin(0.5));
    CHECK(apart(edge.faces.value(), 90) < 3);
  }
}

TEST_CASE("two breaks on one slope are two edges, each with its own top and base") {
  // a shelf of 3 m falls to a ledge of 8 m over 20 m at r = 300, and that to 14 m over 24 m further in: both at 25 %
  const double ledge = GENERATE(25.0, 50.0), cell = GENERATE(2.0, 5.0);
  INFO("a ledge of " << ledge << " m, cells of " << cell << " m");
  const double inner = 290 - ledge - 12;
  const auto found = of_kind(detect(lake_of(filled(frame_about(Metres(420), Metres(cell)),
                                                   [&](XY at) {
                                                     const double r = std::hypot(at.x, at.y);
                                                     if (r >= 400) return static_cast<double>(kLand.value());
                                                     return 3 + 5 * std::clamp((310 - r) / 20, 0.0, 1.0) +
                                                            6 * std::clamp((inner + 12 - r) / 24, 0.0, 1.0);
                                                   }))),
                             Kind::drop_off);
  double lengths[2] = {0, 0};
  for (const Feature& each : found) {
    const double r = std::hypot(each.anchor.x, each.anchor.y);
    if (r > 390) continue;  // the wall of 3 m at the shore, a break of its own
    const auto& edge = std::get<DropOff>(each.details);
    const bool outer = std::abs(r - 300) < std::abs(r - inner);
    CHECK(std::abs(r - (outer ? 300 : inner)) < 5);
    CHECK(edge.top_depth.value() == Approx(outer ? 3 : 8).margin(0.2));
    CHECK(edge.base_depth.value() == Approx(outer ? 8 : 14).margin(0.2));
    CHECK(edge.grade_pct == Approx(25).margin(2));
    lengths[outer ? 0 : 1] += edge.length.value();
  }
  CHECK(lengths[0] == Approx(2 * M_PI * 300).epsilon(0.02));
  CHECK(lengths[1] == Approx(2 * M_PI * inner).epsilon(0.02));
}

TEST_CASE("a straight wall at the shore is a break") {
  const double cell = GENERATE(2.0, 5.0, 10.0);
  INFO("cells of " << cell << " m");
  const auto breaks = of_kind(detect(lake_of(disc(Metres(200), Metres(8), Metres(cell), Metres(40)))), Kind::drop_off);
  CHECK(total_length<DropOff>(breaks) == Approx(2 * M_PI * 200).epsilon(0.02));
  const auto [low, high] = radii(breaks);
  CHECK(low > 200 - cell);
  CHECK(high < 200 + cell);
  for (const Feature& each : breaks) {
    const auto& edge = std::get<DropOff>(each.details);
    CHECK(edge.top_depth.value() == Approx(0).margin(0.2));
    CHECK(edge.base_depth.value() == Approx(8).margin(0.2));
    CHECK(edge.grade_pct > 50);  // a wall, as well as cells of this size can say
  }
}

TEST_CASE("noise of the survey does not break a line into bits") {
  const unsigned seed = GENERATE(1U, 2U, 3U, 4U);
  INFO("seed " << seed);
  std::mt19937 random(seed);
  Grid<Metres32> values = ring_break(Metres(200), Metres(2), Metres(10), Metres(20), Metres(350), Metres(5));
  for (Metres32& cell : values.cells()) {
    // the sum of twelve even draws has a variance of one: a standard error of 0.15 m
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += static_cast<double>(random()) / 4294967296.0;
    if (cell > Metres32(0)) cell += Metres32(static_cast<float>(0.15 * sum));
  }
  const auto breaks = of_kind(detect(lake_of(values)), Kind::drop_off);
  CHECK(total_length<DropOff>(breaks) == Approx(2 * M_PI * 200).epsilon(0.01));
  CHECK(breaks.size() == 5);  // the fewest that keep to 300 m: 1257 / 300
  const auto [low, high] = radii(breaks);
  CHECK(low > 197.5);
  CHECK(high < 202.5);
}

TEST_CASE("a smooth break: top and base stand where the profile bends most") {
  // depth 6 + 4 tanh((200 - r) / 12): the bends of tanh are greatest at +-0.6585 of its width, at +-0.5774 of its
  // height (the second derivative's own extremes: tanh^2 = 1/3)
  const auto [cell, margin] = GENERATE(table<double, double>({{2, 0.1}, {4, 0.3}, {5, 0.25}}));
  INFO("cells of " << cell << " m");
  const Lake lake = lake_of(filled(frame_about(Metres(360), Metres(cell)), [](XY at) {
    const double r = std::hypot(at.x, at.y);
    return r > 350 ? kLand.value() : 6 + 4 * std::tanh((200 - r) / 12);
  }));
  const auto breaks = of_kind(detect(lake), Kind::drop_off);
  CHECK(total_length<DropOff>(breaks) == Approx(2 * M_PI * 200).epsilon(0.01));
  for (const Feature& each : breaks) {
    const auto& edge = std::get<DropOff>(each.details);
    CHECK(edge.top_depth.value() == Approx(6 - 4 * std::sqrt(1.0 / 3)).margin(margin));
    CHECK(edge.base_depth.value() == Approx(6 + 4 * std::sqrt(1.0 / 3)).margin(margin));
  }
}

TEST_CASE("what counts as a break is absolute") {
  CHECK(breaks_of(2, 3.0, 5, 2).empty());  // 1.0 m of relief
  // 1.3 m at 20 %, all around
  CHECK(total_length<DropOff>(breaks_of(2, 3.3, 6.5, 2)) == Approx(2 * M_PI * 200).epsilon(0.02));
  CHECK(breaks_of(2, 5.6, 30, 5).empty());  // 12 % grade
  CHECK(breaks_of(2, 8, 60, 5).empty());    // 10 % grade
  DetectOptions gentle;
  gentle.break_grade_pct = 8;
  const Lake lake = lake_of(ring_break(Metres(200), Metres(2), Metres(8), Metres(60), Metres(350), Metres(5)));
  CHECK_FALSE(of_kind(detect(lake, {}, {}, gentle), Kind::drop_off).empty());
}

TEST_CASE("a break of less than twice the depth error is none") {
  Lake lake = lake_of(ring_break(Metres(200), Metres(2), Metres(4), Metres(10), Metres(350), Metres(2)));
  CHECK_FALSE(of_kind(detect(lake), Kind::drop_off).empty());
  lake.depth_error = Metres(1.2);
  CHECK(of_kind(detect(lake), Kind::drop_off).empty());
}

TEST_CASE("a steep shore is a break; a survey that ends in shallow water is none") {
  // from the shore the floor falls 8 m within 30 m, then runs level
  const Frame frame = frame_about(Metres(330), Metres(5));
  const Lake steep = lake_of(filled(frame, [](XY at) {
    const double r = std::hypot(at.x, at.y);
    return r > 300 ? static_cast<double>(kLand.value()) : std::min(8.0, (300 - r) * 8 / 30);
  }));
  const auto breaks = of_kind(detect(steep), Kind::drop_off);
  CHECK(total_length<DropOff>(breaks) > 0.9 * 2 * M_PI * 280);
  CHECK(of_kind(detect(lake_of(disc(Metres(300), Metres(2), Metres(5), Metres(30)))), Kind::drop_off).empty());
}

TEST_CASE("breaks end at the unknown") {
  Grid<Metres32> values = ring_break(Metres(200), Metres(2), Metres(10), Metres(20), Metres(350), Metres(5));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values.frame().centre(values.cell_of(i)).x > 0) values[i] = kUnknown;
  }
  const auto breaks = of_kind(detect(lake_of(values)), Kind::drop_off);
  CHECK(total_length<DropOff>(breaks) == Approx(M_PI * 200).epsilon(0.08));
  for (const Feature& each : breaks) {
    for (const XY at : vertices(each.geometry)) CHECK(at.x < 0);
  }
}

TEST_CASE("a break round the corner of a square shelf is cut at the corner") {
  // a basin 300 m square, 9 m deep, in a shelf of 2.5 m: its break has four sides of 300 m and corners of 90 degrees
  const Lake lake = lake_of(filled(frame_about(Metres(320), Metres(5)), [](XY at) {
    const double out = std::max(std::abs(at.x), std::abs(at.y));
    if (out > 300) return static_cast<double>(kLand.value());
    return 2.5 + 6.5 * std::clamp((160 - out) / 20, 0.0, 1.0);
  }));
  const auto found = of_kind(detect(lake), Kind::drop_off);
  REQUIRE(found.size() >= 4);
  double most = 0;
  for (const Feature& feature : found) {
    const auto& edge = std::get<DropOff>(feature.details);
    most = std::max(most, edge.length.value());
    // no piece goes round a corner: all of it looks one way, within the bend of the smoothed corner
    const Line& line = std::get<Lines>(feature.geometry).front();
    const double straight = distance(line.front(), line.back()).value();
    if (edge.length > Metres(100)) CHECK(straight > 0.9 * edge.length.value());
  }
  CHECK(most <= 300);
}
