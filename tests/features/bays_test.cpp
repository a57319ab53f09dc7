// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "castplan/geo/planar.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

std::vector<Feature> bays_of(const Lake& lake) { return find_bays(Ground{lake, {}, {}, {}, {}, {}, {}}, {}); }

const Bay& bay(const Feature& feature) { return std::get<Bay>(feature.details); }

constexpr double kRadius = 80, kHalfNeck = 30, kNeck = 60;
// where the circle meets the neck, south of its middle
const double kChord = std::sqrt(kRadius * kRadius - kHalfNeck * kHalfNeck);

/// A keyhole: a circle of radius 80 at (0, 200) joined by a neck of 60 x 60 m to a lake of 800 x 400 m south of it. The
/// shores of the lake and the neck meet at y = 200 - kChord - 60 = 65.8. The bay is 2 m deep, the lake 6.
Lake keyhole(Metres cell, bool island = false, double turn_deg = 0) {
  const double c = std::cos(turn_deg * std::numbers::pi / 180), s = std::sin(turn_deg * std::numbers::pi / 180);
  const double mouth = 200 - kChord - kNeck;
  return lake_of(filled(frame_about(Metres(520), cell), [&](XY at) {
    const XY p{at.x * c + at.y * s, -at.x * s + at.y * c};
    if (island && std::hypot(p.x - 20, p.y - 210) < 25) return static_cast<double>(kLand.value());
    if (std::abs(p.x) < 400 && p.y < mouth && p.y > mouth - 400) return 6.0;
    const bool neck = std::abs(p.x) < kHalfNeck && p.y >= mouth && p.y < 200;
    return neck || std::hypot(p.x, p.y - 200) < kRadius ? 2.0 : static_cast<double>(kLand.value());
  }));
}

// circle less the segment behind the neck's end, and the neck
double keyhole_area() {
  const double half = std::asin(kHalfNeck / kRadius);
  const double segment = kRadius * kRadius * half - kHalfNeck * kChord;
  return std::numbers::pi * kRadius * kRadius - segment + 2 * kHalfNeck * kNeck;
}

}  // namespace

TEST_CASE("a keyhole is a bay with its mouth where its neck meets the lake") {
  const double cell = GENERATE(2.0, 4.0);
  INFO("cells of " << cell << " m");
  const auto found = bays_of(keyhole(Metres(cell)));
  REQUIRE(found.size() == 1);
  CHECK(bay(found[0]).area.value() == Approx(keyhole_area()).epsilon(0.03));
  CHECK(bay(found[0]).width.value() == Approx(2 * kHalfNeck).margin(2 * cell));
  CHECK(bay(found[0]).mean_depth.value() == Approx(2).margin(0.1));
  CHECK(std::abs(std::remainder(bay(found[0]).faces.value() - 180, 360)) < 3);
  for (const XY end : bay(found[0]).mouth) {
    CHECK(std::abs(end.x) == Approx(kHalfNeck).margin(1.5 * cell));
    CHECK(end.y == Approx(200 - kChord - kNeck).margin(2 * cell));
  }
  CHECK(area(std::get<Polygons>(found[0].geometry)).value() == Approx(bay(found[0]).area.value()).epsilon(0.01));
  CHECK(invalidity(std::get<Polygons>(found[0].geometry)).empty());
  CHECK(found[0].confidence > 0.9);
}

TEST_CASE("effective fetch at the mouth of a keyhole") {
  // the lake is 400 m long before the mouth and its side walls stand 400 m to each side, which radials to 42 degrees
  // meet at 400 tan 42 = 360 m: all end at the far wall, F = 400 / cos a, so that
  // Fe = sum(F cos a) / sum(cos a) = 15 x 400 / 13.5109 = 444.1 m (sum(cos a): USGS UMESC PSR 97-08)
  const auto found = bays_of(keyhole(Metres(2)));
  REQUIRE(found.size() == 1);
  REQUIRE(bay(found[0]).fetch);
  CHECK(bay(found[0]).fetch->value() == Approx(15 * 400 / 13.5109).epsilon(0.02));
}

TEST_CASE("a bay turned faces elsewhere and is else the same") {
  const double turn = GENERATE(45.0, 90.0, 180.0);
  INFO(turn);
  const auto found = bays_of(keyhole(Metres(3), false, turn));
  REQUIRE(found.size() == 1);
  CHECK(std::abs(std::remainder(bay(found[0]).faces.value() - (180 - turn), 360)) < 4);
  CHECK(bay(found[0]).area.value() == Approx(keyhole_area()).epsilon(0.04));
}

TEST_CASE("an island in a bay is not part of it, and the bay is found all the same") {
  const auto found = bays_of(keyhole(Metres(2), true));
  REQUIRE(found.size() == 1);
  CHECK(bay(found[0]).area.value() == Approx(keyhole_area() - std::numbers::pi * 25 * 25).epsilon(0.03));
  CHECK(std::get<Polygons>(found[0].geometry).front().holes.size() == 1);
}

TEST_CASE("the half circle decides what is a bay") {
  // a pocket of 200 x depth m in a straight shore: half a circle on the mouth is pi 200^2 / 8 = 15708 m2, which the
  // pocket has at a depth of 78.5 m; the shore must be twice the mouth: 200 + 2 x 100
  const auto count = [](double depth) {
    return bays_of(lake_of(filled(frame_about(Metres(520), Metres(4)),
                                  [depth](XY at) {
                                    const bool lake = std::abs(at.x) < 500 && at.y < 0 && at.y > -500;
                                    const bool pocket = std::abs(at.x - 20) < 100 && at.y >= 0 && at.y < depth;
                                    return lake || pocket ? 3.0 : static_cast<double>(kLand.value());
                                  })))
        .size();
  };
  CHECK(count(60) == 0);
  CHECK(count(130) == 1);
}

TEST_CASE("no bay in lakes without an arm, or with an arm that is a quarter of the water or more") {
  CHECK(bays_of(lake_of(bowl(Metres(300), Metres(10), Metres(5), Metres(30)))).empty());
  // an oval, six times as long as wide
  CHECK(bays_of(lake_of(filled(frame_about(Metres(640), Metres(5)), [](XY at) {
          return at.x * at.x / 360000 + at.y * at.y / 10000 < 1 ? 3.0 : static_cast<double>(kLand.value());
        }))).empty());
  // two equal basins
  CHECK(bays_of(lake_of(filled(frame_about(Metres(400), Metres(5)), [](XY at) {
          const bool basin = std::hypot(std::abs(at.x) - 200, at.y) < 120;
          return basin || (std::abs(at.x) < 200 && std::abs(at.y) < 30) ? 3.0 : static_cast<double>(kLand.value());
        }))).empty());
}

TEST_CASE("a cut in the map is no shore of a bay") {
  // all north of y = 210 is off the map: the keyhole's far shore is unknown
  Grid<Metres32> values = filled(frame_about(Metres(520), Metres(4)), [](XY at) {
    if (at.y > 210) return static_cast<double>(kUnknown.value());
    const bool lake = std::abs(at.x) < 400 && at.y < 60 && at.y > -340;
    const bool arm = std::abs(at.x) < 50 && at.y >= 60;
    return lake || arm ? 4.0 : static_cast<double>(kLand.value());
  });
  CHECK(bays_of(lake_of(values)).empty());
}

TEST_CASE("an arm of a bay is a bay of its own where it has less than half of it") {
  // a bay of 200 x 300 m with a mouth of 60 m, and in its far wall a cove of 60 x 140 m behind a gap of 30 m
  const Lake lake = lake_of(filled(frame_about(Metres(720), Metres(3)), [](XY at) {
    const auto box = [at](double x0, double y0, double x1, double y1) {
      return at.x > x0 && at.x < x1 && at.y > y0 && at.y < y1;
    };
    const bool water = box(-600, -600, 600, 0) || box(-30, -1, 30, 31) || box(-100, 30, 100, 330) ||
                       box(-15, 329, 15, 361) || box(-70, 360, 70, 420);
    return water ? 3.0 : static_cast<double>(kLand.value());
  }));
  const auto found = bays_of(lake);
  REQUIRE(found.size() == 2);
  // outer: 200 x 300 + 60 x 30 + 30 x 30 + 140 x 60; inner: 140 x 60 + 30 x 30 or less of its gap
  CHECK(bay(found[0]).area.value() == Approx(60000 + 1800 + 900 + 8400).epsilon(0.03));
  CHECK(bay(found[1]).area.value() == Approx(8400 + 900).epsilon(0.08));
  CHECK(bay(found[1]).width.value() == Approx(30).margin(6));
}
