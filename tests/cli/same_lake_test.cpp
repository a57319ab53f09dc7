// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// One lake, told in many ways, must be one lake. Where nothing is resampled, values agree to 0.01 m and 0.001 of a
// score and places to 0.5 m; where it is, places agree to a cell and lengths to a few percent. The files are written
// by GDAL's own tools, so that the reading is not tested against our own writing.
#include <catch2/catch.hpp>
#include <cmath>
#include <iostream>

#include "castplan/geo/projection.hpp"
#include "cli/one_lake.hpp"

using namespace castplan::one_lake;
using castplan::LonLat;
using castplan::Projection;

namespace {

/// Largest differences over all features and spots, in the order in which they stand.
struct Differences {
  double depth_m = 0, place_m = 0, score = 0, bearing_deg = 0;
};

void compare(const json& a, const json& b, Differences& worst) {
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    const json &p = a[i]["properties"], &q = b[i]["properties"];
    REQUIRE(p["kind"] == q["kind"]);
    for (const auto& [key, value] : p.items()) {
      const bool is_depth = key.ends_with("depth_m") || key == "relief_m";
      if (is_depth && value.is_null()) CHECK(q[key].is_null());
      if (!value.is_number()) continue;
      const double difference = std::abs(value.get<double>() - q[key].get<double>());
      if (is_depth) worst.depth_m = std::max(worst.depth_m, difference);
      if (key == "score") worst.score = std::max(worst.score, difference);
      if (key.ends_with("_deg")) {
        const double turn = std::remainder(value.get<double>() - q[key].get<double>(), 360.0);
        worst.bearing_deg = std::max(worst.bearing_deg, std::abs(turn));
      }
    }
    for (const char* place : {"deepest", "top", "target"}) {
      if (p.contains(place)) worst.place_m = std::max(worst.place_m, apart_m(p[place], q[place]));
    }
    if (a[i]["geometry"]["type"] == "Point") {
      worst.place_m =
          std::max(worst.place_m, apart_m(a[i]["geometry"]["coordinates"], b[i]["geometry"]["coordinates"]));
    }
  }
}

double total(const json& told, const char* kind, const char* key) {
  double sum = 0;
  for (const json& feature : told["features"]) {
    if (feature["properties"]["kind"] == kind) sum += feature["properties"][key].get<double>();
  }
  return sum;
}

/// The feature of the other telling whose place is nearest; its distance in metres.
std::pair<const json*, double> nearest(const json& told, const char* kind, const char* key, const json& place) {
  std::pair<const json*, double> found(nullptr, 1e9);
  for (const json& feature : told["features"]) {
    if (feature["properties"]["kind"] != kind) continue;
    const double away = apart_m(feature["properties"][key], place);
    if (away < found.second) found = {&feature["properties"], away};
  }
  return found;
}

const auto kDepth = [](double depth) { return depth; };

}  // namespace

TEST_CASE("the same lake on its own grid: unit, sense, level, feet on the ground, rows from the south") {
  const Scratch scratch;
  const Told metres = scouted(scratch, written(scratch, "metres", kDepth, kMetres, 1), "--unit m");
  // there must be something to compare
  const json counts = metres.features["metadata"]["counts"];
  REQUIRE(counts["pool"] >= 2);
  REQUIRE(counts["hump"] >= 2);
  REQUIRE(counts["drop-off"] >= 4);
  REQUIRE(counts["weed-line"] >= 4);
  REQUIRE(metres.spots["features"].size() >= 6);
  const auto same = [&](const std::string& what, const Told& told) {
    Differences worst;
    compare(metres.features["features"], told.features["features"], worst);
    compare(metres.spots["features"], told.spots["features"], worst);
    std::cout << "same lake, " << what << ": depth " << worst.depth_m << " m, place " << worst.place_m << " m, score "
              << worst.score << ", bearing " << worst.bearing_deg << " degrees\n";
    CHECK(worst.depth_m <= 0.0101);
    CHECK(worst.place_m <= 0.5);
    CHECK(worst.score <= 0.001);
    CHECK(worst.bearing_deg <= 0.5);
  };
  same("feet", scouted(scratch,
                       written(
                           scratch, "feet", [](double d) { return d / 0.3048; }, kMetres, 1),
                       "--unit ft"));
  same("fathoms", scouted(scratch,
                          written(
                              scratch, "fathoms", [](double d) { return d / 1.8288; }, kMetres, 1),
                          "--unit fathom"));
  same("heights", scouted(scratch,
                          written(
                              scratch, "heights", [](double d) { return -d; }, kMetres, 1),
                          "--unit m --sense height"));
  same("elevation", scouted(scratch,
                            written(
                                scratch, "elevation", [](double d) { return 312.4 - d; }, kMetres, 1),
                            "--unit m --sense elevation --surface 312.4m"));
  same("US-foot grid", scouted(scratch, written(scratch, "usfeet", kDepth, kUsFeet, 3937.0 / 1200), "--unit m"));
  same("south-up", scouted(scratch, written(scratch, "southup", kDepth, kMetres, 1, true), "--unit m"));
}

TEST_CASE("the same lake resampled: degrees, web Mercator, a zone far from its meridian, oblong cells") {
  const Scratch scratch;
  const std::string source = written(scratch, "metres", kDepth, kMetres, 1);
  const Told metres = scouted(scratch, source, "--unit m");
  const auto like = [&](const std::string& what, const std::string& warp) {
    const std::string out = scratch.path(what + ".tif");
    const Result made = run("gdalwarp -q -r bilinear -dstnodata -9999 " + warp + " " + source + " " + out);
    INFO(made.text);
    REQUIRE(made.code == 0);
    const Told told = scouted(scratch, out, "--unit m");
    double worst_place = 0, worst_depth = 0, worst_turn = 0;
    for (const auto& [kind, key, depth] :
         {std::tuple("pool", "deepest", "max_depth_m"), std::tuple("hump", "top", "top_depth_m")}) {
      CHECK(told.features["metadata"]["counts"][kind] == metres.features["metadata"]["counts"][kind]);
      for (const json& feature : metres.features["features"]) {
        const json& p = feature["properties"];
        if (p["kind"] != kind) continue;
        const auto [other, away] = nearest(told.features, kind, key, p[key]);
        REQUIRE(other != nullptr);
        worst_place = std::max(worst_place, away);
        worst_depth = std::max(worst_depth, std::abs(p[depth].get<double>() - (*other)[depth].get<double>()));
      }
    }
    int edges = 0, twins = 0;
    // bearings are true, whatever the grid's north: each edge against the piece whose middle is nearest
    for (const json& feature : metres.features["features"]) {
      if (feature["properties"]["kind"] != "drop-off") continue;
      const json& line = feature["geometry"]["coordinates"];
      const json& middle = line[line.size() / 2];
      double closest = 1e9, turn = 0;
      for (const json& other : told.features["features"]) {
        if (other["properties"]["kind"] != "drop-off") continue;
        const json& twin = other["geometry"]["coordinates"];
        const double away = apart_m(middle, twin[twin.size() / 2]);
        if (away >= closest) continue;
        closest = away;
        turn = std::remainder(
            feature["properties"]["faces_deg"].get<double>() - other["properties"]["faces_deg"].get<double>(), 360.0);
      }
      // pieces that begin elsewhere face elsewhere: only twins are compared
      ++edges;
      if (closest >= 15) continue;
      ++twins;
      worst_turn = std::max(worst_turn, std::abs(turn));
    }
    const double breaks = total(told.features, "drop-off", "length_m") / total(metres.features, "drop-off", "length_m");
    const double weeds =
        total(told.features, "weed-line", "length_m") / total(metres.features, "weed-line", "length_m");
    // the scores in falling order, rank by rank
    const auto& spots = metres.spots["features"];
    REQUIRE(told.spots["features"].size() == spots.size());
    double worst_score = 0;
    for (std::size_t i = 0; i < spots.size(); ++i) {
      const json &score = spots[i]["properties"]["score"], &other = told.spots["features"][i]["properties"]["score"];
      worst_score = std::max(worst_score, std::abs(score.get<double>() - other.get<double>()));
    }
    std::cout << "same lake, " << what << ": place " << worst_place << " m, depth " << worst_depth << " m, facing "
              << worst_turn << " degrees, drop-offs x " << breaks << ", weed lines x " << weeds << ", scores "
              << worst_score << ", " << twins << " of " << edges << " edges compared\n";
    CHECK(worst_place <= kCell * std::sqrt(2.0));  // one cell, corner to corner
    CHECK(worst_depth <= 0.15);
    CHECK(2 * twins >= edges);
    CHECK(worst_turn <= 4);
    CHECK(breaks == Approx(1).margin(0.06));
    CHECK(weeds == Approx(1).margin(0.03));
    CHECK(worst_score <= 0.05);
  };
  like("degrees", "-t_srs EPSG:4326");
  like("mercator", "-t_srs EPSG:3857 -tr 7.1 7.1");
  like("zone_12_degrees_off", "-t_srs EPSG:32626 -tr 5 5");
  like("oblong", "-tr 4 6");
}

namespace {

/// Fallen trees at places all round the lake, on the shelf and at its edge: places that differ from each other, as wood
/// on a real lake does. From the lake's own centre, metres.
std::string with_wood(const Scratch& scratch, const std::string& raster, const std::string& name) {
  const Projection plane = Projection::from_text(kMetres);
  std::string features;
  for (const auto& [east, north] :
       {std::pair(255.0, 40.0), std::pair(150.0, 215.0), std::pair(-60.0, 225.0), std::pair(-255.0, 120.0),
        std::pair(-240.0, -90.0), std::pair(-60.0, -235.0), std::pair(140.0, -225.0)}) {
    const LonLat at = plane.to_lonlat({kWest + kCols * kCell / 2 + east, kSouth + kRows * kCell / 2 + north});
    char text[200];
    std::snprintf(text, sizeof text,
                  R"({"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[%.9f,%.9f]}})",
                  at.lon.degrees, at.lat.degrees);
    features += (features.empty() ? "" : ",") + std::string(text);
  }
  scratch.write("wood.geojson", R"({"type":"FeatureCollection","features":[)" + features + "]}");
  return scratch.write(name + ".toml", "name = \"x\"\n[depth]\nraster = \"" + raster +
                                           "\"\nunit = \"m\"\n[[structure]]\nfile = \"wood.geojson\"\nkind = "
                                           "\"wood\"\n[conditions]\nsecchi = \"2.2 m\"\n");
}

}  // namespace

// One grid of 2 m, sampled again by GDAL. Where places differ in worth, as beside wood, the spots are the same to a
// cell and 0.001 of a score. (Along an even edge, where places are worth the same to 0.01, another of them may be
// taken.)
TEST_CASE("the same spots where the lake was resampled") {
  const Scratch scratch;
  const std::string source = written_fine(scratch, "metres");
  const auto spots_of = [&](const std::string& name, const std::string& raster) {
    const Run run =
        run_castplan(scratch, "scout " + with_wood(scratch, raster, name) +
                                  " --water-temp 66F --trend rising --spots 6 --quiet --out " + scratch.path("plan"));
    INFO(run.err);
    REQUIRE(run.code == 0);
    return json_in(scratch.path("plan/spots.geojson"))["features"];
  };
  const json own = spots_of("own", source);
  REQUIRE(own.size() == 6);
  for (const auto& [name, warp] :
       {std::pair("degrees", "-t_srs EPSG:4326"), std::pair("mercator", "-t_srs EPSG:3857 -tr 2.84 2.84"),
        std::pair("zone_12_degrees_off", "-t_srs EPSG:32626 -tr 2 2"), std::pair("oblong", "-tr 1.6 2.4")}) {
    const std::string out = scratch.path(std::string(name) + ".tif");
    REQUIRE(run("gdalwarp -q -r cubic -dstnodata -9999 " + std::string(warp) + " " + source + " " + out).code == 0);
    const json other = spots_of(name, out);
    REQUIRE(other.size() == own.size());
    double place = 0, score = 0, depth = 0;
    for (const json& spot : own) {
      double nearest = 1e9;
      const json* twin = nullptr;
      for (const json& each : other) {
        const double away = apart_m(spot["properties"]["target"], each["properties"]["target"]);
        if (away < nearest) {
          nearest = away;
          twin = &each;
        }
      }
      place = std::max({place, nearest, apart_m(spot["geometry"]["coordinates"], (*twin)["geometry"]["coordinates"])});
      score = std::max(
          score, std::abs(spot["properties"]["score"].get<double>() - (*twin)["properties"]["score"].get<double>()));
      for (const char* key : {"target_depth_m", "boat_depth_m"}) {
        depth =
            std::max(depth, std::abs(spot["properties"][key].get<double>() - (*twin)["properties"][key].get<double>()));
      }
    }
    std::cout << "same spots, " << name << ": place " << place << " m, score " << score << ", depth " << depth
              << " m\n";
    CHECK(place <= 2);  // one cell
    CHECK(score <= 0.001);
    CHECK(depth <= 0.0201);  // of the boat, which need not be at one
  }
}
