// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// What makes one place better than another, how many there are, and what they are called.
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/spots/rank.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

const Phase& summer() { return *phase_named(species("muskellunge"), "summer"); }

double best_score(const Lake& lake, const std::vector<MappedStructure>& structure = {}) {
  const auto ranked = rank_spots(lake, detect(lake, {}, structure), summer(), {});
  REQUIRE_FALSE(ranked.spots.empty());
  return ranked.spots.front().score;
}

}  // namespace

TEST_CASE("a steeper break with the same top and base never scores less") {
  // nothing else changes but that deep water comes nearer, which is better too
  double last = 0, first = 0;
  for (const double width : {40.0, 30.0, 22.0, 16.0}) {  // grades of 17 to 44 %
    const double score =
        best_score(lake_of(ring_break(Metres(200), Metres(2), Metres(9), Metres(width), Metres(330), Metres(4))));
    INFO(width);
    CHECK(score >= last);
    if (last == 0) first = score;
    last = score;
  }
  CHECK(last > first);
}

TEST_CASE("one kind of cover more at the same place never lowers the best score") {
  const Lake lake = lake_of(ring_break(Metres(200), Metres(2), Metres(9), Metres(20), Metres(330), Metres(5)));
  const MappedStructure wood{"wood", "", "", "wood.shp", Points{{203, 0}}};
  const MappedStructure rock{"rock", "", "", "rock.shp", Points{{203, 2}}};
  const MappedStructure dock{"dock", "", "", "dock.shp", Points{{203, 4}}};
  const double one = best_score(lake, {wood}), two = best_score(lake, {wood, rock});
  CHECK(two > one);
  CHECK(best_score(lake, {wood, rock, dock}) >= two);
}

TEST_CASE("spots of a small water keep 75 m apart") {
  const Lake lake = lake_of(ring_break(Metres(150), Metres(2), Metres(9), Metres(20), Metres(220), Metres(5)));
  REQUIRE(lake.area < SquareMetres(40e4));
  SpotOptions many;
  many.most = 60;
  const auto spots = rank_spots(lake, detect(lake), summer(), many).spots;
  REQUIRE(spots.size() >= 3);
  double nearest = 1e9;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) nearest = std::min(nearest, distance(spots[i].boat, spots[k].boat).value());
  }
  CHECK(nearest >= 75);
  CHECK(nearest < 150);
}

TEST_CASE("no more spots than asked for, and the first ones stay the same") {
  const Lake lake = lake_of(ring_break(Metres(250), Metres(2), Metres(9), Metres(20), Metres(380), Metres(5)));
  const auto features = detect(lake);
  const auto ten = rank_spots(lake, features, summer(), {}).spots;
  REQUIRE(ten.size() >= 4);
  for (int most = 1; most <= 4; ++most) {
    SpotOptions few;
    few.most = most;
    const auto spots = rank_spots(lake, features, summer(), few).spots;
    REQUIRE(spots.size() == static_cast<std::size_t>(most));
    for (std::size_t i = 0; i < spots.size(); ++i) CHECK(spots[i].id == ten[i].id);
  }
}

TEST_CASE("one place in several phases: equal ids get -2, -3 by depth, then in the order of the phases") {
  const auto spot = [](const char* id, double depth) {
    Spot made;
    made.id = id;
    made.boat_depth = Metres(depth);
    return made;
  };
  std::vector<PhaseSpots> phases(3);
  phases[0].spots = {spot("spot-a", 3), spot("spot-b", 2)};
  phases[1].spots = {spot("spot-a", 2.5), spot("spot-c", 2)};
  phases[2].spots = {spot("spot-a", 3), spot("spot-b", 2)};
  number_equal_ids(phases);
  CHECK(phases[0].spots[0].id == "spot-a-2");
  CHECK(phases[1].spots[0].id == "spot-a");
  CHECK(phases[2].spots[0].id == "spot-a-3");
  CHECK(phases[0].spots[1].id == "spot-b");
  CHECK(phases[2].spots[1].id == "spot-b-2");
  CHECK(phases[1].spots[1].id == "spot-c");
}

TEST_CASE("bearings are PROJ's geodesic also where the grid's north is 3 degrees off") {
  // the ring 350 km east of the meridian of its transverse Mercator grid, at 45.5 N
  const auto projection = Projection::from_text(
      "+proj=tmerc +lat_0=0 +lon_0=-44.5 +k=0.9996 +x_0=500000 +y_0=0 +datum=WGS84 +units=m +no_defs");
  const auto at_origin = ring_break(Metres(200), Metres(2), Metres(9), Metres(20), Metres(330), Metres(5));
  Frame frame = at_origin.frame();
  frame.corner = frame.corner + XY{850000, 5047000};
  Grid<Metres32> values(frame);
  for (std::size_t i = 0; i < values.size(); ++i) values[i] = at_origin[i];
  const Lake lake = make_lake(projection, std::move(values));
  const auto spots = rank_spots(lake, detect(lake), summer(), {}).spots;
  REQUIRE(spots.size() >= 3);
  for (const Spot& spot : spots) {
    const Geodesic cast = geodesic(projection.to_lonlat(spot.boat), projection.to_lonlat(spot.target));
    CHECK(std::abs(std::remainder(cast.bearing.value() - spot.bearing.value(), 360.0)) < 0.5);
    CHECK(spot.approach == spot.bearing);
    CHECK(cast.distance.value() == Approx(spot.cast.value()).margin(0.05));
    const XY way = spot.target - spot.boat;
    const double on_grid = std::atan2(way.x, way.y) * 180 / 3.14159265358979;
    CHECK(std::abs(std::remainder(cast.bearing.value() - on_grid, 360.0)) > 2.5);  // else nothing was tested
  }
}
