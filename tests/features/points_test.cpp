// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "castplan/terrain/smooth.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

constexpr double kLength = 320;  // of a wave of the shore
constexpr double kHeight = 45;   // of its crests over the middle
constexpr double kGrade = 0.06;
constexpr double kFloor = 9;
constexpr double kWave = 2 * std::numbers::pi / kLength;

/// A lake north of the shore y = height cos(2 pi x / length), with points at x = 0, +-length ...: depth = grade times
/// the way north of it, down to a floor, the northern side being a straight wall. The whole is turned by `turn`.
Lake wavy_lake(double turn_deg = 0, double height = kHeight, Metres cell = Metres(5)) {
  const double c = std::cos(turn_deg * std::numbers::pi / 180), s = std::sin(turn_deg * std::numbers::pi / 180);
  return lake_of(filled(frame_about(Metres(900), cell), [&](XY at) {
    const XY p{at.x * c + at.y * s, -at.x * s + at.y * c};
    const double north = p.y - height * std::cos(kWave * p.x);
    if (north <= 0 || p.y > 500 || std::abs(p.x) > 720) return static_cast<double>(kLand.value());
    return std::min(kFloor, kGrade * north);
  }));
}

double turned_by(double from, double to) { return std::remainder(to - from, 360.0); }

/// All points or inside turns; on a wavy lake those whose shore goes on as waves, not those at its walls.
std::vector<Feature> found(const Lake& lake, Kind kind, double turn_deg = 0) {
  auto features = of_kind(find_points(Ground{lake, {}, {}, {}, {}, {}, {}}, {}), kind);
  const double c = std::cos(turn_deg * std::numbers::pi / 180), s = std::sin(turn_deg * std::numbers::pi / 180);
  std::erase_if(features, [&](const Feature& each) {
    const XY p{each.anchor.x * c + each.anchor.y * s, -each.anchor.x * s + each.anchor.y * c};
    return std::abs(p.x) > 560 || p.y > 300;
  });
  return features;
}

const Bar& bar(const Feature& feature) { return std::get<Bar>(feature.details); }

const Line& line(const Feature& feature) { return std::get<Lines>(feature.geometry).front(); }

}  // namespace

TEST_CASE("a sinusoidal shore has a point on each crest and an inside turn in each trough") {
  // depth grade (y - height cos kx): its contours are the shore moved north. Crests at x = n length, troughs half-way.
  // Counted from -480 to 480; at x = +-720 straight walls end the lake, and bend the contours near them.
  const Lake lake = wavy_lake();
  const auto points = found(lake, Kind::point);
  const auto turns = found(lake, Kind::inside_turn);
  for (const double x : {-320.0, 0.0, 320.0}) {
    INFO("crest at " << x);
    const auto at = std::count_if(points.begin(), points.end(), [x](const Feature& each) {
      return std::abs(each.anchor.x - x) < 4 && std::abs(turned_by(0, bar(each).faces.value())) < 4;
    });
    CHECK(at == 1);
  }
  CHECK(points.size() == 3);
  for (const double x : {-480.0, -160.0, 160.0, 480.0}) {
    INFO("trough at " << x);
    const auto at = std::count_if(turns.begin(), turns.end(), [x](const Feature& each) {
      return std::abs(each.anchor.x - x) < 4 && std::abs(turned_by(0, bar(each).faces.value())) < 4;
    });
    CHECK(at == 1);
  }
  CHECK(turns.size() == 4);
}

TEST_CASE(
    "a point's crest runs from the shore to its tip at the foot of the slope, and its relief is that of the sides") {
  const Lake lake = wavy_lake();
  for (const Feature& point : found(lake, Kind::point)) {
    INFO(point.anchor.x);
    const Line& crest = line(point);
    // the shore lies at y = height, the foot of the slope at height + floor / grade = 195
    CHECK(crest.front().y == Approx(kHeight).margin(10));
    CHECK(crest.back().y > 150);
    CHECK(crest.back().y < 195 + 5);
    CHECK(bar(point).depth.value() == Approx(kGrade * (crest.back().y - kHeight)).margin(0.35));
    // w to each side of a crest the floor is deeper by grade height (1 - cos(k w)): 0.79 m for a window of 40 m, less
    // than the metre that is asked for, and grade height for one of 80 m, a quarter of a wave
    CHECK(bar(point).relief.value() == Approx(kGrade * kHeight).epsilon(0.08));
    CHECK(point.confidence == Approx(0.9).margin(0.001));  // the depths' error is only assumed
  }
  for (const Feature& turn : found(lake, Kind::inside_turn)) {
    // the head lies on the shallowest contour that is followed: half a metre, or the next
    CHECK(bar(turn).depth.value() < 1.6);
    CHECK(line(turn).front().y == Approx(-kHeight).margin(15));
  }
}

TEST_CASE("bearings are true, whatever way the shore runs") {
  // turned anticlockwise by a, everything faces 360 - a
  for (const double turn : {30.0, 90.0, 210.0}) {
    INFO(turn);
    const auto points = found(wavy_lake(turn), Kind::point, turn);
    CHECK(points.size() == 3);
    for (const Feature& point : points) CHECK(std::abs(turned_by(360 - turn, bar(point).faces.value())) < 5);
  }
}

TEST_CASE("no point and no turn where contours do not bend enough, or bend one way") {
  SECTION("a round bowl") {
    const double radius = GENERATE(60.0, 150.0, 400.0, 1000.0);
    const Lake lake = lake_of(bowl(Metres(radius), Metres(15), Metres(5), Metres(40)));
    CHECK(find_points(Ground{lake, {}, {}, {}, {}, {}, {}}, {}).empty());
  }
  SECTION("an oval bowl, three times as long as wide") {
    const Lake lake = lake_of(filled(frame_about(Metres(640), Metres(5)), [](XY at) {
      const double share = at.x * at.x / 360000 + at.y * at.y / 40000;
      return share < 1 ? 14 * (1 - share) : static_cast<double>(kLand.value());
    }));
    CHECK(find_points(Ground{lake, {}, {}, {}, {}, {}, {}}, {}).empty());
  }
  SECTION("waves of 8 m on a shore: the floor is then deeper by at most 2 x 0.06 x 8 = 0.96 m on both sides") {
    CHECK(found(wavy_lake(0, 8), Kind::point).empty());
    CHECK(found(wavy_lake(0, 8), Kind::inside_turn).empty());
  }
  SECTION("a flat floor behind walls") {
    const Lake lake = lake_of(disc(Metres(300), Metres(6), Metres(5), Metres(30)));
    CHECK(find_points(Ground{lake, {}, {}, {}, {}, {}, {}}, {}).empty());
  }
}

TEST_CASE("a map's edge makes no point") {
  // an even slope to the east, known only inside a wavy line: its contours end there, and bend nowhere
  const Lake lake = lake_of(filled(frame_about(Metres(500), Metres(5)), [](XY at) {
    if (at.x < -400) return static_cast<double>(kLand.value());
    if (std::abs(at.y) > 300 + 60 * std::sin(at.x / 40)) return static_cast<double>(kUnknown.value());
    return 0.02 * (at.x + 400);
  }));
  CHECK(find_points(Ground{lake, {}, {}, {}, {}, {}, {}}, {}).empty());
}

TEST_CASE("noise of 0.15 m, white or over 25 m, moves no point and makes none") {
  // no formula: every crest and trough is found once, within half a window of where it is without noise, and nothing
  // else
  const double over = GENERATE(0.0, 12.5);
  const unsigned seed = GENERATE(1U, 2U, 3U, 4U);
  INFO("seed " << seed << ", smoothed over " << over << " m");
  std::mt19937 random(seed);
  Lake lake = wavy_lake();
  Grid<Metres32> noise(lake.depth.frame());
  for (Metres32& each : noise.cells()) {
    // a sum of twelve even numbers has a standard deviation of 1
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += static_cast<double>(random()) / 4294967295.0;
    each = Metres32(static_cast<float>(sum));
  }
  if (over > 0) noise = smoothed(noise, Metres(over));
  double square = 0;
  for (const Metres32 each : noise.cells()) square += static_cast<double>(each.value() * each.value());
  const auto scale = static_cast<float>(0.15 / std::sqrt(square / static_cast<double>(noise.size())));
  for (std::size_t i = 0; i < noise.size(); ++i) {
    if (lake.cover[i] != Cover::water) continue;
    lake.depth[i] = Metres32(std::max(0.01F, lake.depth[i].value() + scale * noise[i].value()));
  }
  const auto points = found(lake, Kind::point);
  const auto turns = found(lake, Kind::inside_turn);
  CHECK(points.size() == 3);
  CHECK(turns.size() == 4);
  for (const Feature& each : points) {
    CHECK(std::abs(std::remainder(each.anchor.x, kLength)) < 20);
    CHECK(std::abs(turned_by(0, bar(each).faces.value())) < 15);
  }
  for (const Feature& each : turns) CHECK(std::abs(std::remainder(each.anchor.x - kLength / 2, kLength)) < 20);
}

TEST_CASE("a point in depths that are known badly is found on a coarser scale, and is less sure") {
  Lake lake = wavy_lake();
  lake.depth_error = Metres(1.5);
  lake.depth_error_known = true;
  const auto points = found(lake, Kind::point);
  CHECK(points.size() == 3);
  // An error of 1.5 m doubles the scale to 2 x 15 m at most, so that the window is 3 x that or less and the relief at
  // least grade height (1 - cos(k 60 m)) = 1.67 m and at most 2.7 m. Such an error may make 4.5 m by itself, so
  // that the confidence lies between Phi((1.67 - 4.5) / 2.12) = 0.09 and Phi((2.7 - 4.5) / 2.12) = 0.20.
  for (const Feature& each : points) {
    CHECK(each.confidence > 0.08);
    CHECK(each.confidence < 0.21);
  }
}
