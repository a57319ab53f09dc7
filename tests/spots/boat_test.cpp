// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Where a boat may lie: depths, closures and dangers on lakes with a closed form. Distances are GEOS' own.
#include "spots/boat.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/spots/rank.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

const Phase& summer() { return *phase_named(species("muskellunge"), "summer"); }

Lake ring_lake(Metres basin = Metres(9)) {
  return lake_of(ring_break(Metres(200), Metres(2.5), basin, Metres(20), Metres(330), Metres(5)));
}

std::vector<Spot> spots_with(const Lake& lake, const std::vector<MappedStructure>& structure,
                             const std::vector<MappedClosure>& closures) {
  SpotOptions many;
  many.most = 60;
  return rank_spots(lake, find_features(Ground{lake, {}, {}, {}, structure, closures, {}}, {}), summer(), many).spots;
}

MappedClosure closure(const std::string& kind, Geometry geometry) {
  return {kind, "", "", "", "closed.shp", std::move(geometry), true};
}

bool lies_in(const std::vector<Spot>& spots, const PreparedShape& shape) {
  return std::any_of(spots.begin(), spots.end(), [&](const Spot& spot) { return shape.covers(spot.boat); });
}

bool any_caution(const std::vector<Spot>& spots, const std::string& words) {
  return std::any_of(spots.begin(), spots.end(), [&](const Spot& spot) {
    return std::find(spot.cautions.begin(), spot.cautions.end(), words) != spot.cautions.end();
  });
}

}  // namespace

TEST_CASE("draft, margin and the error of the depths: a hand too little water anywhere, and there is no spot") {
  // the deepest water is 2.9 m all over the basin: the boat floats with 2.89 m asked for and not with 2.91 m
  Lake lake = lake_of(ring_break(Metres(200), Metres(1.2), Metres(2.9), Metres(8), Metres(330), Metres(4)));
  const auto with = [&](Metres draft, Metres error) {
    lake.depth_error = error;
    SpotOptions options;
    options.draft = draft;
    const auto ranked = rank_spots(lake, detect(lake), summer(), options);
    CHECK(ranked.spots.empty() != ranked.why_none.empty());
    return ranked.spots.size();
  };
  CHECK(with(Metres(2.89 - 0.6 - 0.3), Metres(0.3)) > 0);
  CHECK(with(Metres(2.91 - 0.6 - 0.3), Metres(0.3)) == 0);
  CHECK(with(Metres(0.45), Metres(0.5)) > 0);
  CHECK(with(Metres(2.89 - 0.6 - 0.5), Metres(0.5)) > 0);
  CHECK(with(Metres(2.89 - 0.6 - 0.3), Metres(0.5)) == 0);
}

TEST_CASE("no entry and no fishing keep the boat and the cast out; slow water and electric motors are said") {
  const Lake lake = ring_lake();
  const Polygons east{{{{0, -400}, {400, -400}, {400, 400}, {0, 400}, {0, -400}}, {}}};
  const PreparedShape shape{Geometry{east}};
  for (const char* kind : {"no-entry", "no-fishing"}) {
    const auto spots = spots_with(lake, {}, {closure(kind, east)});
    REQUIRE_FALSE(spots.empty());
    CHECK_FALSE(lies_in(spots, shape));
    for (const Spot& spot : spots) CHECK_FALSE(shape.touches({spot.boat, spot.target}));
  }
  const auto slow = spots_with(lake, {}, {closure("no-wake", east)});
  CHECK(lies_in(slow, shape));
  for (const Spot& spot : slow) CHECK(any_caution({spot}, "No wake here.") == shape.covers(spot.boat));
  const auto electric = spots_with(lake, {}, {closure("electric-only", east)});
  CHECK(lies_in(electric, shape));
  for (const Spot& spot : electric) {
    CHECK(any_caution({spot}, "Electric motor only here.") == shape.covers(spot.boat));
  }
}

TEST_CASE("a closure given as a line of buoys or a mark keeps boat and cast away too") {
  const Lake lake = ring_lake();
  const auto open = spots_with(lake, {}, {});
  REQUIRE(open.size() >= 3);
  // across the first cast, and on the second boat
  const XY middle = (open[0].boat + open[0].target) * 0.5;
  const XY along = open[0].target - open[0].boat;
  const Line buoys{middle + XY{-along.y, along.x} * 3, middle - XY{-along.y, along.x} * 3};
  const Points mark{open[1].boat};
  const auto spots = spots_with(lake, {}, {closure("no-entry", Lines{buoys}), closure("no-fishing", mark)});
  REQUIRE_FALSE(spots.empty());
  const PreparedShape line{Geometry{Lines{buoys}}}, point{Geometry{mark}};
  for (const Spot& spot : spots) {
    CHECK_FALSE(line.touches({spot.boat, spot.target}));
    CHECK(line.distance_to(spot.boat) >= Metres(9.9));
    CHECK(point.distance_to(spot.boat) >= Metres(9.9));
    CHECK(distance(mark[0], Line{spot.boat, spot.target}) >= Metres(9.9));
  }
}

TEST_CASE("a danger is named with the distance and the way to its nearest part, not to its middle") {
  const Lake lake = ring_lake();
  // 700 m of old pilings, whose middle is far from nearly everything along it
  const double x = 150, south = -100, north = 600;
  const Line pilings{{x, south}, {x, north}};
  const auto spots = spots_with(lake, {{"hazard", "Old pilings", "", "pilings.shp", Lines{pilings}}}, {});
  const PreparedShape danger{Geometry{Lines{pilings}}};
  int named = 0, unnamed = 0, far_from_middle = 0;
  for (const Spot& spot : spots) {
    const Metres away = danger.distance_to(spot.boat);
    CHECK(away >= Metres(9.9));
    const auto said = std::find_if(spot.cautions.begin(), spot.cautions.end(),
                                   [](const std::string& each) { return each.find("Old pilings") == 0; });
    CHECK((said != spot.cautions.end()) == (away <= Metres(100)));
    (away <= Metres(100) ? named : unnamed) += 1;
    if (said == spot.cautions.end()) continue;
    if (distance(spot.boat, XY{x, (south + north) / 2}) > Metres(100)) ++far_from_middle;
    INFO(*said);
    CHECK(said->find(" lies " + distance_text(away, Units::metric) + " to the ") != std::string::npos);
    // the nearest point of a line that runs north is straight east or west, or its end
    const XY nearest{x, std::clamp(spot.boat.y, south, north)};
    const double bearing =
        geodesic(lake.projection.to_lonlat(spot.boat), lake.projection.to_lonlat(nearest)).bearing.value();
    bool right_way = false;
    for (const double off : {-1.5, 0.0, 1.5}) {  // the words change at a sixteenth of the circle
      const std::string way = compass_words(Degrees(std::fmod(bearing + off + 360, 360)));
      right_way = right_way || said->find(" to the " + way + " of the boat.") != std::string::npos;
    }
    CHECK(right_way);
  }
  CHECK(named > 0);
  CHECK(unnamed > 0);
  CHECK(far_from_middle > 0);
}

TEST_CASE("a basin without any edge is fished on its slope within a lure's reach") {
  // depth 20 (1 - r^2 / R^2): a grade of 13 % at most, no weeds known, so that neither break nor weed line is there
  const Lake lake = lake_of(bowl(Metres(300), Metres(20), Metres(5), Metres(30)));
  const auto features = detect(lake);
  REQUIRE(features.size() == 1);
  REQUIRE(features[0].kind == Kind::pool);
  for (const char* name : {"cold", "early-summer", "summer", "late-autumn"}) {
    const Phase& phase = *phase_named(species("muskellunge"), name);
    const auto spots = rank_spots(lake, features, phase, {}).spots;
    REQUIRE_FALSE(spots.empty());
    for (const Spot& spot : spots) {
      CHECK(spot.target_depth <= Metres(7));
      CHECK(phase.depth(spot.target_depth.value()) > 0.9);
      // what is fished lies 4.5 m short of the landing, at the bowl's own radius for its depth
      const XY fished = spot.target + (spot.boat - spot.target) * (4.5 / spot.cast.value());
      const double depth = 20 * (1 - dot(fished, fished) / (300.0 * 300.0));
      CHECK(spot.target_depth.value() == Approx(depth).margin(0.05));
      CHECK(spot.boat_depth > spot.target_depth);
    }
  }
}

TEST_CASE("where there is nothing to fish within reach, that is said") {
  // 20 m of water up to sheer walls: any cast along the wall lands on land
  const Lake lake = lake_of(disc(Metres(200), Metres(20), Metres(5), Metres(30)));
  const auto walls = rank_spots(lake, detect(lake), summer(), {});
  CHECK(walls.spots.empty());
  CHECK(walls.why_none.find("cast at") != std::string::npos);
  const auto nothing = rank_spots(lake, {}, summer(), {});
  CHECK(nothing.spots.empty());
  CHECK(nothing.why_none.find("reach, 7.0 m") != std::string::npos);
}

TEST_CASE("no lure runs into what rises along its retrieve") {
  // a ring-shaped bar of 1.8 m of water between the deep side and the break, where a straight cast would cross it
  const Lake lake = lake_of(filled(frame_about(Metres(350), Metres(3)), [](XY at) {
    const double r = std::hypot(at.x, at.y);
    if (r >= 330) return static_cast<double>(kLand.value());
    const double floor = 2.5 + 6.5 * std::clamp((206 - r) / 12, 0.0, 1.0);
    return std::min(floor, 1.8 + std::abs(r - 193) * 2.0);
  }));
  const auto spots = spots_with(lake, {}, {});
  REQUIRE_FALSE(spots.empty());
  int over_the_bar = 0;
  for (const Spot& spot : spots) {
    double least = 1e9;
    for (double share = 0; share <= 1; share += 0.01) {
      least = std::min(least, static_cast<double>(bilinear(lake.depth, spot.boat + (spot.aim - spot.boat) * share)));
    }
    over_the_bar += least < spot.target_depth.value() - 0.5 ? 1 : 0;
    for (const Presentation& each : spot.presentations) CHECK(each.run_to.value() <= least - 0.1);
  }
  CHECK(over_the_bar == 0);  // there is room beside it
}

TEST_CASE("the room for a lure: over the floor, and over plants the upper half of the water") {
  // depth 9 (1 - r^2 / R^2), plants to 4.5 m; half of the water is design, since nobody sounds the height of plants
  const Lake lake = lake_of(bowl(Metres(300), Metres(9), Metres(5), Metres(30)));
  const auto features = detect(lake, WeedKnowledge{Metres(4.5), WeedSource::predicted});
  const SpotOptions options;
  const Surroundings surroundings(lake, features, options.reach);
  const BoatFinder boats(lake, features, surroundings, options);
  const auto depth = [](double r) { return 9 * (1 - r * r / 9e4); };
  CHECK(boats.room_for_lure({150, 0}, {200, 0}).value() == Approx(depth(200)).margin(0.02));
  CHECK(boats.room_for_lure({150, 0}, {240, 0}).value() == Approx(depth(240) / 2).margin(0.02));
  CHECK(boats.floor_between({150, 0}, {240, 0}).value() == Approx(depth(240)).margin(0.02));
  // over the middle and up the other side
  CHECK(boats.floor_between({-200, 0}, {150, 0}).value() == Approx(depth(200)).margin(0.02));
}

TEST_CASE("a figure-eight has room about the boat where the lake has it") {
  for (const Spot& spot : spots_with(ring_lake(), {}, {})) {
    for (int i = 0; i < 16; ++i) {
      const XY about = offset(spot.boat, Degrees(i * 22.5), Metres(3.5));
      CHECK(bilinear(ring_lake().depth, about) >= 1.2F);
    }
  }
}

TEST_CASE("of places that serve a target alike, the one whose fan of casts passes more") {
  // a straight wall that runs north with even water on its deep side: every direction and length is worth the same
  const Lake lake = lake_of(filled(frame_about(Metres(200), Metres(4)), [](XY at) {
    if (std::abs(at.x) > 180 || std::abs(at.y) > 180) return static_cast<double>(kLand.value());
    return at.x < -4 ? 3.0 : at.x > 4 ? 9.0 : 3 + 6 * (at.x + 4) / 8;
  }));
  for (const double north : {14.0, -14.0}) {
    // out of a cast's reach for who lies straight out from the target
    const std::vector<MappedStructure> rocks{{"rock", "", "", "r.shp", Points{{-8, north}}},
                                             {"wood", "", "", "w.shp", Points{{-9, north}}}};
    const auto features = find_features(Ground{lake, {}, {}, {}, rocks, {}, {}}, {});
    const auto edge =
        std::find_if(features.begin(), features.end(), [](const Feature& each) { return each.kind == Kind::drop_off; });
    REQUIRE(edge != features.end());
    const SpotOptions options;
    const Surroundings surroundings(lake, features, options.reach);
    const BoatFinder boats(lake, features, surroundings, options);
    const auto place = boats.best(Target{&*edge, {0, 0}, Metres(6), {}, {}, 0, {}, 0});
    REQUIRE(place);
    CHECK(place->boat_depth > Metres(8.9));  // the deep side still counts for more
    CHECK(place->boat.y * north > 0);        // towards it, so that it comes within 25 m
    CHECK(surroundings.in_fan(place->boat, unit(XY{} - place->boat), options.cast_to).kinds == 3);
  }
}
