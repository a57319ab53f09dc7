// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "support/detecting.hpp"
#include "support/noise.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

std::vector<Feature> flats(const Lake& lake) { return of_kind(detect(lake), Kind::flat); }
const Flat& known(const Feature& feature) { return std::get<Flat>(feature.details); }

/// A slope down to the east with a terrace: 10 % from the shore at x = -240 to 4 m, level for `width` from x = -200,
/// then 20 % down to 14 m, and level to the wall at x = 240; walls at y = +-200.
Lake terrace(double width, Metres cell) {
  return lake_of(filled(frame_about(Metres(260), cell), [&](XY at) {
    if (std::abs(at.y) > 200 || std::abs(at.x) > 240) return static_cast<double>(kLand.value());
    if (at.x < -200) return 0.1 * (at.x + 240);
    return std::min(14.0, 4 + 0.2 * std::max(0.0, at.x + 200 - width));
  }));
}

}  // namespace

TEST_CASE("a terrace of known area and depth") {
  const double cell = GENERATE(2.0, 5.0);
  INFO("cells of " << cell << " m");
  const auto found = flats(terrace(100, Metres(cell)));
  REQUIRE(found.size() == 1);
  CHECK(known(found[0]).depth.value() == Approx(4).margin(0.02));
  // half a block, at most 3 m, to either side
  CHECK(known(found[0]).area.value() == Approx(100.0 * 400).margin(6.0 * 400 + 400));
  CHECK(known(found[0]).edge.value() == Approx(400).margin(25));
  const auto& shape = std::get<Polygons>(found[0].geometry);
  CHECK(invalidity(shape).empty());
  CHECK(contains(shape, found[0].anchor));
  for (const XY at : vertices(found[0].geometry)) {
    CHECK(at.x > -200 - 6);
    CHECK(at.x < -100 + 6);
  }
}

TEST_CASE("a ring-shaped shelf keeps its hole, and the basin inside it is no flat") {
  // 2 m deep between the break at 250 m and the wall at 400 m; the ramp is 50 m wide, so it begins at 275 m
  const auto found = flats(lake_of(ring_break(Metres(250), Metres(2), Metres(12), Metres(50), Metres(400), Metres(5))));
  REQUIRE(found.size() == 1);
  CHECK(known(found[0]).depth.value() == Approx(2).margin(0.02));
  CHECK(known(found[0]).area.value() == Approx(M_PI * (400.0 * 400 - 275.0 * 275)).epsilon(0.03));
  CHECK(known(found[0]).edge.value() == Approx(2 * M_PI * 275).epsilon(0.05));
  const auto& shape = std::get<Polygons>(found[0].geometry);
  REQUIRE(shape.size() == 1);
  REQUIRE(shape[0].holes.size() == 1);
  CHECK(-signed_area(shape[0].holes[0]).value() == Approx(M_PI * 275.0 * 275).epsilon(0.03));
  CHECK(contains(shape, found[0].anchor));
}

TEST_CASE("a flat counts from its least width, area and depth on") {
  CHECK(flats(terrace(50, Metres(5))).size() == 1);
  CHECK(flats(terrace(25, Metres(5))).empty());
  // a shelf with a break all round it, r = 40 m: 5027 m2, and r = 60 m: 11310 m2
  const auto mesa = [](double radius, double top) {
    return flats(lake_of(filled(frame_about(Metres(220), Metres(5)), [&](XY at) {
      const double r = std::hypot(at.x, at.y);
      return r > 200 ? static_cast<double>(kLand.value()) : std::min(9.0, top + 0.25 * std::max(0.0, r - radius));
    })));
  };
  CHECK(mesa(40, 3).empty());
  CHECK(mesa(60, 3).size() == 1);
  CHECK(mesa(60, 0.3).empty());
}

TEST_CASE("no flat without deeper water beside it") {
  // level floors: a disc, the middle of a bowl, even slopes of 1 and 2 % down to the edge of the map
  CHECK(flats(lake_of(disc(Metres(300), Metres(4), Metres(5), Metres(30)))).empty());
  CHECK(flats(lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)))).empty());
  for (const double grade : {0.01, 0.02}) {
    CHECK(flats(lake_of(filled(frame_about(Metres(300), Metres(5)), [&](XY at) {
            return grade * (at.x + 250);
          }))).empty());
  }
  // the floor of a basin with a small hole in it: the hole has 126 m of rim, the basin 1257 m
  CHECK(flats(lake_of(filled(frame_about(Metres(320), Metres(5)), [&](XY at) {
          const double r = std::hypot(at.x, at.y);
          if (r > 300) return static_cast<double>(kLand.value());
          return std::min(8.0, 0.08 * (300 - r)) + gauss_at({{0, 0}, Metres(4), Metres(15)}, at);
        }))).empty());
}

TEST_CASE("a shelf that is cut by a hole keeps the hole") {
  // a shelf of 3 m with a pit of 6 m more, sigma 20 m: it leaves the shelf by 0.3 m at sigma sqrt(2 ln 20) = 49 m
  const auto found = flats(lake_of(filled(frame_about(Metres(420), Metres(5)), [](XY at) {
    if (std::hypot(at.x, at.y) > 400) return static_cast<double>(kLand.value());
    return at.x > 0 ? 3 + gauss_at({{180, 0}, Metres(6), Metres(20)}, at) : std::min(15.0, 3 - 0.2 * at.x);
  })));
  REQUIRE(found.size() == 1);
  const auto& shape = std::get<Polygons>(found[0].geometry);
  REQUIRE(shape.size() == 1);
  REQUIRE(shape[0].holes.size() == 1);
  CHECK(std::sqrt(-signed_area(shape[0].holes[0]).value() / M_PI) == Approx(49).margin(8));
  CHECK_FALSE(contains(shape, {180, 0}));
  CHECK(contains(shape, found[0].anchor));
}

TEST_CASE("noise of the survey neither hides a flat nor makes one") {
  const unsigned seed = GENERATE(1U, 2U, 3U);
  const bool correlated = GENERATE(false, true);
  INFO("seed " << seed << (correlated ? ", correlated over 25 m" : ", white"));
  const auto ring = ring_break(Metres(250), Metres(2), Metres(12), Metres(50), Metres(400), Metres(5));
  const auto found = flats(lake_of(noisy(ring, 0.15, correlated, seed)));
  REQUIRE(found.size() == 1);
  CHECK(known(found[0]).depth.value() == Approx(2).margin(0.05));
  CHECK(known(found[0]).area.value() == Approx(M_PI * (400.0 * 400 - 275.0 * 275)).epsilon(0.1));
  CHECK(invalidity(std::get<Polygons>(found[0].geometry)).empty());
  CHECK(flats(lake_of(noisy(bowl(Metres(400), Metres(20), Metres(5), Metres(50)), 0.15, correlated, seed))).empty());
  CHECK(flats(lake_of(noisy(disc(Metres(400), Metres(6), Metres(5), Metres(50)), 0.15, correlated, seed))).empty());
}
