// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <set>

#include "castplan/geo/error.hpp"
#include "publish/club.hpp"
#include "publish/world_grid.hpp"

using namespace castplan;
using namespace castplan::club;

namespace {

const std::string kFolder = "lakes/kestrel-mere/";

json collection_of(const Site& site) { return json::parse(file_in(site, kFolder + "areas.geojson")); }

std::vector<json> areas_in(const Site& site) {
  const json all = collection_of(site);
  return {all["features"].begin(), all["features"].end()};
}

}  // namespace

TEST_CASE("spots become counts in squares of the world grid, and nothing else of them leaves") {
  Plan plan = large();
  // 12 spots: the first ten, and two that are not among the best
  const Spot first = plan.phases[0].spots[0];
  plan.phases[0].spots.clear();
  for (int rank = 1; rank <= 12; ++rank) {
    Spot spot = first;
    spot.rank = rank;
    spot.boat = {-100.0 + 15.0 * rank, 40.0};
    spot.id = id_at("spot", plan.lake->projection.to_lonlat(spot.boat));
    plan.phases[0].spots.push_back(spot);
  }
  const json all = collection_of(site_of(plan));
  int spots = 0, best = 0;
  for (const json& area : all["features"]) {
    spots += area["properties"]["spots"].get<int>();
    best += area["properties"]["of_the_best_ten"].get<int>();
    std::set<std::string> keys;
    for (const auto& [key, value] : area["properties"].items()) keys.insert(key);
    CHECK(keys == std::set<std::string>{"id", "kind", "name", "spots", "of_the_best_ten", "phases"});
  }
  CHECK(spots == 12);
  CHECK(best == 10);
  CHECK(all["metadata"]["coarsen_m"] == 500);
}

TEST_CASE("each square is one of the grid, whatever the lake") {
  const WorldGrid grid{Metres(500)};
  for (const double shift : {0.0, 0.0013, 0.0029}) {
    const Plan plan = large({.centre = {Longitude{-40.0 + shift}, Latitude{45.5 + shift}}, .one_phase = true});
    for (const json& area : areas_in(site_of(plan))) {
      for (const json& square : area["geometry"]["coordinates"]) {
        const double west = square[0][0][0], south = square[0][0][1], east = square[0][2][0], north = square[0][2][1];
        const CellEdges own = grid.edges(grid.cell_of({Longitude{(west + east) / 2}, Latitude{(south + north) / 2}}));
        CHECK(std::llround(west * 1e6) == own.west);
        CHECK(std::llround(south * 1e6) == own.south);
        CHECK(std::llround(east * 1e6) == own.east);
        CHECK(std::llround(north * 1e6) == own.north);
      }
    }
  }
}

// The bowl has 28 ha: squares of 500 m with a corner of it would tell where in it a spot lies.
TEST_CASE("a sliver of water is told as the square beside it") {
  std::size_t looked_at = 0;
  for (const double shift : {0.0005, 0.001, 0.0022, 0.004}) {
    const Plan plan = large({.centre = {Longitude{-40.0 + shift}, Latitude{45.5 + shift}}, .one_phase = true});
    for (const json& area : areas_in(site_of(plan))) {
      // water inside the area by counting points of a fine net: pi R^2 about the centre
      int inside = 0;
      const int steps = 240;
      for (int i = 0; i < steps * steps; ++i) {
        const XY at{-300.0 + 600.0 * (i % steps + 0.5) / steps, -300.0 + 600.0 * (i / steps + 0.5) / steps};
        if (dot(at, at) > 300.0 * 300.0) continue;
        const LonLat place = plan.lake->projection.to_lonlat(at);
        for (const json& square : area["geometry"]["coordinates"]) {
          const double west = square[0][0][0], south = square[0][0][1], east = square[0][2][0], north = square[0][2][1];
          if (place.lon.degrees >= west && place.lon.degrees < east && place.lat.degrees >= south &&
              place.lat.degrees < north) {
            ++inside;
          }
        }
      }
      ++looked_at;
      const double water = inside * (600.0 / steps) * (600.0 / steps);
      INFO(area["id"] << " holds " << water << " m2 of water");
      CHECK(water >= 0.97 * 500.0 * 500.0 / 4.0);
    }
  }
  CHECK(looked_at >= 4);
}

TEST_CASE("spots of several phases are counted apart") {
  std::map<std::string, int> spots;
  for (const json& area : areas_in(site_of(large({})))) {
    for (const json& phase : area["properties"]["phases"]) spots[phase["phase"]] += phase["spots"].get<int>();
  }
  CHECK(spots == std::map<std::string, int>{{"pre-spawn", 2}, {"early-summer", 1}});
}

TEST_CASE("waters under 200 ha show features and teaching but no spots, exact ones neither") {
  for (const bool exact : {false, true}) {
    const Site site = site_of(sample::plan(), {.exact = exact});
    const std::string page = file_in(site, "lakes/kestrel-mere.html");
    CHECK(has(page, "waters under 200 ha"));
    CHECK(has(page, "How to read this map"));
    CHECK(has(page, "South point"));
    const std::string places = file_in(site, kFolder + (exact ? "spots.geojson" : "areas.geojson"));
    CHECK(json::parse(places)["features"].empty());
  }
}

TEST_CASE("a stop is told with when to look again, and shows no spots") {
  Plan plan = large({.one_phase = true, .stop = true});
  plan.season.advisory.reasons = {"Too warm. Look again: below 75 F (23.9 C)."};
  const Site site = site_of(plan);
  const std::string page = file_in(site, "lakes/kestrel-mere.html");
  CHECK(has(page, "Stop: no spots are shown"));
  CHECK(has(page, "Look again: below 75 F (23.9 C)."));
  CHECK(areas_in(site).empty());
  CHECK(has(file_in(site, "index.html"), "Stop: no spots"));
  CHECK(has(file_in(site, "feed.atom"), "Look again: below 75 F (23.9 C)."));
}

// As the sources of the data, the rules and the species' own temperatures.
TEST_CASE("what never leaves: cover, weeds that were seen, spawning ground, hashes, options") {
  for (const WeedSource source : {WeedSource::mapped, WeedSource::observed, WeedSource::fitted}) {
    Plan plan = large();
    std::get<WeedLine>(plan.features[2].details).source = source;
    for (const bool exact : {false, true}) {
      const Site site = site_of(plan, {.exact = exact});
      std::set<std::string> kinds;
      const json features = json::parse(file_in(site, kFolder + "features.geojson"));
      for (const json& feature : features["features"]) kinds.insert(feature["properties"]["kind"].get<std::string>());
      for (const char* kind : {"cover", "weeds", "weed-line", "spawning-ground"}) CHECK(kinds.count(kind) == 0);
      for (const char* kind : {"pool", "drop-off", "hump", "dock", "hazard", "closure", "launch"}) {
        CHECK(kinds.count(kind) == 1);
      }
      CHECK(kinds.count("wood") == (exact ? 1 : 0));
      for (const OutputFile& file : site.files) {
        INFO(file.name);
        for (const char* word :
             {"Placed brush", "cover.shp", "wood.shp", "sha256", "provenance", "neighbours", "Mapped bed"}) {
          CHECK_FALSE(has(file.bytes, word));
        }
      }
      const std::string page = file_in(site, "lakes/kestrel-mere.html");
      CHECK(has(page, "leave them alone in rising water of 5 to 17 C (41 to 63 F)"));
      CHECK(has(page, "an open tool") == !exact);
    }
  }
}

TEST_CASE("wood and rock are counted, not shown; a layer named private is not even counted") {
  Plan plan = large();
  CHECK(has(file_in(site_of(plan), "lakes/kestrel-mere.html"), "Mapped by the person who made the plan"));
  for (Feature& feature : plan.features) {
    if (auto* structure = std::get_if<Structure>(&feature.details))
      structure->source_file = "Private_" + structure->source_file;
  }
  const Site site = site_of(plan, {.exact = true});
  const json features = json::parse(file_in(site, kFolder + "features.geojson"));
  for (const json& feature : features["features"]) {
    CHECK(std::set<std::string>{"wood", "rock", "dock", "inflow"}.count(
              feature["properties"]["kind"].get<std::string>()) == 0);
  }
  CHECK_FALSE(has(file_in(site_of(plan), "lakes/kestrel-mere.html"), "Mapped by the person who made the plan"));
}

TEST_CASE("exact places are marked on every page and file, and bring spots and passes") {
  const Plan plan = large();
  const Site site = site_of(plan, {.exact = true});
  for (const OutputFile& file : site.files) {
    INFO(file.name);
    CHECK(has(file.bytes, "EXACT PLACES"));
  }
  const json spots = json::parse(file_in(site, kFolder + "spots.geojson"))["features"];
  const json wanted = json::parse(spots_geojson(plan))["features"];
  REQUIRE(spots.size() == wanted.size());
  for (std::size_t i = 0; i < spots.size(); ++i) {
    CHECK(spots[i]["geometry"] == wanted[i]["geometry"]);
    CHECK(spots[i]["properties"]["target"] == wanted[i]["properties"]["target"]);
    CHECK(spots[i]["properties"]["cautions"] == wanted[i]["properties"]["cautions"]);
    // distances to what is guarded would lead to it
    CHECK_FALSE(spots[i]["properties"].contains("why"));
  }
  CHECK(json::parse(file_in(site, kFolder + "passes.geojson"))["features"].size() == 1);
}

TEST_CASE("an exact spot that casts at guarded cover stays out") {
  Plan plan = large();
  for (const Feature& feature : plan.features) {
    if (feature.kind == Kind::cover) plan.phases[0].spots[0].feature_ids = {feature.id};
  }
  const Site site = site_of(plan, {.exact = true});
  CHECK(json::parse(file_in(site, kFolder + "spots.geojson"))["features"].size() == 1);
  CHECK(has(file_in(site, "lakes/kestrel-mere.html"), "is left out"));
}

TEST_CASE("a stop that was set aside is refused, coarse and exact") {
  for (const bool exact : {false, true}) {
    const std::string said = thrown<InputError>(
        [&] { site_of(large({.one_phase = true, .stop = true, .overridden = true}), {.exact = exact}); });
    CHECK(has(said, "--override-stop"));
  }
}
