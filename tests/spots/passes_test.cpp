// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Lanes past edges, on lakes whose edges are straight lines and circles. Lengths are PROJ's geodesics, crossings and
// distances GEOS' own.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "spots/passing.hpp"

using namespace castplan;
using namespace castplan::lakes;

TEST_CASE("a straight wall has straight lanes beside it, on the deep side, at one distance, cast to at the wall") {
  const Lake lake = lake_like(wall_depth);
  const auto features = detect(lake);
  const auto passes = passes_of(lake, features);
  hold_to_rules(lake, features, passes);
  REQUIRE_FALSE(passes.empty());
  double covered = 0;
  for (const Pass& pass : passes) {
    REQUIRE(feature_of(features, pass).kind == Kind::drop_off);
    const PreparedShape edge(feature_of(features, pass).geometry);
    const double away = edge.distance_to(pass.lane.front()).value();
    CHECK(away >= 12 - 4.5);
    CHECK(away <= 25 - 4.5);
    for (const XY at : pass.lane) {
      // places are printed to 0.11 m, the edge is straightened by a metre and the lane by half of one
      CHECK(edge.distance_to(at).value() == Approx(away).margin(0.6));
      CHECK(at.x == Approx(pass.lane.front().x).margin(0.6));
      CHECK(at.x > 6);
      CHECK(at.x < 30);
    }
    const double north = pass.lane.back().y - pass.lane.front().y;
    CHECK(pass.length.value() == Approx(std::abs(north)).margin(0.3));
    CHECK(pass.cast_side == (north > 0 ? Side::left : Side::right));  // the wall lies to the west
    CHECK(pass.boat_depth.first.value() == Approx(9).margin(0.01));
    covered += std::abs(north);
  }
  // from wall to wall it is 480 m, of which a cast's room and the clearance of 10 m stay free at both ends
  CHECK(covered > 400);
  CHECK(covered <= 460);
}

TEST_CASE("a ring has lanes round it") {
  const double radius = 200;
  const Lake lake = lake_of(ring_break(Metres(radius), Metres(3), Metres(9), Metres(14), Metres(330), Metres(4)));
  const auto features = detect(lake);
  SpotOptions many;
  many.most = 40;
  const auto passes = passes_of(lake, features, many);
  hold_to_rules(lake, features, passes);
  double turned = 0;
  for (const Pass& pass : passes) {
    double low = 1e9, high = 0;
    for (const XY at : resampled(pass.lane, Metres(1))) {
      low = std::min(low, std::hypot(at.x, at.y));
      high = std::max(high, std::hypot(at.x, at.y));
    }
    CHECK(high < radius - 6);
    CHECK(low > radius - 25);
    CHECK(high - low < 4);  // two tolerances, and a cell's noise of where the break is
    // the ring lies outside: to the right of who goes round anticlockwise
    double turn = 0;
    for (std::size_t i = 1; i < pass.lane.size(); ++i) turn += cross(pass.lane[i - 1], pass.lane[i]);
    CHECK(pass.cast_side == (turn > 0 ? Side::right : Side::left));
    turned += pass.length.value() / ((low + high) / 2);
  }
  CHECK(turned > 0.85 * 2 * std::numbers::pi);
  CHECK(turned < 1.02 * 2 * std::numbers::pi);
}

TEST_CASE("the side that is cast to is the side where the edge lies, by the cross product at every step of the lane") {
  const Lake lake = lake_of(ring_break(Metres(200), Metres(3), Metres(9), Metres(14), Metres(330), Metres(4)));
  const auto features = detect(lake, WeedKnowledge{Metres(4), WeedSource::predicted});
  SpotOptions many;
  many.most = 40;
  for (const Pass& pass : passes_of(lake, features, many)) {
    const Geometry& edge = feature_of(features, pass).geometry;
    const Points on_edge = vertices(edge);
    const Line lane = resampled(pass.lane, Metres(3));
    for (std::size_t i = 1; i < lane.size(); ++i) {
      const XY nearest = *std::min_element(on_edge.begin(), on_edge.end(),
                                           [&](XY a, XY b) { return distance(a, lane[i]) < distance(b, lane[i]); });
      if (distance(nearest, lane[i]) > Metres(30)) continue;
      const double side = cross(lane[i] - lane[i - 1], nearest - lane[i]);
      CHECK((side > 0) == (pass.cast_side == Side::left));
    }
  }
}

TEST_CASE("a lake turned by a right angle or mirrored has the same lanes, turned or mirrored") {
  // a bent wall, so that lanes differ, and weeds
  const auto bent = [](XY at) {
    const double r = std::hypot(at.x * 0.8 + 20, at.y);
    if (r > 250) return static_cast<double>(kLand.value());
    const double edge = 150 + 25 * std::sin(3 * std::atan2(at.y, at.x));
    return 3 + 6 * std::clamp((edge - r) / 14 + 0.5, 0.0, 1.0);
  };
  struct Way {
    const char* what;
    std::function<XY(XY)> of;  // its own inverse, or a turn whose inverse is not needed
    bool mirrors;
  };
  SpotOptions options;
  options.most = 40;
  const Lake plain = lake_like(bent);
  const auto passes = passes_of(plain, detect(plain), options);
  REQUIRE(passes.size() >= 3);
  double length = 0;
  for (const Pass& pass : passes) length += pass.length.value();
  for (const Way& way : {Way{"turned",
                             [](XY at) {
                               return XY{at.y, -at.x};
                             },
                             false},
                         Way{"mirrored",
                             [](XY at) {
                               return XY{-at.x, at.y};
                             },
                             true}}) {
    INFO(way.what);
    const Lake lake = lake_like([&](XY at) { return bent(way.of(at)); });
    const auto others = passes_of(lake, detect(lake), options);
    double other_length = 0;
    for (const Pass& pass : others) other_length += pass.length.value();
    // where an edge is cut depends on where it begins, so the pieces are held together, not one by one
    CHECK(other_length == Approx(length).epsilon(0.06));
    CHECK(others.front().score == Approx(passes.front().score).margin(0.03));
    Lines lanes;
    for (const Pass& pass : passes) lanes.push_back(pass.lane);
    const PreparedShape all{Geometry{lanes}};
    std::size_t near = 0, count = 0;
    for (const Pass& pass : others) {
      for (const XY at : resampled(pass.lane, Metres(5))) {
        near += all.distance_to(way.of(at)) < Metres(4) ? 1 : 0;
        ++count;
      }
    }
    CHECK(static_cast<double>(near) > 0.9 * static_cast<double>(count));
  }
}
