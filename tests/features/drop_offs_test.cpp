// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/grid/sweep.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

double total_length(const std::vector<Feature>& breaks) {
  double sum = 0;
  for (const Feature& each : breaks) sum += std::get<DropOff>(each.details).length.value();
  return sum;
}

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
  const auto [width, cell] = GENERATE(table<double, double>({{20, 2}, {30, 2}, {20, 5}, {30, 5}, {45, 5}, {30, 10}}));
  INFO("ramp " << width << " m, cells of " << cell << " m");
  const auto breaks = breaks_of(2, 10, width, cell);
  REQUIRE(breaks.size() >= 5);
  CHECK(total_length(breaks) == Approx(2 * M_PI * 200).epsilon(0.01));
  const auto [low, high] = radii(breaks);
  CHECK(low > 200 - cell / 2);
  CHECK(high < 200 + cell / 2);
  for (const Feature& each : breaks) {
    const auto& edge = std::get<DropOff>(each.details);
    // a grid rounds the corners of a kink by up to about a tenth of a cell of the ramp's fall
    const double rounding = 0.1 + 0.15 * cell * 8 / width;
    CHECK(edge.top_depth.value() == Approx(2).margin(rounding));
    CHECK(edge.base_depth.value() == Approx(10).margin(rounding));
    CHECK(edge.relief.value() == Approx(8).margin(2 * rounding));
    CHECK(edge.grade_pct == Approx(100 * 8 / width).epsilon(0.05 + 0.25 * cell / width));
    CHECK(edge.length <= Metres(300.5));
    // the floor falls towards the centre
    const double inwards = std::fmod(std::atan2(-each.anchor.x, -each.anchor.y) * 180 / M_PI + 360, 360);
    CHECK(apart(edge.faces.value(), inwards) < 3);
  }
}

TEST_CASE("a smooth break: top and base stand where the profile bends most") {
  // depth 6 + 4 tanh((200 - r) / 12): the bends of tanh are greatest at +-0.6585 of its width, at +-0.5774 of its
  // height
  const Frame frame = frame_about(Metres(360), Metres(4));
  const Lake lake = lake_of(filled(frame, [](XY at) {
    const double r = std::hypot(at.x, at.y);
    return r > 350 ? kLand.value() : 6 + 4 * std::tanh((200 - r) / 12);
  }));
  const auto breaks = of_kind(detect(lake), Kind::drop_off);
  CHECK(total_length(breaks) == Approx(2 * M_PI * 200).epsilon(0.01));
  for (const Feature& each : breaks) {
    const auto& edge = std::get<DropOff>(each.details);
    CHECK(edge.top_depth.value() == Approx(6 - 4 * 0.5774).margin(0.25));
    CHECK(edge.base_depth.value() == Approx(6 + 4 * 0.5774).margin(0.25));
  }
}

TEST_CASE("what counts as a break is absolute") {
  CHECK(breaks_of(2, 3.0, 5, 2).empty());        // 1.0 m of relief
  CHECK_FALSE(breaks_of(2, 3.4, 7, 2).empty());  // 1.4 m at 20 %
  CHECK(breaks_of(2, 8, 60, 5).empty());         // 10 % grade
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
  CHECK(total_length(breaks) > 0.9 * 2 * M_PI * 280);
  CHECK(of_kind(detect(lake_of(disc(Metres(300), Metres(2), Metres(5), Metres(30)))), Kind::drop_off).empty());
}

TEST_CASE("breaks end at the unknown") {
  Grid<Metres32> values = ring_break(Metres(200), Metres(2), Metres(10), Metres(20), Metres(350), Metres(5));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values.frame().centre(values.cell_of(i)).x > 0) values[i] = kUnknown;
  }
  const auto breaks = of_kind(detect(lake_of(values)), Kind::drop_off);
  CHECK(total_length(breaks) == Approx(M_PI * 200).epsilon(0.08));
  for (const Feature& each : breaks) {
    for (const XY at : vertices(each.geometry)) CHECK(at.x < 0);
  }
}

TEST_CASE("features are the same at one and two threads") {
  const Lake lake = lake_of(ring_break(Metres(200), Metres(2), Metres(10), Metres(20), Metres(350), Metres(2)));
  set_threads(1);
  const auto one = detect(lake, WeedKnowledge{Metres(4), WeedSource::predicted});
  set_threads(2);
  const auto two = detect(lake, WeedKnowledge{Metres(4), WeedSource::predicted});
  set_threads(0);
  REQUIRE(one.size() == two.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    CHECK(one[i].id == two[i].id);
    CHECK(vertices(one[i].geometry) == vertices(two[i].geometry));
  }
}
