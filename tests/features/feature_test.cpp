// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/feature.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

TEST_CASE("ids give kind and place to 1e-5 degree, with the hemisphere") {
  CHECK(id_at("drop-off", {{-40.000006}, {45.512344}}) == "drop-off-45.51234N-40.00001W");
  CHECK(id_at("pool", {{0.00001}, {-0.5}}) == "pool-0.50000S-0.00001E");
}

TEST_CASE("equal ids are told apart by depth, shallowest first, unknown last") {
  const Projection projection = Projection::transverse_mercator({{-40.0}, {45.5}});
  const auto rock = [](std::optional<Metres> depth) {
    Feature feature;
    feature.kind = Kind::rock;
    feature.geometry = Points{{0, 0}};
    feature.details = Structure{depth, "rock.shp", ""};
    return feature;
  };
  std::vector<Feature> rocks{rock(std::nullopt), rock(Metres(5)), rock(Metres(2))};
  assign_ids(rocks, projection);
  CHECK(rocks[2].id == "rock-45.50000N-40.00000W");
  CHECK(rocks[1].id == "rock-45.50000N-40.00000W-2");
  CHECK(rocks[0].id == "rock-45.50000N-40.00000W-3");
}

TEST_CASE("every kind has a row, and names are unique") {
  std::set<std::string_view> names;
  for (const KindRow& row : kinds()) {
    CHECK(names.insert(row.name).second);
    CHECK(kind_named(row.name) == row.kind);
    CHECK_FALSE(row.what.empty());
  }
  CHECK_FALSE(kind_named("reef"));
}

TEST_CASE("mapped structure knows the depth it stands in, and nothing off the survey") {
  // depth of the bowl at r = 200 m: 20 (1 - 1/4) = 15 m
  const Lake lake = lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)));
  const std::vector<MappedStructure> given{{"wood", "old oak", "", "wood.shp", Points{{200, 0}}},
                                           {"rock", "", "", "rock.shp", Points{{3000, 0}}},
                                           {"inflow", "", "cool", "inflow.shp", Points{{0, 380}}}};
  const auto features = detect(lake, {}, given);
  const auto wood = of_kind(features, Kind::wood);
  REQUIRE(wood.size() == 1);
  CHECK(wood[0].name == "old oak");
  CHECK(std::get<Structure>(wood[0].details).depth->value() == Approx(15).margin(0.02));
  const auto rock = of_kind(features, Kind::rock);
  REQUIRE(rock.size() == 1);
  CHECK(rock[0].name == "Rock 1");
  CHECK_FALSE(std::get<Structure>(rock[0].details).depth);
  CHECK(std::get<Structure>(of_kind(features, Kind::inflow).at(0).details).attribute == "cool");
}

TEST_CASE("confidence grows with relief and falls with the error of the depths") {
  Lake lake = lake_of(bowl(Metres(100), Metres(5), Metres(5), Metres(20)));
  lake.depth_error_known = true;
  CHECK(confidence_in(Metres(2), Metres(1), lake) > confidence_in(Metres(1), Metres(1), lake));
  // relief 1, asked 1, error 0.3: the chance of more than 0.5 is Phi(0.5 / (0.3 sqrt 2)) = Phi(1.1785) = 0.8807
  CHECK(confidence_in(Metres(1), Metres(1), lake) == Approx(0.8807).margin(1e-4));
  lake.depth_error = Metres(0.6);
  CHECK(confidence_in(Metres(1), Metres(1), lake) < 0.8);
}

TEST_CASE("degenerate lakes have no features that are not there") {
  const auto lake_with = [](int rows, int cols, float depth) {
    Grid<Metres32> values(Frame{{0, 0}, Metres(5), rows, cols}, kLand);
    for (int r = 1; r + 1 < rows; ++r) {
      for (int c = 1; c + 1 < cols; ++c) values[Cell{r, c}] = Metres32(depth);
    }
    return lake_of(values);
  };
  CHECK(detect(lake_with(3, 3, 2)).empty());  // one cell of water
  const auto flat = detect(lake_with(60, 60, 2.5F));
  CHECK(of_kind(flat, Kind::hump).empty());
  CHECK(of_kind(flat, Kind::drop_off).empty());
  CHECK(of_kind(flat, Kind::pool).size() == 1);
  CHECK(of_kind(detect(lake_with(3, 200, 2)), Kind::drop_off).empty());  // a channel one cell wide
}
