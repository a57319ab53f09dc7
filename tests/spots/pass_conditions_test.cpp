// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// What passes come of wind, closures, dangers, clear water and none of these.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "castplan/grid/sweep.hpp"
#include "spots/passing.hpp"

using namespace castplan;
using namespace castplan::lakes;

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
