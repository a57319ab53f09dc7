// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

TEST_CASE("a Gaussian hump on a flat floor") {
  const Gauss hump{{30, -20}, Metres(4), Metres(40)};
  const auto humps = of_kind(detect(lake_of(gaussian_hump(Metres(9), hump, Metres(300), Metres(5)))), Kind::hump);
  REQUIRE(humps.size() == 1);
  const auto& found = std::get<Hump>(humps[0].details);
  CHECK(found.top_depth.value() == Approx(5).margin(0.02));
  CHECK(found.base_depth.value() == Approx(9).margin(0.02));
  CHECK(found.relief.value() == Approx(4).margin(0.03));
  CHECK(distance(found.top, {30, -20}) < Metres(4));
  // outline where a tenth of the relief has been climbed: r = sigma sqrt(2 ln 10)
  const double radius = 40 * std::sqrt(2 * std::log(10.0));
  CHECK(found.area.value() == Approx(M_PI * radius * radius).epsilon(0.02));
}

TEST_CASE("the base of a hump on a slope is the pass on its shallow side") {
  // the floor falls by 2 % to the east; on the axis of symmetry the pass is the deepest place west of the hump
  const auto depth = [](XY at) { return 10 + 0.02 * at.x - gauss_at({{0, 0}, Metres(5), Metres(40)}, at); };
  double top = 1e9, base = 0;
  XY place;
  for (double x = -300; x < 50; x += 0.01) {
    if (x < 0 && x > -250) base = std::max(base, depth({x, 0}));
    if (depth({x, 0}) < top && x > -60) top = depth(place = {x, 0});
  }
  const Lake lake = lake_of(filled(frame_about(Metres(400), Metres(5)), [&](XY at) {
    return std::hypot(at.x, at.y) > 380 ? static_cast<double>(kLand.value()) : depth(at);
  }));
  const auto humps = of_kind(detect(lake), Kind::hump);
  REQUIRE(humps.size() == 1);
  const auto& found = std::get<Hump>(humps[0].details);
  CHECK(found.top_depth.value() == Approx(top).margin(0.03));
  CHECK(found.base_depth.value() == Approx(base).margin(0.03));
  CHECK(found.relief.value() == Approx(base - top).margin(0.05));
  CHECK(distance(found.top, place) < Metres(5));
}

TEST_CASE("a hump counts from one metre of relief and must stay under water") {
  const auto humps = [](double rise) {
    const Gauss hump{{0, 0}, Metres(rise), Metres(40)};
    return of_kind(detect(lake_of(gaussian_hump(Metres(9), hump, Metres(300), Metres(5)))), Kind::hump).size();
  };
  CHECK(humps(1.1) == 1);
  CHECK(humps(0.9) == 0);
}

TEST_CASE("a hump on a map without any shore is bounded by the water at the map's edge") {
  const Gauss hump{{2.5, 2.5}, Metres(4), Metres(40)};
  const Lake lake = lake_of(filled(frame_about(Metres(300), Metres(5)), [&](XY at) { return 9 - gauss_at(hump, at); }));
  const auto humps = of_kind(detect(lake), Kind::hump);
  REQUIRE(humps.size() == 1);
  CHECK(std::get<Hump>(humps[0].details).base_depth.value() == Approx(9).margin(0.01));
  CHECK(std::get<Hump>(humps[0].details).top_depth.value() == Approx(5).margin(0.01));
  CHECK(humps[0].confidence <= 0.5);
}

TEST_CASE("an island is no hump") {
  Grid<Metres32> values = disc(Metres(300), Metres(8), Metres(5), Metres(30));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double r = distance(values.frame().centre(values.cell_of(i)), {0, 0}).value();
    // a cone that breaks the surface by two metres
    if (r < 100) values[i] = Metres32(static_cast<float>(8 * r / 80 - 2 > 8 ? 8 : 8 * r / 80 - 2));
  }
  CHECK(of_kind(detect(lake_of(values)), Kind::hump).empty());
}

TEST_CASE("shoals are hazards away from the shore, and the strip along it is none") {
  // limit: draft 0.45 + margin 0.6 + assumed error 0.3 = 1.35 m
  const Gauss shoal{{52.5, 2.5}, Metres(5.5), Metres(30)};  // on a cell centre
  const Lake lake = lake_of(gaussian_hump(Metres(6), shoal, Metres(300), Metres(5)));
  const auto hazards = of_kind(detect(lake), Kind::hazard);
  REQUIRE(hazards.size() == 1);
  CHECK(std::get<Structure>(hazards[0].details).depth->value() == Approx(0.5).margin(0.03));
  // the 1.35 m line is the circle r = sigma sqrt(2 ln(rise / (6 - 1.35)))
  const double radius = 30 * std::sqrt(2 * std::log(5.5 / 4.65));
  for (const XY at : vertices(hazards[0].geometry))
    CHECK(distance(at, {52.5, 2.5}).value() == Approx(radius).margin(1.0));
  // a gentle beach: shallow only along the shore
  CHECK(of_kind(detect(lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)))), Kind::hazard).empty());
}

TEST_CASE("shoals close together are one hazard, marked where it is shallowest; a speck at the limit is none") {
  // circles of the 1.35 m line as above: 14.8 m and 11.3 m of radius, so that the gap is the distance less 26.1 m
  const double apart = GENERATE(62.5, 77.5);
  const Gauss high{{2.5, 2.5}, Metres(5.5), Metres(30)};
  const Gauss low{{2.5 + apart, 2.5}, Metres(5.2), Metres(24)};
  INFO(apart << " m from top to top");
  const Frame frame = frame_about(Metres(320), Metres(5));
  const auto lake_with = [&](double speck) {
    return lake_of(filled(frame, [&](XY at) {
      if (std::hypot(at.x, at.y) >= 300) return static_cast<double>(kLand.value());
      // the taller of the two, so that both circles keep their size
      const double shoals = 6 - std::max(gauss_at(high, at), gauss_at(low, at));
      return distance(at, {-97.5, -97.5}) < Metres(1) ? speck : shoals;
    }));
  };
  const auto hazards = of_kind(detect(lake_with(1.3)), Kind::hazard);
  if (apart < 70) {
    REQUIRE(hazards.size() == 1);
    CHECK(std::get<Polygons>(hazards[0].geometry).size() == 2);
    CHECK(distance(hazards[0].anchor, high.at).value() == Approx(0).margin(1e-6));
  } else {
    CHECK(hazards.size() == 2);
  }
  // a rock of one cell that stands well over the limit is a hazard whatever its size
  CHECK(of_kind(detect(lake_with(1.0)), Kind::hazard).size() == hazards.size() + 1);
}

TEST_CASE("a bar joined to the shore is a hazard where it lies further out than 30 m") {
  Grid<Metres32> values = disc(Metres(300), Metres(6), Metres(5), Metres(30));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY at = values.frame().centre(values.cell_of(i));
    if (values[i].value() > 0 && at.x > 190 && std::abs(at.y) < 10) values[i] = Metres32(0.8F);
  }
  const auto hazards = of_kind(detect(lake_of(values)), Kind::hazard);
  REQUIRE(hazards.size() == 1);
  CHECK(std::get<Structure>(hazards[0].details).depth->value() == Approx(0.8).margin(0.001));
  double east = -1e9, west = 1e9;
  for (const XY at : vertices(hazards[0].geometry)) {
    east = std::max(east, at.x);
    west = std::min(west, at.x);
  }
  CHECK(west == Approx(190).margin(6));
  CHECK(east == Approx(270).margin(8));
}

TEST_CASE("a shelf shallower than the limit is a hazard from 30 m of land on, along that line and not along cells") {
  // a round lake 1 m deep: the shore lies at 200 m, the distance is to the first land centre, 0 to 1 cell further out
  const double cell = GENERATE(2.0, 5.0);
  INFO("cells of " << cell << " m");
  const auto hazards = of_kind(detect(lake_of(disc(Metres(200), Metres(1), Metres(cell), Metres(20)))), Kind::hazard);
  REQUIRE(hazards.size() == 1);
  const auto [low, high] = radii(hazards);
  CHECK(low > 170 - 0.1 * cell);
  CHECK(high < 170 + cell);
  CHECK(std::get<Structure>(hazards[0].details).source_file.empty());
}
