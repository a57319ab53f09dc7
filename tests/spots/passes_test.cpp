// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Lanes past edges, on lakes whose edges are straight lines and circles. Lengths are PROJ's geodesics, crossings and
// distances GEOS' own.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numbers>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/spots/rank.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

const Phase& summer() { return *phase_named(species("muskellunge"), "summer"); }

/// A long lake with walls about a straight ramp from 3 m to 9 m over 12 m, which runs north; deep water to the east.
double wall_depth(XY at) {
  if (std::abs(at.x) > 120 || std::abs(at.y) > 240) return static_cast<double>(kLand.value());
  return 3 + 6 * std::clamp((at.x + 6) / 12, 0.0, 1.0);
}

Lake lake_like(const std::function<double(XY)>& depth) {
  return lake_of(filled(frame_about(Metres(280), Metres(4)), depth));
}

std::vector<Pass> passes_of(const Lake& lake, const std::vector<Feature>& features, const SpotOptions& options = {},
                            const Phase& phase = summer()) {
  return rank_spots(lake, features, phase, options).passes;
}

Lines shore_lines(const Lake& lake) {
  Lines lines;
  for (const Polygon& polygon : lake.outline) {
    lines.push_back(polygon.outer);
    lines.insert(lines.end(), polygon.holes.begin(), polygon.holes.end());
  }
  return lines;
}

LonLat to_6(LonLat place) {
  const auto rounded = [](double degrees) { return std::round(degrees * 1e6) / 1e6; };
  return {{rounded(place.lon.degrees)}, {rounded(place.lat.degrees)}};
}

double geodesic_length(const Lake& lake, const Line& lane) {
  double sum = 0;
  for (std::size_t i = 1; i < lane.size(); ++i) {
    sum += geodesic(to_6(lake.projection.to_lonlat(lane[i - 1])), to_6(lake.projection.to_lonlat(lane[i])))
               .distance.value();
  }
  return sum;
}

/// What holds of any pass on any lake.
void hold_to_rules(const Lake& lake, const std::vector<Feature>& features, const std::vector<Pass>& passes,
                   const SpotOptions& options = {}) {
  const PreparedShape water{Geometry{lake.outline}};
  const PreparedShape shores{Geometry{shore_lines(lake)}};
  for (std::size_t i = 0; i < passes.size(); ++i) {
    const Pass& pass = passes[i];
    INFO(pass.id);
    CHECK(pass.rank == static_cast<int>(i) + 1);
    if (i > 0) CHECK(pass.score <= passes[i - 1].score);
    REQUIRE(pass.lane.size() >= 2);
    CHECK(pass.length.value() == Approx(geodesic_length(lake, pass.lane)).margin(0.005));
    CHECK(pass.length >= Metres(59.5));
    CHECK(pass.casts == 1 + static_cast<int>(pass.length.value() / 10));
    // 30 s overhead a cast, 0.8 m/s, or 0.5 m/s in cold water: common practice, no source
    const double least = pass.casts * (30 + pass.cast.first.value() / 0.8) / 60;
    const double most = pass.casts * (30 + pass.cast.second.value() / 0.5) / 60;
    CHECK(pass.minutes >= std::floor(least));
    CHECK(pass.minutes <= std::ceil(most));
    double product = 1, weights = 0;
    for (const Reason& reason : pass.why) {
      product *= std::pow(reason.suitability, reason.weight);
      weights += reason.weight;
    }
    CHECK(pass.score == Approx(product).margin(2e-6));
    CHECK(weights == Approx(1).margin(1e-9));
    CHECK_FALSE(shores.touches(pass.lane));
    CHECK(pass.cast.first >= options.cast_from);
    CHECK(pass.cast.second <= options.cast_to);
    CHECK(pass.cast.first <= pass.cast.second);
    double shallowest = 1e9, deepest = 0;
    for (const XY at : resampled(pass.lane, Metres(0.5))) {
      const double depth = bilinear(lake.depth, at);
      shallowest = std::min(shallowest, depth);
      deepest = std::max(deepest, depth);
      CHECK(cover_at(lake, at) == Cover::water);
      CHECK(shores.distance_to(at) >= Metres(9.8));
    }
    // draft 0.45 + margin 0.6 + assumed error 0.3
    CHECK(shallowest >= 1.35);
    CHECK(pass.boat_depth.first.value() == Approx(shallowest).margin(0.02));
    CHECK(pass.boat_depth.second.value() == Approx(deepest).margin(0.02));
    for (const Feature& feature : features) {
      const auto* closure = std::get_if<Closure>(&feature.details);
      if (closure != nullptr && closure->active && closure->kind == ClosureKind::no_entry) {
        CHECK_FALSE(PreparedShape(feature.geometry).touches(pass.lane));
      }
      if (feature.kind != Kind::hazard) continue;
      const PreparedShape danger(feature.geometry);
      for (const XY at : resampled(pass.lane, Metres(2))) CHECK(danger.distance_to(at) >= Metres(9.9));
    }
    CHECK_FALSE(pass.reason_words.empty());
    CHECK(pass.kinds.front() == std::find_if(features.begin(), features.end(), [&](const Feature& each) {
                                  return each.id == pass.feature_ids.front();
                                })->kind);
  }
}

const Feature& feature_of(const std::vector<Feature>& features, const Pass& pass) {
  return *std::find_if(features.begin(), features.end(),
                       [&](const Feature& each) { return each.id == pass.feature_ids.front(); });
}

}  // namespace

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

TEST_CASE("lanes go into the wind from wherever it blows; without one the better half comes first") {
  const Lake lake = lake_of(ring_break(Metres(200), Metres(3), Metres(9), Metres(14), Metres(330), Metres(4)));
  const MappedStructure wood{"wood", "", "", "wood.shp", Points{{0, 205}, {60, 196}}};
  const auto features = detect(lake, {}, {&wood, 1});
  SpotOptions options;
  options.most = 40;
  const auto calm = passes_of(lake, features, options);
  for (double from = 5; from < 360; from += 45) {
    options.wind = Wind{MetresPerSecond(5), MetresPerSecond(7), Degrees(from)};
    const auto windy = passes_of(lake, features, options);
    REQUIRE(windy.size() == calm.size());
    for (const Pass& pass : windy) {
      CHECK(std::cos((pass.heading.value() - from) * std::numbers::pi / 180) > 0);
      const auto same = std::find_if(calm.begin(), calm.end(), [&](const Pass& each) { return each.id == pass.id; });
      REQUIRE(same != calm.end());
      Line lane = pass.lane;
      if (lane.front() != same->lane.front()) std::reverse(lane.begin(), lane.end());
      CHECK(lane == same->lane);
      CHECK((pass.cast_side == same->cast_side) == (pass.lane == same->lane));
    }
  }
  // the wood lies at the north of the ring, so who works without a wind begins nearer to it than he ends
  int towards = 0, away = 0;
  for (const Pass& pass : calm) {
    if (std::find(pass.kinds.begin(), pass.kinds.end(), Kind::wood) == pass.kinds.end()) continue;
    const Points wood_at{{0, 205}, {60, 196}};
    const auto to_wood = [&](XY at) { return std::min(distance(at, wood_at[0]), distance(at, wood_at[1])); };
    (to_wood(pass.lane.front()) <= to_wood(pass.lane.back()) ? away : towards) += 1;
  }
  CHECK(away > 0);
  CHECK(away > towards);
}

TEST_CASE("closures, dangers and shallow water end a lane") {
  const Lake lake = lake_like(wall_depth);
  const auto with = [&](const std::vector<MappedStructure>& structure, const std::vector<MappedClosure>& closures) {
    const auto features = find_features(Ground{lake, {}, {}, {}, structure, closures, {}}, {});
    const auto passes = passes_of(lake, features);
    hold_to_rules(lake, features, passes);
    double length = 0;
    for (const Pass& pass : passes) length += pass.length.value();
    return length;
  };
  const double open = with({}, {});
  // across the lane from y = -20 to 60: neither the lane nor a cast goes there
  const Polygons closed{{{{-100, -20}, {100, -20}, {100, 60}, {-100, 60}, {-100, -20}}, {}}};
  for (const char* kind : {"no-entry", "no-fishing"}) {
    const double left = with({}, {{kind, "", "", "", "closed.shp", closed, true}});
    CHECK(left < open - 79);
    CHECK(left > open - 140);
  }
  CHECK(with({}, {{"no-entry", "", "", "", "closed.shp", closed, false}}) == Approx(open));
  const double past_piling = with({{"hazard", "Piling", "", "pilings.shp", Points{{18, 100}}}}, {});
  CHECK(past_piling < open - 9);
  // a bar of 1 m of water across the deep side
  const Lake barred = lake_like([](XY at) {
    const double depth = wall_depth(at);
    return at.x > 0 && at.y > 90 && at.y < 110 ? std::min(depth, 1.0) : depth;
  });
  const auto features = detect(barred);
  const auto passes = passes_of(barred, features);
  hold_to_rules(barred, features, passes);
  const PreparedShape bar{Geometry{Polygons{{{{0, 92}, {120, 92}, {120, 108}, {0, 108}, {0, 92}}, {}}}}};
  for (const Pass& pass : passes) CHECK_FALSE(bar.touches(pass.lane));
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

TEST_CASE("over clear layered water, open-water passes go past weeds and humps, away from them, with low confidence") {
  // a bowl of 16 m with weeds to 5 m; the thermocline lies at 6 m
  const Lake lake = lake_of(bowl(Metres(260), Metres(16), Metres(4), Metres(30)));
  const auto features = detect(lake, WeedKnowledge{Metres(5), WeedSource::predicted});
  SpotOptions options;
  options.most = 40;
  const auto open_of = [&](const SpotOptions& with) {
    auto passes = passes_of(lake, features, with);
    hold_to_rules(lake, features, passes, with);
    std::erase_if(passes, [](const Pass& pass) { return !pass.open_water; });
    return passes;
  };
  CHECK(open_of(options).empty());
  options.open_water = SpotOptions::OpenWater{Metres(6), Metres(4)};
  CHECK(open_of(options).empty());  // clear is over 4 m
  options.open_water->secchi = Metres(4.5);
  const auto open = open_of(options);
  REQUIRE_FALSE(open.empty());
  CHECK(open.size() <= 2);
  SpotOptions few = options;
  few.most = 1;
  CHECK(open_of(few).size() == open.size());  // they come besides those asked for
  for (const Pass& pass : open) {
    CHECK(pass.confidence <= 0.3);
    CHECK(pass.target_depth.second < Metres(6));
    CHECK(pass.target_depth.first >= Metres(0.5));
    CHECK(pass.target_depth.first < pass.target_depth.second);
    REQUIRE_FALSE(pass.presentations.empty());
    for (const Presentation& each : pass.presentations) {
      CHECK(each.run_to >= pass.target_depth.first);
      CHECK(each.run_to <= pass.target_depth.second);
      CHECK(each.run_from <= each.run_to);
    }
    CHECK(std::any_of(pass.cautions.begin(), pass.cautions.end(),
                      [](const std::string& each) { return each.rfind("Low confidence", 0) == 0; }));
    // cast towards the middle: to the left of who goes round anticlockwise
    double turn = 0;
    for (std::size_t i = 1; i < pass.lane.size(); ++i) turn += cross(pass.lane[i - 1], pass.lane[i]);
    CHECK(pass.cast_side == (turn > 0 ? Side::left : Side::right));
  }
  // no deeper water than the thermocline: nothing hangs over it
  options.open_water->thermocline = Metres(15.8);
  CHECK(open_of(options).empty());
}

TEST_CASE("a phase that is not fishable has no pass; neither has a lake without room for one") {
  const Lake lake = lake_like(wall_depth);
  const auto features = detect(lake);
  for (const char* name : {"spawn", "heat-stop"}) {
    CHECK(passes_of(lake, features, {}, *phase_named(species("muskellunge"), name)).empty());
  }
  CHECK(passes_of(lake, {}).empty());
  const Lake shallow = lake_of(disc(Metres(200), Metres(1.2), Metres(5), Metres(30)));
  CHECK(passes_of(shallow, detect(shallow, WeedKnowledge{Metres(1), WeedSource::predicted})).empty());
  const Lake one_cell = lake_of(disc(Metres(4), Metres(5), Metres(5), Metres(30)));
  CHECK(passes_of(one_cell, detect(one_cell)).empty());
  SpotOptions none;
  none.most = 0;
  CHECK(passes_of(lake, features, none).empty());
}

TEST_CASE("passes are the same at one and two threads, and asking for fewer gives the first of them") {
  const Lake lake = lake_of(ring_break(Metres(200), Metres(3), Metres(9), Metres(14), Metres(330), Metres(4)));
  const auto features = detect(lake, WeedKnowledge{Metres(4), WeedSource::predicted});
  set_threads(1);
  const auto one = passes_of(lake, features);
  set_threads(2);
  const auto two = passes_of(lake, features);
  set_threads(0);
  REQUIRE_FALSE(one.empty());
  REQUIRE(one.size() == two.size());
  SpotOptions few;
  few.most = 3;
  const auto first = passes_of(lake, features, few);
  CHECK(first.size() == std::min<std::size_t>(3, one.size()));
  for (std::size_t i = 0; i < one.size(); ++i) {
    CHECK(one[i].id == two[i].id);
    CHECK(one[i].lane == two[i].lane);
    CHECK(one[i].score == two[i].score);
    if (i < first.size()) CHECK(first[i].id == one[i].id);
  }
}
