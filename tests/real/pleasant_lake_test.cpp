// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Pleasant Lake, Wisconsin: WDNR Central Sands Lakes Study field data, CSLSdata 1.0 (MIT). See README.md.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "castplan/grid/isoline.hpp"
#include "castplan/season/weeds.hpp"
#include "castplan/terrain/fetch.hpp"
#include "castplan/terrain/waves.hpp"
#include "real/gridded.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("pleasant-lake-wi", {"bed_elevation.tif", "elev_area_volume.csv", "secchi.csv", "plant_limits_ft.csv",
                                     "derived/depth_ft.tif", "derived/depth_cm_int16.tif", "derived/depth_m.asc",
                                     "derived/depth_m_wgs84.tif", "derived/shoreline_299.05m.shp",
                                     "derived/shoreline_299.05m_wgs84.geojson"});
}

constexpr double kCell = 5.486410972817869;  // side of a cell, as the raster states it

Lake at_level(const std::string& data, double surface) {
  LakeFile file = raster_file(data + "/bed_elevation.tif", DepthUnit::metre, Sense::elevation);
  file.raster.surface = Metres(surface);
  return load_lake(file).lake;
}

// The same lake, written in another way. All of them stand at water level 299.0544 m.
struct Version {
  std::string name;
  std::optional<DepthUnit> unit;  // only where the file has none
  Sense sense;
  std::string shoreline;
  double tolerance_pct;
  enum Cells { same, rounded, warped } cells;  // the depths' own, rounded to a centimetre, or drawn anew on degrees
};
const std::vector<Version>& versions() {
  static const std::vector<Version> all{
      {"depth_ft.tif", {}, Sense::depth, "", 0.5, Version::same},
      {"depth_cm_int16.tif", {}, Sense::height, "", 0.5, Version::rounded},
      {"depth_m.asc", DepthUnit::metre, Sense::depth, "", 0.5, Version::rounded},
      {"depth_ft.tif", {}, Sense::depth, "shoreline_299.05m.shp", 0.5, Version::same},
      {"depth_m.asc", DepthUnit::metre, Sense::depth, "shoreline_299.05m_wgs84.geojson", 0.5, Version::rounded},
      {"depth_m_wgs84.tif", DepthUnit::metre, Sense::depth, "", 1.0, Version::warped},
      {"depth_m_wgs84.tif", DepthUnit::metre, Sense::depth, "shoreline_299.05m.shp", 1.0, Version::warped},
  };
  return all;
}

Lake load(const std::string& data, const Version& version) {
  LakeFile file = raster_file(data + "/derived/" + version.name, version.unit, version.sense);
  if (!version.shoreline.empty()) file.shoreline = VectorOptions{data + "/derived/" + version.shoreline, "", ""};
  return load_lake(file).lake;
}

// Cells of water joined by their sides alone, counted; largest first.
std::vector<int> parts_by_sides(const Lake& lake) {
  std::set<std::size_t> seen;
  std::vector<int> out;
  for (std::size_t start = 0; start < lake.cover.size(); ++start) {
    std::vector<Cell> open{lake.cover.cell_of(start)};
    int count = 0;
    while (!open.empty()) {
      const Cell at = open.back();
      open.pop_back();
      if (!lake.cover.holds(at) || lake.cover[at] != Cover::water || !seen.insert(lake.cover.index(at)).second)
        continue;
      ++count;
      for (const Cell next :
           {Cell{at.row - 1, at.col}, Cell{at.row + 1, at.col}, Cell{at.row, at.col - 1}, Cell{at.row, at.col + 1}}) {
        open.push_back(next);
      }
    }
    if (count > 0) out.push_back(count);
  }
  std::sort(out.rbegin(), out.rend());
  return out;
}

// What a version's features come to.
struct Tally {
  std::size_t pools = 0;
  double deepest = 0;    // metres
  XY at{};               // of the deepest pool
  double drop_offs = 0;  // metres of edge
  double weed_lines = 0;
  std::size_t humps = 0;
};

Tally tally(const std::vector<Feature>& features) {
  Tally out;
  for (const Feature& feature : features) {
    if (const auto* pool = std::get_if<Pool>(&feature.details)) {
      if (out.pools++ == 0) {
        out.deepest = pool->max_depth.value();
        out.at = pool->deepest;
      }
    }
    if (const auto* edge = std::get_if<DropOff>(&feature.details)) out.drop_offs += edge->length.value();
    if (const auto* edge = std::get_if<WeedLine>(&feature.details)) out.weed_lines += edge->length.value();
    if (feature.kind == Kind::hump) ++out.humps;
  }
  return out;
}

// The features of the lake are those of the elevation raster. The file's own cells lie on the same plane, so that the
// deepest cell is the same one; in degrees it lies 1 m off, since the two files write one datum, NAD83(HARN), in two
// ways, for which PROJ knows two ways to WGS 84. Depths rounded or drawn anew may add or lose a stretch of drop-off
// that just meets the limits: 10 %, or two of the shortest stretches (2 x 30 m; three where the nearest cells were
// taken, which moves each by up to half a cell) where that is more, on some 450 m.
void check_features(const std::string& name, const Version& version, const Tally& wanted, const Tally& found,
                    XY there) {
  CHECK(found.pools == wanted.pools);
  CHECK(found.humps == wanted.humps);
  CHECK(std::abs(percent_off(name + ": deepest pool", wanted.deepest, found.deepest, "m")) <= version.tolerance_pct);
  if (version.cells != Version::warped) CHECK(distance(found.at, wanted.at).value() < 0.01);
  note("{}: deepest place {:.2f} m from the elevation raster's", name, distance(found.at, there).value());
  CHECK(distance(found.at, there).value() <= kCell);
  const double width = version.cells == Version::same ? version.tolerance_pct : 10.0;
  const double stretches = version.cells == Version::same ? 0 : version.cells == Version::rounded ? 2 : 3;
  CHECK(std::abs(percent_off(name + ": drop-offs", wanted.drop_offs, found.drop_offs, "m")) <=
        std::max(width, 100 * stretches * 30.0 / wanted.drop_offs));
  CHECK(std::abs(percent_off(name + ": weed lines", wanted.weed_lines, found.weed_lines, "m")) <= width);
}

struct Ranked {
  const Lake& lake;
  std::vector<PhaseSpots> phases;
};

// The first spot of each phase lies within a cell of the other lake's. Depths rounded to a centimetre may turn the
// order of two places whose scores are equal to three decimals: at most one phase. Cells drawn anew: scores only.
void check_first_spots(const std::string& name, const Version& version, const Ranked& wanted, const Ranked& found) {
  REQUIRE(found.phases.size() == wanted.phases.size());
  int elsewhere = 0;
  for (std::size_t i = 0; i < wanted.phases.size(); ++i) {
    REQUIRE(wanted.phases[i].spots.size() == 1);
    REQUIRE(found.phases[i].spots.size() == 1);
    const Spot& theirs = wanted.phases[i].spots[0];
    const Spot& ours = found.phases[i].spots[0];
    const XY there = found.lake.projection.from_lonlat(wanted.lake.projection.to_lonlat(theirs.target));
    const Metres apart = distance(there, ours.target);
    note("{}: first spot of {}: {:.2f} m from the elevation raster's, scores {:.4f} and {:.4f}", name,
         wanted.phases[i].phase->name, apart.value(), ours.score, theirs.score);
    if (apart.value() > kCell) ++elsewhere;
    if (version.cells == Version::rounded && apart.value() > kCell) CHECK(std::abs(ours.score - theirs.score) < 0.001);
    if (version.cells == Version::warped) CHECK(std::abs(ours.score - theirs.score) < 0.05);
  }
  if (version.cells == Version::same) CHECK(elsewhere == 0);
  if (version.cells == Version::rounded) CHECK(elsewhere <= 1);
}

}  // namespace

TEST_CASE("Pleasant Lake: area and volume follow the water level as in the study's table") {
  const auto data = lake_data();
  if (!data) return;
  // lake_levels.csv of the study: level, area, volume
  struct Row {
    double level, area, volume;
  };
  for (const Row& row :
       {Row{299.0544, 552830.5, 2737258}, Row{299.4781, 565674, 2974489}, Row{299.6971, 571895, 3099077}}) {
    const Lake lake = at_level(*data, row.level);
    CHECK(std::abs(percent_off(fmt::format("Pleasant Lake at {} m: area", row.level), row.area, lake.area.value(),
                               "m2")) <= 1.0);
    CHECK(std::abs(percent_off(fmt::format("Pleasant Lake at {} m: volume", row.level), row.volume, lake.volume.value(),
                               "m3")) <= 1.0);
    CHECK(lake.cut_share == 0.0);
  }
}

TEST_CASE("Pleasant Lake: area and volume at other levels of the study's elevation table") {
  const auto data = lake_data();
  if (!data) return;
  // elev_area_volume.csv of the study: every 30.48 mm from the deepest point; here every metre and a half from 3 m of
  // water up to above today's shore
  int levels = 0;
  const auto rows = table(*data + "/elev_area_volume.csv");
  for (std::size_t i = 100; i < rows.size() && std::stod(rows[i].at("elev_m")) < 300.5; i += 49) {
    const double level = std::stod(rows[i].at("elev_m"));
    const Lake lake = at_level(*data, level);
    ++levels;
    CHECK(std::abs(percent_off(fmt::format("Pleasant Lake at {:.4f} m, table: area", level),
                               std::stod(rows[i].at("area_m2")), lake.area.value(), "m2")) <= 1.0);
    CHECK(std::abs(percent_off(fmt::format("Pleasant Lake at {:.4f} m, table: volume", level),
                               std::stod(rows[i].at("vol_m3")), lake.volume.value(), "m3")) <= 1.0);
  }
  CHECK(levels >= 4);
}

TEST_CASE("Pleasant Lake: depths and waters at 299.0544 m") {
  const auto data = lake_data();
  if (!data) return;
  const Lake lake = at_level(*data, 299.0544);
  // Maximum depth 25 ft: Wisconsin DNR study page. 7.91 m, 4.95 m and the thirteen cells: counted in the raster with
  // other software (data folder's README).
  CHECK(std::abs(percent_off("Pleasant Lake: maximum depth, published 25 ft", 25.0, to_feet(lake.max_depth), "ft")) <=
        5.0);
  CHECK(std::abs(percent_off("Pleasant Lake: maximum depth, counted", 7.91, lake.max_depth.value(), "m")) <= 0.1);
  CHECK(std::abs(percent_off("Pleasant Lake: mean depth, counted", 4.95, lake.mean_depth.value(), "m")) <= 0.2);
  CHECK(std::abs(percent_off("Pleasant Lake: area, published 120 acres", 120 * 4046.8564224, lake.area.value(),
                             "m2")) <= 15.0);  // the level of the published area is not stated
  // The raster's steps add up to 4,773 m; the line itself is shorter, by 4 / pi at most.
  const double steps = percent_off("Pleasant Lake: shoreline, stepped outline", 4773, lake.shoreline.value(), "m");
  CHECK(steps < 0.0);
  CHECK(steps > -100.0 * (1.0 - 0.785));

  // Thirteen cells hang on the lake by their corners alone. Joined by sides they are a second puddle, as the README of
  // the data counts it; a water body of ours is joined by corners too, so that there is one, and it holds them.
  CHECK(parts_by_sides(lake) == std::vector<int>{18352, 13});
  CHECK(lake.bodies.size() == 1);
  CHECK(std::abs(percent_off("Pleasant Lake: the one water, 18,365 cells", 18365 * kCell * kCell,
                             lake.bodies[0].area.value(), "m2")) <= 0.01);

  // The traced shoreline leaves the puddle out: 552,408 m2, measured with other software (data folder's README).
  const Version& clipped = versions()[3];
  CHECK(std::abs(percent_off("Pleasant Lake: inside the traced shoreline", 552408, load(*data, clipped).area.value(),
                             "m2")) <= 0.01);
}

TEST_CASE("Pleasant Lake: every way of writing the depths gives the same lake") {
  const auto data = lake_data();
  if (!data) return;
  const WeedKnowledge weeds{weed_depth_from_secchi(feet(12.5)).expected, WeedSource::predicted};
  const Lake wanted = at_level(*data, 299.0544);
  const auto features = features_of(wanted, weeds);
  const Tally counted = tally(features);
  const auto spots = spots_of(wanted, features, 1);
  CHECK(counted.pools >= 1);
  CHECK(counted.drop_offs > 0);
  CHECK(counted.weed_lines > 0);
  note("Pleasant Lake: {} pools, {:.0f} m of drop-offs, {:.0f} m of weed lines", counted.pools, counted.drop_offs,
       counted.weed_lines);

  for (const Version& version : versions()) {
    const std::string name = version.name + (version.shoreline.empty() ? "" : " + " + version.shoreline);
    INFO(name);
    const Lake lake = load(*data, version);
    CHECK(std::abs(percent_off(name + ": area", 552799, lake.area.value(), "m2")) <= version.tolerance_pct);
    CHECK(std::abs(percent_off(name + ": volume", 2737252, lake.volume.value(), "m3")) <= version.tolerance_pct);
    CHECK(std::abs(percent_off(name + ": max depth", 7.91, lake.max_depth.value(), "m")) <= version.tolerance_pct);
    // A shoreline given beside cells that were drawn anew leaves shore cells without a depth: unknown, not land.
    if (version.cells != Version::warped || version.shoreline.empty()) CHECK(lake.cut_share == 0.0);

    const auto found = features_of(lake, weeds);
    const XY deepest = lake.projection.from_lonlat(wanted.projection.to_lonlat(counted.at));
    check_features(name, version, counted, tally(found), deepest);
    check_first_spots(name, version, {wanted, spots}, {lake, spots_of(lake, found, 1)});
  }
}

TEST_CASE("Pleasant Lake: the deepest plants lie in the band predicted from Secchi depth") {
  const auto data = lake_data();
  if (!data) return;
  std::vector<double> summer;  // feet, June to September
  for (const auto& row : table(*data + "/secchi.csv")) {
    const int month = std::stoi(row.at("datetime_local").substr(5, 2));
    if (month < 6 || month > 9 || row.at("secchi_ft").empty() || row.at("hit_bottom") != "NO") continue;
    summer.push_back(std::stod(row.at("secchi_ft")));
  }
  REQUIRE(summer.size() == 15);
  const double secchi = median(summer);
  CHECK(std::abs(percent_off("Pleasant Lake: median summer Secchi, README 12.5 ft", 12.5, secchi, "ft")) <= 0.5);

  double limit = 0;  // plant_limits_ft.csv of the study: the submergent "weed" community ends at 15 ft
  for (const auto& row : table(*data + "/plant_limits_ft.csv")) {
    if (row.at("community") == "submergent_weed") limit = std::stod(row.at("deep_ft"));
  }
  REQUIRE(limit == 15.0);
  const WeedDepth band = weed_depth_from_secchi(feet(secchi));
  percent_off("Pleasant Lake: plant limit, expected from Secchi", feet(limit).value(), band.expected.value(), "m");
  note("Pleasant Lake: predicted band {:.2f} to {:.2f} m", band.low.value(), band.high.value());
  CHECK(feet(limit) >= band.low);
  CHECK(feet(limit) <= band.high);
}

// plant_limits_ft.csv of the study: submergent weeds begin at 1.6 ft. An ordinary windy day of 5 m/s is a design
// choice, which this checks: the waves it raises at the shores let go of the bottom near there.
TEST_CASE("Pleasant Lake: the shallowest plants stand where waves of 5 m/s let go of the bottom") {
  const auto data = lake_data();
  if (!data) return;
  double begin = 0;
  for (const auto& row : table(*data + "/plant_limits_ft.csv")) {
    if (row.at("community") == "submergent_weed") begin = std::stod(row.at("shallow_ft"));
  }
  REQUIRE(begin == 1.6);
  const Lake lake = at_level(*data, 299.0544);
  const WindFetch fetch(lake);
  std::vector<double> bases;
  for (const Line& line : isolines(lake.depth, 0.5F)) {
    for (const XY at : resampled(line, Metres(50))) {
      const auto reach = fetch.greatest(at);
      if (reach) bases.push_back(wave_base(shallow_waves(MetresPerSecond(5), *reach, lake.mean_depth).period).value());
    }
  }
  REQUIRE(bases.size() > 20);
  percent_off("Pleasant Lake: shallowest submergent plants, median wave base", feet(begin).value(), median(bases), "m");
  CHECK(std::abs(median(bases) - feet(begin).value()) <= 0.2);
}

// The study's raster as a contour map: gdal_contour (Debian package gdal-bin) draws lines every 2 ft and at 25
// ft, which are gridded again on cells like the raster's. Area and volume: the study's table at 299.0544 m; deepest and
// mean: counted in the raster (data folder's README).
TEST_CASE("Pleasant Lake: gridded from its contours") {
  const auto data = lake_data();
  if (!data) return;
  const programs::Scratch scratch;
  const std::string lines = scratch.path("contours.gpkg");
  const auto drawn = programs::run("gdal_contour -q -f GPKG -a depth_ft -fl 2 4 6 8 10 12 14 16 18 20 22 24 25 '" +
                                   *data + "/derived/depth_ft.tif' " + lines);
  INFO(drawn.text);
  REQUIRE(drawn.code == 0);
  const auto told = check_gridded("--contours " + lines + " --field depth_ft --unit ft --shoreline '" + *data +
                                      "/derived/shoreline_299.05m.shp' --cell 5.5m",
                                  {"Pleasant Lake", 55.2408, 2.737258, 4.95, 7.91, 0.5, 1, 1, 2});
  // it goes on below the last contour by less than one interval
  CHECK(told["max_depth_m"].get<double>() > 25 * 0.3048);
  CHECK(told["max_depth_m"].get<double>() < 27 * 0.3048);
  CHECK(told["flat_share"].get<double>() < 0.005);
}
