// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/feature.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "castplan/features/confidence.hpp"
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
  // none is missing: the kinds are numbered from pool to spawning ground
  CHECK(kinds().size() == static_cast<std::size_t>(Kind::spawning_ground) + 1);
  for (std::size_t i = 0; i < kinds().size(); ++i) CHECK(row_of(static_cast<Kind>(i)).kind == static_cast<Kind>(i));
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

TEST_CASE("mapped lines, beds, closures and launches keep what was given") {
  const Lake lake = lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)));
  // on a line of equal depth, 20 (1 - 1/16) m at r = 100 m, begun at its southern end
  Line log;
  for (int i = -10; i <= 10; ++i) log.push_back(XY{std::cos(i * 0.02), std::sin(i * 0.02)} * 100);
  const Polygons bed{{{{300, -10}, {320, -10}, {320, 10}, {300, 10}, {300, -10}}, {}}};
  const std::vector<MappedStructure> given{{"wood", "", "", "wood.shp", Lines{log}},
                                           {"weeds", "", "", "weeds.shp", bed}};
  const std::vector<MappedClosure> closed{{"no-wake", "", "04-15", "07-10", "closed.shp", bed, false}};
  const std::vector<MappedLaunch> ramps{{"North ramp", Metres(312), {0, 400}, true}};
  const auto all = find_features(Ground{lake, {}, {}, {}, given, closed, ramps}, {});
  const auto wood = of_kind(all, Kind::wood);
  REQUIRE(wood.size() == 1);
  CHECK(std::get<Structure>(wood[0].details).depth->value() == Approx(18.75).margin(0.02));
  CHECK(std::get<Structure>(wood[0].details).source_file == "wood.shp");
  CHECK(distance(wood[0].anchor, {100, 0}) < Metres(0.01));  // the middle of the line
  REQUIRE(of_kind(all, Kind::weeds).size() == 1);
  // four corners and the middle of the bed: 20 (1 - r^2 / 400^2) is 8.7375 twice, 7.1875 twice and 7.9875 m
  CHECK(std::get<Structure>(of_kind(all, Kind::weeds)[0].details).depth->value() == Approx(7.9675).margin(0.01));
  CHECK(distance(of_kind(all, Kind::weeds)[0].anchor, {310, 0}) < Metres(0.01));
  REQUIRE(of_kind(all, Kind::closure).size() == 1);
  const auto closure = std::get<Closure>(of_kind(all, Kind::closure)[0].details);
  CHECK(closure.kind == ClosureKind::no_wake);
  CHECK_FALSE(closure.active);
  CHECK((closure.from == "04-15" && closure.to == "07-10"));
  REQUIRE(of_kind(all, Kind::launch).size() == 1);
  const auto launch = of_kind(all, Kind::launch)[0];
  CHECK(launch.name == "North ramp");
  CHECK(launch.anchor == XY{0, 400});
  CHECK(std::get<Launch>(launch.details).dry);
  CHECK(std::get<Launch>(launch.details).usable_above == Metres(312));
}

TEST_CASE("confidence is the chance that the true relief is what is asked for") {
  Lake lake = lake_of(bowl(Metres(100), Metres(5), Metres(5), Metres(20)));
  lake.depth_error_known = true;
  Ground ground{lake, {}, {}, {}, {}, {}, {}};
  const auto sure = [&](const Evidence& evidence) { return confidence_of(evidence, ground, {}); };
  const Evidence evidence{.relief = Metres(1.5), .asked = Metres(1)};
  CHECK(sure({.relief = Metres(1), .asked = Metres(1)}) == Approx(0.5));
  // half a metre over the limit, error 0.3: Phi(0.5 / (0.3 sqrt 2)) = Phi(1.1785) = 0.8807, from a table
  CHECK(sure(evidence) == Approx(0.8807).margin(1e-4));
  // four looks halve the error: Phi(2.3570) = 0.9908
  CHECK(sure({.relief = Metres(1.5), .asked = Metres(1), .looks = 4}) == Approx(0.9908).margin(1e-4));
  // a coarser look shows an eighth of it, half of what is asked of a broad form: 0.15 less
  CHECK(sure({.relief = Metres(1.5), .asked = Metres(1), .seen_wide = 0.125}) == Approx(0.85 * 0.8807).margin(1e-4));
  CHECK(sure({.relief = Metres(1.5), .asked = Metres(1), .certain = false}) == Approx(0.5 * 0.8807).margin(1e-4));
  // what differs from cell to cell is smoothed away: 0.3^2 - 0.24^2 = 0.18^2 and Phi(1.9642) = 0.9752, at least half
  ground.noise = Metres(0.24);
  CHECK(sure(evidence) == Approx(0.9752).margin(1e-4));
  ground.noise = Metres(0.3);
  CHECK(sure(evidence) == Approx(0.9908).margin(1e-4));
  ground.noise = Metres(0);
  lake.depth_error_known = false;
  CHECK(sure(evidence) == Approx(0.7807).margin(1e-4));
  // an error of 0.6 may make 1.8 m by itself: Phi((1.5 - 1.8) / 0.8485) = Phi(-0.3536) = 0.3618
  lake.depth_error_known = true;
  lake.depth_error = Metres(0.6);
  CHECK(sure(evidence) == Approx(0.3618).margin(1e-4));
  CHECK(over_noise(Metres(1), lake, {}) == Metres(0.6) * 3);
  // one depth against a limit: Phi(0.6 / 0.6) = 0.8413; a shore's measure a fifth over, known to a tenth: Phi(2) =
  // 0.9772
  CHECK(confidence_of_shoal(Metres(0.6), lake, {}) == Approx(0.8413).margin(1e-4));
  CHECK(confidence_of_shape(1.1, 0.1) == Approx(0.8413).margin(1e-4));
  CHECK(confidence_of_shape(1.2, 0.1) == Approx(0.95));
  CHECK(looks_along(Metres(20)) == 1);
  CHECK(looks_along(Metres(100)) == Approx(2));
  CHECK(looks_along(Metres(5000)) == 4);
}

TEST_CASE("a rise of one cell is less sure than a broad one: only one scale shows it") {
  const auto hump_on = [](double sigma) {
    Lake lake = lake_of(gaussian_hump(Metres(9), {{2.5, 2.5}, Metres(4), Metres(sigma)}, Metres(300), Metres(5)));
    lake.depth_error_known = true;
    return of_kind(detect(lake), Kind::hump);
  };
  const auto broad = hump_on(20), spike = hump_on(1);
  REQUIRE(broad.size() == 1);
  REQUIRE(spike.size() == 1);
  CHECK(broad[0].confidence >= 0.99);
  CHECK(spike[0].confidence < 0.8);
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
  const auto narrow = detect(lake_with(3, 200, 2));  // a channel one cell wide
  CHECK(of_kind(narrow, Kind::drop_off).empty());
  for (const Kind kind : {Kind::saddle, Kind::flat, Kind::channel}) {
    CHECK(of_kind(flat, kind).empty());
    CHECK(of_kind(narrow, kind).empty());
  }
}

TEST_CASE("several waters on one map do not mix") {
  // two lakes, each with a bar between two pools: 8 - 4 exp(-x^2 / (2 * 20^2)) deep along their own middle
  const Lake lake = lake_of(filled(frame_about(Metres(420), Metres(5)), [](XY at) {
    const XY middle{at.x < 0 ? -210.0 : 210.0, 0};
    const XY away = at - middle;
    if (std::hypot(away.x, away.y) > 180) return static_cast<double>(kLand.value());
    return 8 - 4 * std::exp(-away.x * away.x / 800) * (1 - 0.3 * std::exp(-away.y * away.y / 3200));
  }));
  const auto saddles = of_kind(detect(lake), Kind::saddle);
  REQUIRE(saddles.size() == 2);
  for (const Feature& each : saddles) {
    CHECK(std::abs(std::abs(each.anchor.x) - 210) < 5);
    CHECK(std::get<Saddle>(each.details).depth.value() == Approx(8 - 4 * 0.7).margin(0.05));
    for (const SaddleSide& side : std::get<Saddle>(each.details).sides) {
      CHECK(side.what == Joined::pool);
      CHECK(side.place.x * each.anchor.x > 0);  // in its own lake
    }
  }
}

TEST_CASE("lakes of odd form") {
  const WeedKnowledge weeds{Metres(4), WeedSource::predicted};
  // round an island: depth 6 (1 - ((r - 200) / 100)^2), so that the 4 m line is two circles, 200 +- 100 sqrt(1/3)
  const Lake ring = lake_of(filled(frame_about(Metres(330), Metres(5)), [](XY at) {
    const double away = (std::hypot(at.x, at.y) - 200) / 100;
    return std::abs(away) < 1 ? 6 * (1 - away * away) : static_cast<double>(kLand.value());
  }));
  const auto around = detect(ring, weeds);
  CHECK(of_kind(around, Kind::pool).size() == 1);
  CHECK(of_kind(around, Kind::hump).empty());
  for (const Kind kind : {Kind::saddle, Kind::flat, Kind::channel}) CHECK(of_kind(around, kind).empty());
  double circles = 0;
  for (const Feature& each : of_kind(around, Kind::weed_line))
    circles += std::get<WeedLine>(each.details).length.value();
  CHECK(circles == Approx(2 * M_PI * 400).epsilon(0.005));
  const auto pool = std::get<Polygons>(of_kind(around, Kind::pool).at(0).geometry);
  REQUIRE(pool.size() == 1);
  CHECK(pool[0].holes.size() == 1);  // the island's side
  // all water, to the edge of the raster: nothing is closed for certain
  const auto open = detect(lake_of(filled(frame_about(Metres(200), Metres(5)), [](XY) { return 3.0; })), weeds);
  REQUIRE(open.size() == 1);
  CHECK(open[0].kind == Kind::pool);
  CHECK_FALSE(std::get<Pool>(open[0].details).sill_depth);
  CHECK(open[0].confidence <= 0.5);
  for (const auto& [rows, cols] : {std::pair(1, 1), std::pair(1, 50), std::pair(50, 1), std::pair(2, 2)}) {
    INFO(rows << " x " << cols);
    const auto few = detect(lake_of(Grid<Metres32>(Frame{{0, 0}, Metres(5), rows, cols}, Metres32(5))), weeds);
    CHECK(of_kind(few, Kind::pool).size() == few.size());
  }
}

TEST_CASE("where the survey is thin, the same relief is less sure") {
  Lake lake = lake_of(bowl(Metres(100), Metres(5), Metres(5), Metres(20)));
  lake.depth_error = Metres(0.3);
  lake.depth_error_known = true;
  const Ground ground{lake, {}, {}, {}, {}, {}, {}};
  const Evidence evidence{.relief = Metres(1.5), .asked = Metres(1)};
  const double everywhere = confidence_of(evidence, ground, {});
  lake.error = Grid<Metres32>(lake.depth.frame(), Metres32(0.3F));
  const XY thin = lake.depth.frame().centre({3, 4});
  lake.error[{3, 4}] = Metres32(1.2F);
  CHECK(error_at(lake, thin).value() == Approx(1.2));
  CHECK(confidence_of(evidence, ground, thin) < everywhere - 0.1);
  CHECK(confidence_of(evidence, ground, lake.depth.frame().centre({3, 5})) == Approx(everywhere));
}
