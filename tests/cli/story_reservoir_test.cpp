// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/story.hpp"

// A flooded valley, surveyed at full pool (310 m) and drawn down by 2 m in November: a straight old creek bed between
// shelves, one rise that comes within reach of the keel, and trees left standing when it was filled.

using namespace castplan;
using namespace castplan::story;

namespace {

constexpr int kRows = 120, kCols = 100;  // of 5 m
constexpr double kFallen = 2;
constexpr XY kRise{420150, 5040300};  // 2.4 m under the surface when full

/// Below the full pool; a shelf of 4.5 m falls by 1 in 2 to the creek bed of 11 m.
double full_depth(XY at) {
  const double from_axis = std::abs(at.x - 420250), from_end = std::min(at.y - 5040020, 5040580 - at.y);
  const double to_shore = std::min(220 - from_axis, from_end);
  if (to_shore <= 0) return -9999;
  const double shelf = std::min(4.5, to_shore / 12);
  const double bed = std::clamp((60 - from_axis) / 2, 0.0, 6.5) * std::clamp((from_end - 60) / 30, 0.0, 1.0);
  const double away = distance(at, kRise).value();
  const double rise = 2.1 * std::exp(-away * away / (2 * 18 * 18));
  return shelf + bed - rise;
}

void write_reservoir(const Story& story) {
  ascii_grid(story.scratch, "pool.asc", kRows, kCols, [](int row, int col) {
    return full_depth({420000 + 5 * col + 2.5, 5040000 + 5 * (kRows - row) - 2.5});
  });
  // trees in 3.4 m at full pool, and in the creek bed
  json trees = {{"type", "FeatureCollection"}, {"features", json::array()}};
  for (const XY at : {XY{420080, 5040450}, XY{420250, 5040200}}) {
    const LonLat place = utm().to_lonlat(at);
    trees["features"].push_back(
        {{"type", "Feature"},
         {"properties", json::object()},
         {"geometry", {{"type", "Point"}, {"coordinates", {place.lon.degrees, place.lat.degrees}}}}});
  }
  story.scratch.write("trees.geojson", trees.dump());
  const LonLat ramp = utm().to_lonlat({420250, 5040030});
  const std::string at = "at = [" + std::to_string(ramp.lon.degrees) + ", " + std::to_string(ramp.lat.degrees) + "]\n";
  const auto lake_file = [&](const std::string& level) {
    return "name = \"Ferrow Reservoir\"\nwater = \"reservoir\"\nholds = [\"muskellunge\"]\n"
           "[depth]\nraster = \"pool.asc\"\nunit = \"m\"\nerror = \"0.15 m\"\nsource = \"Invented survey\"\n"
           "[level]\nsurvey = \"310 m\"\n" +
           level +
           "yearly_range = \"3 m\"\n"
           "[[structure]]\nfile = \"trees.geojson\"\nkind = \"wood\"\n"
           "[[launch]]\nname = \"High ramp\"\n" +
           at +
           "usable_above = \"308.5 m\"\n"
           "[[launch]]\nname = \"Low ramp\"\n" +
           at +
           "usable_above = \"305 m\"\n"
           "[conditions]\nsecchi = \"2 m\"\nwater_temps = \"temps.csv\"\nwind = \"wind.csv\"\n";
  };
  story.scratch.write("full.toml", lake_file("today = \"310 m\"\n"));
  story.scratch.write("low.toml", lake_file("today = \"308 m\"\n"));
  // a storm in the night before, a fresh day with hard gusts at noon: at 40 W the sun stands highest near 14:24 UTC
  story.scratch.write("wind.csv",
                      "time,speed_mps,gust_mps,from_deg\n2026-11-08T03:00Z,16,22,300\n2026-11-08T11:00Z,4,6,270\n"
                      "2026-11-08T15:00Z,7,11,280\n2026-11-08T17:00Z,5,7,290\n");
}

bool dry(const Story& story, const std::string& name) {
  for (const json& launch : story.features("launch")) {
    if (launch["properties"]["name"] == name) return launch["properties"]["dry"].get<bool>();
  }
  FAIL("no launch " << name);
  return false;
}

/// Numbers of a geometry in their order, however deep they stand.
void collect(const json& coordinates, std::vector<double>& out) {
  if (coordinates.is_number()) out.push_back(coordinates.get<double>());
  for (const json& each : coordinates.is_array() ? coordinates : json::array()) collect(each, out);
}

/// Hazards that have a vertex within so many metres of a place.
int hazards_near(const Story& story, XY at, double within) {
  int count = 0;
  for (const json& hazard : story.features("hazard")) {
    std::vector<double> numbers;
    collect(hazard["geometry"]["coordinates"], numbers);
    bool near = false;
    for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) {
      near = near || distance(utm().from_lonlat({{numbers[i]}, {numbers[i + 1]}}), at).value() < within;
    }
    count += near ? 1 : 0;
  }
  return count;
}

/// Depths that a person reads are today's: 2 m less than the survey's. Nobody is put on the rise or the tree tops.
void check_spots(const Story& story) {
  const json spots = story.spots();
  REQUIRE(spots.size() >= 3);
  double sum = 0;
  for (const json& spot : spots) {
    const json& facts = spot["properties"];
    INFO(facts["id"]);
    const XY boat = place_of(spot["geometry"]["coordinates"]);
    CHECK(facts["boat_depth_m"].get<double>() == Approx(full_depth(boat) - kFallen).margin(0.6));
    CHECK(facts["boat_depth_m"].get<double>() > 1.05);
    CHECK(distance(boat, kRise).value() > 10);
    sum += facts["target_depth_m"].get<double>();
    // late autumn: the best lie at the steep sides of the creek bed, 47 to 60 m from the axis, not on the shelf
    const double from_axis = std::abs(place_of(facts["target"]).x - 420250);
    if (facts["rank"] <= 4) CHECK(from_axis < 90);
  }
  // common practice, no source: 3 to 7 m in late autumn, deeper than on the shelf of 2.5 m
  CHECK(sum / static_cast<double>(spots.size()) > 2.5);
  CHECK(sum / static_cast<double>(spots.size()) < 8);
}

}  // namespace

TEST_CASE("story: a drawn-down reservoir in November") {
  const Story story;
  write_reservoir(story);
  story.series("2026-11-08", {13, 12.6, 12.1, 11.4, 11, 10.5, 10.1, 9.8, 9.5, 9.2});

  story.castplan("scout full.toml --out plan --date 2026-11-08 --quiet");
  CHECK_FALSE(dry(story, "High ramp"));
  CHECK(hazards_near(story, kRise, 25) == 0);  // 2.4 m of water over it
  const double full_area = story.summary()["lake"]["area_m2"];

  const Run run = story.castplan("scout low.toml --out plan --date 2026-11-08");
  const json summary = story.summary();
  // the series decides: its newest day, and falling
  CHECK(summary["conditions"]["phases"] == json::array({"late-autumn"}));
  CHECK(summary["conditions"]["water_temp_source"] == "series");
  CHECK(summary["conditions"]["water_temp_c"].get<double>() == Approx(9.2));
  CHECK(summary["conditions"]["trend"] == "falling");
  // shelves of 1 in 12 lie dry for 24 m round all of the shore: 440 by 560 m is 392 by 512 m now
  CHECK(full_area == Approx(440.0 * 560).epsilon(0.02));
  CHECK(summary["lake"]["area_m2"].get<double>() == Approx(392.0 * 512).epsilon(0.03));
  CHECK(summary["lake"]["max_depth_m"].get<double>() == Approx(11 - kFallen).margin(0.1));
  CHECK(dry(story, "High ramp"));
  CHECK_FALSE(dry(story, "Low ramp"));
  CHECK(read(story.folder + "/map.html").find("DRY at today") != std::string::npos);
  story.everywhere("308.00 m");                            // the surface that all depths are below
  CHECK(hazards_near(story, kRise, 25) > 0);               // 0.4 m over it now
  CHECK(hazards_near(story, {420080, 5040450}, 10) > 0);   // a tree in 1.4 m
  CHECK(hazards_near(story, {420250, 5040200}, 10) == 0);  // and one in 9 m
  // Caffrey et al. (2007) gives 3.226 m at a Secchi depth of 2 m; the edge stays where it grew
  CHECK(summary["conditions"]["weed_depth_m"].get<double>() ==
        Approx(std::pow(10, 0.66 * std::log10(2.0) + 0.31) - kFallen).margin(0.006));
  // the gust of the day's light counts, not the storm of the night; 11 m/s is over the 10 m/s of a small motor boat
  CHECK(summary["conditions"]["wind"].get<std::string>().find("gusts 11 m/s") != std::string::npos);
  CHECK(run.out.find("gusts 22") == std::string::npos);
  story.everywhere("Too rough for an open motor boat");
  CHECK(story.spots().empty());
  // with a calmer day
  story.castplan("scout low.toml --out plan --date 2026-11-08 --quiet --wind '6 m/s from 280'");
  check_spots(story);
  story.everywhere("old water");  // cold: 9 C is under the 15 C of the US Coast Guard
}
