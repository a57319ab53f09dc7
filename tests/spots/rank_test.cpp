// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/spots/rank.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <numeric>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

/// A lake with a ring-shaped break, wood and rock on it, a weed edge, a closure and a shoal: something of everything.
struct Scene {
  Lake lake;
  std::vector<MappedStructure> structure;
  std::vector<MappedClosure> closures;
  std::vector<Feature> features;
};

Scene scene(bool closure_active = true) {
  Scene made;
  Grid<Metres32> values = ring_break(Metres(250), Metres(2.5), Metres(9), Metres(20), Metres(420), Metres(5));
  const Frame frame = values.frame();
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY at = frame.centre(values.cell_of(i));
    // the shelf rises to the shore, and a shoal stands on it
    const double r = std::hypot(at.x, at.y);
    if (r > 300 && r < 420) values[i] = Metres32(static_cast<float>(2.5 * (421 - r) / 121));
    if (distance(at, {0, 275}) < Metres(12)) values[i] = Metres32(0.4F);
  }
  made.lake = lake_of(std::move(values));
  made.structure = {{"wood", "", "", "wood.shp", Points{{240, 40}}},
                    {"wood", "", "", "wood.shp", Lines{{{-250, -20}, {-235, -10}}}},
                    {"rock", "", "", "rock.shp", Points{{170, 170}, {175, 172}}}};
  made.closures = {{"no-entry", "", "", "", "closed.shp",
                    Polygons{{{{-300, -300}, {0, -300}, {0, -150}, {-300, -150}, {-300, -300}}, {}}}, closure_active}};
  made.features = find_features(
      Ground{made.lake, {}, {}, WeedKnowledge{Metres(4), WeedSource::predicted}, made.structure, made.closures, {}},
      {});
  return made;
}

const Phase& summer() { return *phase_named(species("muskellunge"), "summer"); }

PhaseSpots spots_of(const Scene& scene, const SpotOptions& options = {}) {
  return rank_spots(scene.lake, scene.features, summer(), options);
}

Lines shore_lines(const Lake& lake) {
  Lines lines;
  for (const Polygon& polygon : lake.outline) {
    lines.push_back(polygon.outer);
    lines.insert(lines.end(), polygon.holes.begin(), polygon.holes.end());
  }
  return lines;
}

}  // namespace

TEST_CASE("a score is the product of what stands beside it") {
  const auto ranked = spots_of(scene());
  REQUIRE(ranked.spots.size() >= 5);
  for (const Spot& spot : ranked.spots) {
    double product = 1, weights = 0;
    for (const Reason& reason : spot.why) {
      product *= std::pow(reason.suitability, reason.weight);
      weights += reason.weight;
      CHECK(reason.suitability >= 0);
      CHECK(reason.suitability <= 1);
      CHECK_FALSE(reason.source.empty());
    }
    CHECK(spot.score == Approx(product).margin(2e-6));
    CHECK(weights == Approx(1).margin(1e-9));
  }
}

TEST_CASE("ranks run from 1, best first") {
  const auto ranked = spots_of(scene());
  for (std::size_t i = 0; i < ranked.spots.size(); ++i) {
    CHECK(ranked.spots[i].rank == static_cast<int>(i) + 1);
    if (i > 0) CHECK(ranked.spots[i].score <= ranked.spots[i - 1].score);
  }
}

TEST_CASE("the cast is the geodesic between the printed places") {
  // PROJ's geodesics; 0.5 m and 0.5 degrees
  const Scene made = scene();
  for (const Spot& spot : spots_of(made).spots) {
    const Geodesic cast =
        geodesic(made.lake.projection.to_lonlat(spot.boat), made.lake.projection.to_lonlat(spot.target));
    CHECK(cast.distance.value() == Approx(spot.cast.value()).margin(0.5));
    CHECK(std::abs(std::remainder(cast.bearing.value() - spot.bearing.value(), 360.0)) < 0.5);
    CHECK(spot.cast >= Metres(12));
    CHECK(spot.cast <= Metres(25));
  }
}

TEST_CASE("the boat floats, and the cast flies over open water alone") {
  const Scene made = scene();
  const PreparedShape water{Geometry{made.lake.outline}};
  const PreparedShape shores{Geometry{shore_lines(made.lake)}};
  for (const Spot& spot : spots_of(made).spots) {
    // draft 0.45 + margin 0.6 + assumed error 0.3
    CHECK(bilinear(made.lake.depth, spot.boat) >= 1.35F);
    CHECK(spot.boat_depth.value() == Approx(bilinear(made.lake.depth, spot.boat)).margin(0.006));
    CHECK(water.covers(spot.boat));
    CHECK(water.covers(spot.target));
    CHECK_FALSE(shores.touches({spot.boat, spot.target}));
    CHECK(bilinear(made.lake.depth, spot.target) > 0);
    for (double share = 0; share <= 1; share += 0.02) {
      CHECK(cover_at(made.lake, spot.boat + (spot.target - spot.boat) * share) == Cover::water);
    }
  }
}

TEST_CASE("the lure lands 3 to 6 m past what is fished, and the strike is said along the retrieve") {
  const Scene made = scene();
  for (const Spot& spot : spots_of(made).spots) {
    const auto [from, to] = spot.strike;
    CHECK(from >= Metres(1));
    CHECK(from < to);
    CHECK(to <= spot.cast);
    // somewhere 3 to 6 m short of the landing the floor has the depth that is said to be fished
    double nearest = 1e9;
    for (double past = 3; past <= 6; past += 0.05) {
      const XY at = spot.target + (spot.boat - spot.target) * (past / spot.cast.value());
      nearest = std::min(nearest, std::abs(bilinear(made.lake.depth, at) - spot.target_depth.value()));
    }
    CHECK(nearest < 0.05);
    CHECK(spot.target_depth <= Metres(7));
  }
}

TEST_CASE("closures and dangers keep the boat out, and only active ones do") {
  const Scene made = scene();
  const auto& closed = std::get<Polygons>(made.closures[0].geometry);
  const PreparedShape closure{Geometry{closed}};
  SpotOptions many;
  many.most = 60;
  const auto spots = spots_of(made, many).spots;
  int hazards = 0;
  for (const Feature& feature : made.features) hazards += feature.kind == Kind::hazard ? 1 : 0;
  REQUIRE(hazards > 0);
  for (const Spot& spot : spots) {
    CHECK_FALSE(closure.covers(spot.boat));
    CHECK_FALSE(closure.touches({spot.boat, spot.target}));
    for (const Feature& feature : made.features) {
      if (feature.kind == Kind::hazard) CHECK(PreparedShape(feature.geometry).distance_to(spot.boat) >= Metres(9.9));
    }
  }
  const auto open = spots_of(scene(false), many).spots;
  CHECK(std::any_of(open.begin(), open.end(), [&](const Spot& spot) { return closure.covers(spot.boat); }));
}

TEST_CASE("spots keep their distance, at most two on an edge") {
  CHECK(spot_spacing(SquareMetres(39.9e4)) == Metres(75));
  CHECK(spot_spacing(SquareMetres(40.1e4)) == Metres(150));
  const Scene made = scene();
  REQUIRE(made.lake.area > SquareMetres(40e4));
  SpotOptions many;
  many.most = 60;
  const auto spots = spots_of(made, many).spots;
  std::map<std::string, int> on_edge;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    CHECK(++on_edge[spots[i].feature_ids.front()] <= 2);
    for (std::size_t k = 0; k < i; ++k) CHECK(distance(spots[i].boat, spots[k].boat) >= Metres(150));
  }
}

TEST_CASE("a phase that is not fishable has no spots and says why") {
  const Scene made = scene();
  for (const char* name : {"spawn", "heat-stop"}) {
    const auto ranked = rank_spots(made.lake, made.features, *phase_named(species("muskellunge"), name), {});
    CHECK(ranked.spots.empty());
    CHECK_FALSE(ranked.why_none.empty());
  }
}

TEST_CASE("factors that were not assessed are left out and named") {
  Scene made = scene();
  std::erase_if(made.features, [](const Feature& each) { return each.kind == Kind::wood || each.kind == Kind::rock; });
  for (const Spot& spot : spots_of(made).spots) {
    CHECK(spot.not_assessed == std::vector<std::string>{"cover"});
    for (const Reason& reason : spot.why) CHECK(reason.factor != "cover");
    const double weights = std::accumulate(spot.why.begin(), spot.why.end(), 0.0,
                                           [](double sum, const Reason& reason) { return sum + reason.weight; });
    CHECK(weights == Approx(1).margin(1e-9));
  }
}

TEST_CASE("the rim of a deep basin is fished, and the hole itself only where all the water is shallow") {
  // a bowl of 20 m: nothing deeper than a lure's reach
  const Lake deep = lake_of(bowl(Metres(300), Metres(20), Metres(5), Metres(30)));
  const auto on_deep = rank_spots(deep, detect(deep, WeedKnowledge{Metres(4), WeedSource::predicted}), summer(), {});
  REQUIRE_FALSE(on_deep.spots.empty());
  for (const Spot& spot : on_deep.spots) CHECK(spot.target_depth <= Metres(7));
  // a pond of 4.5 m: its middle is a target
  const Lake pond = lake_of(bowl(Metres(80), Metres(4.5), Metres(4), Metres(20)));
  const auto on_pond = rank_spots(pond, detect(pond), summer(), {});
  REQUIRE_FALSE(on_pond.spots.empty());
  CHECK(std::any_of(on_pond.spots.begin(), on_pond.spots.end(), [](const Spot& spot) {
    return spot.kinds.front() == Kind::pool && spot.target_depth > Metres(4);
  }));
}

TEST_CASE("a better factor never lowers a score: wood moved nearer the same edge") {
  double last = 0;
  for (const double away : {55.0, 40.0, 25.0, 12.0, 2.0}) {
    const Lake lake = lake_of(ring_break(Metres(200), Metres(2), Metres(9), Metres(20), Metres(330), Metres(5)));
    const MappedStructure wood{"wood", "", "", "wood.shp", Points{{200 + away, 0}}};
    const auto ranked = rank_spots(lake, detect(lake, {}, {&wood, 1}), summer(), {});
    REQUIRE_FALSE(ranked.spots.empty());
    // everything else is alike all round the ring, so the best spot is the one that the wood favours
    CHECK(ranked.spots.front().score >= last);
    last = ranked.spots.front().score;
  }
}

TEST_CASE("lures run above the floor that is fished") {
  for (const Spot& spot : spots_of(scene()).spots) {
    CHECK_FALSE(spot.presentations.empty());
    CHECK(spot.presentations.size() <= 3);
    for (const Presentation& each : spot.presentations) {
      CHECK(each.run_from <= each.run_to);
      CHECK(each.run_to < spot.target_depth);
    }
    CHECK(spot.casts >= 6);
    CHECK(spot.minutes > 0);
  }
}

TEST_CASE("the range of casts is kept") {
  SpotOptions options;
  options.cast_from = Metres(20);
  options.cast_to = Metres(22);
  for (const Spot& spot : spots_of(scene(), options).spots) {
    CHECK(spot.cast >= Metres(20));
    CHECK(spot.cast <= Metres(22));
  }
}

TEST_CASE("no cast crosses the unknown") {
  Grid<Metres32> values = ring_break(Metres(200), Metres(2), Metres(9), Metres(20), Metres(330), Metres(5));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY at = values.frame().centre(values.cell_of(i));
    if (std::abs(at.x - at.y) < 8) values[i] = kUnknown;
  }
  const Lake lake = lake_of(std::move(values));
  SpotOptions many;
  many.most = 60;
  const auto ranked = rank_spots(lake, detect(lake), summer(), many);
  REQUIRE(ranked.spots.size() > 3);
  for (const Spot& spot : ranked.spots) {
    for (double share = 0; share <= 1; share += 0.01) {
      CHECK(cover_at(lake, spot.boat + (spot.target - spot.boat) * share) == Cover::water);
    }
  }
}

TEST_CASE("spots are the same at one and two threads") {
  set_threads(1);
  const auto one = spots_of(scene()).spots;
  set_threads(2);
  const auto two = spots_of(scene()).spots;
  set_threads(0);
  REQUIRE(one.size() == two.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    CHECK(one[i].id == two[i].id);
    CHECK(one[i].score == two[i].score);
    CHECK(one[i].target == two[i].target);
  }
}
