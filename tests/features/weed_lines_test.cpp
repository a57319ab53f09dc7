// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

const auto kBowl = [] { return lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50))); };

}  // namespace

TEST_CASE("the weed line of a bowl is the circle of its depth") {
  const auto lines = edges_of(detect(kBowl(), WeedKnowledge{Metres(4), WeedSource::predicted}), WeedEdge::outside);
  const double radius = 400 * std::sqrt(1 - 4.0 / 20);  // depth 4 of 20 (1 - r^2 / 400^2)
  CHECK(total_length<WeedLine>(lines) == Approx(2 * M_PI * radius).epsilon(0.002));
  const auto [low, high] = radii(lines);
  CHECK(low == Approx(radius).margin(1));
  CHECK(high == Approx(radius).margin(1));
  // slope 2 D r / R^2 = 8.94 %: (20 - 8.94) / 15 of the plants stand
  const double slope = 200 * 20 * radius / (400 * 400);
  for (const Feature& each : lines) {
    const auto& edge = std::get<WeedLine>(each.details);
    CHECK(edge.depth == Metres(4));
    CHECK(edge.edge == WeedEdge::outside);
    CHECK(edge.length <= Metres(300.5));
    CHECK(edge.density == Approx((20 - slope) / 15).margin(0.02));
    CHECK(edge.lowered_by == std::vector{WeedLoss::steepness});
    CHECK(edge.not_assessed == std::vector{WeedLoss::rock, WeedLoss::level_swing});  // neither was given
    CHECK_FALSE(edge.at_break);
    CHECK_FALSE(edge.depth_low);
    CHECK(edge.gaps.empty());
    CHECK((edge.points.empty() && edge.turns.empty()));
  }
}

TEST_CASE("a weed line round a square is cut at its corners, and a mapped bed's edge too") {
  // the floor falls by 5 % from each side of a square of 600 m: 4 m of water lie 80 m inside, 440 m a side
  const Lake lake = lake_of(filled(frame_about(Metres(320), Metres(5)), [](XY at) {
    const double out = std::max(std::abs(at.x), std::abs(at.y));
    return out > 300 ? static_cast<double>(kLand.value()) : 0.05 * (300 - out);
  }));
  const auto goes_straight = [](const Feature& each) {
    const Line& line = std::get<Lines>(each.geometry).front();
    const Metres along = std::get<WeedLine>(each.details).length;
    CHECK(along <= Metres(300.5));
    if (along > Metres(100)) CHECK(distance(line.front(), line.back()) > along * 0.95);
    return along.value();
  };
  const auto lines = edges_of(detect(lake, WeedKnowledge{Metres(4), WeedSource::predicted}), WeedEdge::outside);
  double whole = 0;
  for (const Feature& each : lines) whole += goes_straight(each);
  CHECK(whole == Approx(4 * 440).epsilon(0.02));
  // a bed that fills the north-east quarter down to 4 m: its deep edge turns one corner, its shallow edge the other
  const Ring ring{{0, 0}, {220, 0}, {220, 220}, {0, 220}, {0, 0}};
  const MappedStructure bed{"weeds", "", "", "beds.shp", Polygons{{ring, {}}}};
  const auto with_bed = detect(lake, WeedKnowledge{Metres(4), WeedSource::predicted}, {&bed, 1});
  int mapped = 0;
  for (const Feature& each : of_kind(with_bed, Kind::weed_line)) {
    if (std::get<WeedLine>(each.details).source != WeedSource::mapped) continue;
    ++mapped;
    goes_straight(each);
  }
  CHECK(mapped >= 4);
}

TEST_CASE("without a weed depth there is no weed line, and below the lake's depth none either") {
  CHECK(of_kind(detect(kBowl()), Kind::weed_line).empty());
  CHECK(edges_of(detect(kBowl(), WeedKnowledge{Metres(25), WeedSource::predicted}), WeedEdge::outside).empty());
}

TEST_CASE("a mapped bed wins: its edges face deep and shallow, and expected edges beside it are dropped") {
  // a strip of bed along the east shore of the bowl, between 2 and 3.5 m of water
  const auto radius = [](double depth) { return 400 * std::sqrt(1 - depth / 20); };
  Ring ring;
  for (int i = -20; i <= 20; ++i) ring.push_back(XY{std::cos(i * 0.02), std::sin(i * 0.02)} * radius(2.0));
  for (int i = 20; i >= -20; --i) ring.push_back(XY{std::cos(i * 0.02), std::sin(i * 0.02)} * radius(3.5));
  ring.push_back(ring.front());
  const MappedStructure bed{"weeds", "", "", "beds.shp", Polygons{{ring, {}}}};
  const Lake lake = kBowl();
  const auto all = detect(lake, WeedKnowledge{Metres(4), WeedSource::predicted}, {&bed, 1});
  double outside = 0, inside = 0, expected = 0;
  for (const Feature& each : of_kind(all, Kind::weed_line)) {
    const auto& edge = std::get<WeedLine>(each.details);
    if (edge.source == WeedSource::predicted) {
      CHECK(PreparedShape(bed.geometry).distance_to(each.anchor) > Metres(39));
      if (edge.edge == WeedEdge::inside) continue;
      expected += edge.length.value();
      CHECK(each.confidence < 0.6);
      continue;
    }
    CHECK(each.confidence > 0.8);
    (edge.edge == WeedEdge::outside ? outside : inside) += edge.length.value();
    CHECK(edge.depth.value() == Approx(edge.edge == WeedEdge::outside ? 3.5 : 2.0).margin(0.3));
  }
  CHECK(outside == Approx(0.8 * radius(3.5)).epsilon(0.1));
  CHECK(inside == Approx(0.8 * radius(2.0)).epsilon(0.1));
  // the expected circle less the bed's sector and 40 m to each side
  CHECK(expected == Approx((2 * M_PI - 0.8) * radius(4) - 80).epsilon(0.02));
}

TEST_CASE("weed lines end at the unknown") {
  Grid<Metres32> values = bowl(Metres(400), Metres(20), Metres(5), Metres(50));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values.frame().centre(values.cell_of(i)).x > 0) values[i] = kUnknown;
  }
  const auto all = detect(lake_of(values), WeedKnowledge{Metres(4), WeedSource::predicted});
  // what the wind does cannot be told: nothing is said of it, and no inside edge is drawn
  CHECK(edges_of(all, WeedEdge::inside).empty());
  const auto lines = edges_of(all, WeedEdge::outside);
  // half the circle, less half a cell at each end
  CHECK(total_length<WeedLine>(lines) == Approx(M_PI * 400 * std::sqrt(0.8) - 5).epsilon(0.005));
  for (const Feature& each : lines) {
    for (const XY at : vertices(each.geometry)) CHECK(at.x <= 0);
    CHECK(std::get<WeedLine>(each.details).not_assessed.front() == WeedLoss::scour);
  }
}

TEST_CASE("what was seen is trusted more than what was fitted, and that more than what is expected") {
  const auto confidence = [](WeedSource source) {
    return of_kind(detect(kBowl(), WeedKnowledge{Metres(4), source}), Kind::weed_line).at(0).confidence;
  };
  CHECK(confidence(WeedSource::observed) > confidence(WeedSource::fitted));
  CHECK(confidence(WeedSource::fitted) > confidence(WeedSource::predicted));
}
