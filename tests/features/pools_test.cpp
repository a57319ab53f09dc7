// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

TEST_CASE("a paraboloid bowl has one pool, no hump and no break") {
  // depth 20 (1 - r^2 / 400^2): below half its depth lies a disc of area pi R^2 / 2 and a volume of pi R^2 D / 8
  const Lake lake = lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)));
  const auto features = detect(lake);
  const auto pools = of_kind(features, Kind::pool);
  REQUIRE(pools.size() == 1);
  const auto& pool = std::get<Pool>(pools[0].details);
  CHECK_FALSE(pool.sill_depth);
  CHECK(pool.max_depth.value() == Approx(20).margin(0.01));
  CHECK(pool.relief.value() == Approx(20).margin(0.01));
  CHECK(pool.area.value() == Approx(M_PI * 160000 / 2).epsilon(0.002));
  CHECK(pool.volume.value() == Approx(M_PI * 160000 * 20 / 8).epsilon(0.002));
  CHECK(std::hypot(pool.deepest.x, pool.deepest.y) < 5);
  CHECK(of_kind(features, Kind::hump).empty());
  CHECK(of_kind(features, Kind::drop_off).empty());
  CHECK(of_kind(features, Kind::hazard).empty());
}

TEST_CASE("two holes with a known sill") {
  // floor 5; holes of 6 and 4 m, sigma 40 m, 200 m apart: the sill is the shallowest place between them, found here on
  // the joining line by fine search of the formula
  const std::vector<Gauss> pits{{{-100, 0}, Metres(6), Metres(40)}, {{100, 0}, Metres(4), Metres(40)}};
  const auto depth = [&](XY at) { return 5 + gauss_at(pits[0], at) + gauss_at(pits[1], at); };
  double sill = 1e9;
  for (double x = -100; x <= 100; x += 0.01) sill = std::min(sill, depth({x, 0}));
  const Lake lake = lake_of(gaussian_pits(Metres(5), pits, Metres(400), Metres(4)));
  const auto pools = of_kind(detect(lake), Kind::pool);
  REQUIRE(pools.size() == 2);
  const auto& deepest = std::get<Pool>(pools[0].details);
  const auto& second = std::get<Pool>(pools[1].details);
  CHECK_FALSE(deepest.sill_depth);
  CHECK(deepest.max_depth.value() == Approx(depth({-100, 0})).margin(0.02));
  REQUIRE(second.sill_depth);
  CHECK(second.sill_depth->value() == Approx(sill).margin(0.02));
  CHECK(second.max_depth.value() == Approx(depth({100, 0})).margin(0.02));
  CHECK(second.relief.value() == Approx(depth({100, 0}) - sill).margin(0.03));
  CHECK(distance(second.deepest, {100, 0}) < Metres(4));
  // area and volume below the sill, by summing the formula on a grid of 1 m over the eastern half
  double area_sum = 0, volume_sum = 0;
  for (double x = 0.5; x < 300; x += 1) {
    for (double y = -299.5; y < 300; y += 1) {
      if (depth({x, y}) <= sill) continue;
      area_sum += 1;
      volume_sum += depth({x, y}) - sill;
    }
  }
  CHECK(second.area.value() == Approx(area_sum).epsilon(0.02));
  CHECK(second.volume.value() == Approx(volume_sum).epsilon(0.02));
  // the deepest pool lies below the deepest pass that joins another one
  CHECK(deepest.area.value() > second.area.value());
  CHECK(deepest.area.value() < M_PI * 200 * 200);
}

TEST_CASE("a hole within the flank of another has its own sill, and lies within the other's pool") {
  const std::vector<Gauss> pits{
      {{-150, 0}, Metres(9), Metres(50)}, {{90, 0}, Metres(7), Metres(40)}, {{190, 40}, Metres(5), Metres(30)}};
  const auto depth = [&](XY at) {
    double sum = 5;
    for (const Gauss& pit : pits) sum += gauss_at(pit, at);
    return sum;
  };
  // the shallowest place of the formula between two middles; the true pass bends off the joining line by little
  const auto sill = [&](XY from, XY to) {
    double least = 1e9;
    for (double share = 0; share <= 1; share += 1e-4) least = std::min(least, depth(from + (to - from) * share));
    return least;
  };
  const double outer = sill(pits[0].at, pits[1].at);
  const double inner = sill(pits[1].at, pits[2].at);
  REQUIRE(inner > outer + 0.5);
  const auto pools = of_kind(detect(lake_of(gaussian_pits(Metres(5), pits, Metres(400), Metres(4)))), Kind::pool);
  REQUIRE(pools.size() == 3);
  const auto pool = [&](int i) { return std::get<Pool>(pools[static_cast<std::size_t>(i)].details); };
  CHECK(pool(1).sill_depth->value() == Approx(outer).margin(0.03));
  CHECK(pool(2).sill_depth->value() == Approx(inner).margin(0.06));
  for (int i = 0; i < 3; ++i) CHECK(distance(pool(i).deepest, pits[static_cast<std::size_t>(i)].at) < Metres(6));
  // areas and volumes below each sill, by summing the formula on a grid of 1 m: the deepest pool west of the outer
  // sill, the second east of it with the third inside, the third beyond the line half-way along the joining line's dip
  double west_area = 0, east_area = 0, west_volume = 0, east_volume = 0;
  for (double x = -395.5; x < 396; x += 1) {
    for (double y = -299.5; y < 300; y += 1) {
      const double below = depth({x, y}) - outer;
      if (below <= 0) continue;
      (x < -20 ? west_area : east_area) += 1;
      (x < -20 ? west_volume : east_volume) += below;
    }
  }
  CHECK(pool(0).area.value() == Approx(west_area).epsilon(0.03));
  CHECK(pool(0).volume.value() == Approx(west_volume).epsilon(0.02));
  CHECK(pool(1).area.value() == Approx(east_area).epsilon(0.03));
  CHECK(pool(1).volume.value() == Approx(east_volume).epsilon(0.02));
  CHECK(contains(std::get<Polygons>(pools[1].geometry), pits[2].at));
  CHECK_FALSE(contains(std::get<Polygons>(pools[2].geometry), pits[1].at));
}

TEST_CASE("a second hole counts from one metre of relief") {
  const auto pools_with = [](double rise) {
    // far apart: the sill is the floor itself to within a millimetre
    const std::vector<Gauss> pits{{{-150, 0}, Metres(6), Metres(30)}, {{150, 0}, Metres(rise), Metres(30)}};
    return of_kind(detect(lake_of(gaussian_pits(Metres(5), pits, Metres(400), Metres(5)))), Kind::pool).size();
  };
  CHECK(pools_with(1.1) == 2);
  CHECK(pools_with(0.9) == 1);
}

TEST_CASE("what lies beyond the map is not concluded") {
  // the same two holes with everything east of the second hole's middle unknown: its sill could lie off the map
  const std::vector<Gauss> pits{{{-100, 0}, Metres(6), Metres(40)}, {{100, 0}, Metres(4), Metres(40)}};
  Grid<Metres32> values = gaussian_pits(Metres(5), pits, Metres(400), Metres(5));
  SECTION("a cut through the flank leaves a pool with no sill and half the confidence") {
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (values.frame().centre(values.cell_of(i)).x > 150) values[i] = kUnknown;
    }
    const auto pools = of_kind(detect(lake_of(values)), Kind::pool);
    REQUIRE(pools.size() == 2);
    const auto& second = std::get<Pool>(pools[1].details);
    CHECK_FALSE(second.sill_depth);
    // known to be closed only below the water at the cut: 5 + 4 exp(-50^2 / (2 40^2)) at x = 150
    CHECK(second.relief.value() == Approx(4 - 4 * std::exp(-50.0 * 50 / 3200)).margin(0.3));
    CHECK(pools[1].confidence <= 0.5);
    for (const XY at : vertices(pools[1].geometry)) CHECK(at.x <= 153);
  }
  SECTION("a cut through the middle leaves no pool there") {
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (values.frame().centre(values.cell_of(i)).x > 100) values[i] = kUnknown;
    }
    CHECK(of_kind(detect(lake_of(values)), Kind::pool).size() == 1);
  }
}

TEST_CASE("each water body over a tenth of a hectare has its deepest pool, and no sill runs over land") {
  Grid<Metres32> values = bowl(Metres(300), Metres(12), Metres(5), Metres(300));
  const Frame frame = values.frame();
  int small = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY at = frame.centre(values.cell_of(i));
    if (distance(at, {450, 0}) < Metres(40))
      values[i] = Metres32(3 - static_cast<float>(distance(at, {450, 0}).value() / 40));
    if (distance(at, {-450, 0}) < Metres(12)) {  // about 450 m2
      values[i] = Metres32(2);
      ++small;
    }
  }
  REQUIRE(small * 25 < 1000);
  const Lake lake = lake_of(values);
  REQUIRE(lake.bodies.size() == 3);
  const auto pools = of_kind(detect(lake), Kind::pool);
  REQUIRE(pools.size() == 2);
  for (const Feature& pool : pools) CHECK_FALSE(std::get<Pool>(pool.details).sill_depth);
  CHECK(distance(pools[1].anchor, {450, 0}) < Metres(6));
}
