// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <set>

#include "castplan/geo/error.hpp"
#include "castplan/io/lake_file.hpp"
#include "castplan/io/load.hpp"
#include "cli/castplan_run.hpp"

using namespace castplan::programs;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

std::string bowl(const Scratch& scratch, const std::string& name = "heron_mere.asc", bool crs = true) {
  return ascii_grid(scratch, name, 40, 40, small_bowl, crs);
}

/// What the lake file's reader says against it; empty for nothing.
std::string complaint_of(const std::string& path) {
  try {
    static_cast<void>(castplan::read_lake_file(path));
  } catch (const castplan::InputError& error) {
    return error.what();
  }
  return {};
}

void replace(std::string& text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  INFO(from << "\n" << text);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("inspect says in words what a raster is, what is wrong and how to mend it") {
  const Scratch scratch;
  const Run run = run_castplan(scratch, "inspect " + bowl(scratch));
  CHECK(run.code == 0);  // read, though it cannot be used yet
  CHECK(run.err.empty());
  CHECK_THAT(run.out, Contains("heron_mere.asc: raster, Arc/Info ASCII Grid") && Contains("WGS 84 / UTM zone 24N") &&
                          Contains("40 by 40, each 5.00 by 5.00 m"));
  CHECK_THAT(run.out, Contains("error: heron_mere.asc: states no unit") && Contains("mend: ") && Contains("--unit ft"));
  // the centre, (420100, 5040100) in UTM 24N, by GDAL
  const auto centre =
      castplan::programs::run("echo 420100 5040100 | gdaltransform -s_srs EPSG:32624 -t_srs EPSG:4326 -output_xy");
  REQUIRE(centre.code == 0);
  char place[64];
  std::snprintf(place, sizeof place, "centre %.4f N, %.4f W", std::stod(centre.text.substr(centre.text.find(' '))),
                -std::stod(centre.text));
  CHECK_THAT(run.out, Contains(place));
  const Run told = run_castplan(scratch, "inspect " + bowl(scratch) + " --unit m");
  CHECK_THAT(told.out, Contains("given with --unit") && Contains("Nothing looks wrong."));
  CHECK(run_castplan(scratch, "inspect " + bowl(scratch) + " --unit m --quiet").out.empty());
}

TEST_CASE("inspect --json holds files and findings by their fixed names") {
  const Scratch scratch;
  const Run run = run_castplan(scratch, "inspect --json " + bowl(scratch));
  REQUIRE(run.code == 0);
  const json all = json::parse(run.out);
  REQUIRE(all.is_object());
  CHECK(all.size() == 4);
  CHECK(all.at("schema") == 1);
  // one warning for each finding that is no note, by the same code and text
  std::size_t serious = 0;
  for (const json& finding : all.at("findings")) {
    if (finding["severity"] == "note") continue;
    REQUIRE(all.at("warnings").size() > serious);
    CHECK(all["warnings"][serious] == json{{"code", finding["code"]}, {"text", finding["text"]}});
    ++serious;
  }
  CHECK(all.at("warnings").size() == serious);
  CHECK(serious > 0);
  REQUIRE(all.at("files").size() == 1);
  const json& file = all["files"][0];
  CHECK(file.at("name") == "heron_mere.asc");
  CHECK(file.at("raster").at("unit").is_null());
  CHECK(file["raster"].at("sense") == "depth");
  CHECK(file["raster"].at("high").get<double>() == Approx(6 * (1 - 0.5 / 324)).margin(1e-4));  // the bowl's formula
  REQUIRE(!all.at("findings").empty());
  for (const json& finding : all["findings"]) {
    std::set<std::string> names;
    for (const auto& [name, value] : finding.items()) names.insert(name);
    CHECK(names == std::set<std::string>{"severity", "code", "text", "mend"});
    const std::string severity = finding["severity"];
    CHECK((severity == "error" || severity == "warning" || severity == "note"));
  }
  CHECK(all["findings"][0]["code"] == "no-unit");
  CHECK(run.out == run_castplan(scratch, "inspect --json " + bowl(scratch)).out);
}

TEST_CASE("inspect changes no file and leaves none behind") {
  const Scratch scratch;
  std::filesystem::create_directory(scratch.path("data"));
  for (const auto& entry : std::filesystem::directory_iterator(CASTPLAN_SOURCE_DIR "/sample_rasters")) {
    std::filesystem::copy(entry.path(), scratch.path("data/" + entry.path().filename().string()));
  }
  bowl(scratch, "data/bowl.asc");
  scratch.write("data/points.csv", "lon,lat,depth\n-39.2,45.5,3.5\n-39.2,45.6,2\n");
  const auto before = files_in(scratch.path("data"));
  std::map<std::string, std::string> sums;
  for (const auto& [name, bytes] : before) sums[name] = castplan::sha256_of(scratch.path("data/" + name));
  for (const char* name :
       {"ossilby.toml", "ossilby_depth.tif", "wood.shp", "shoreline.gpkg", "bowl.asc", "points.csv"}) {
    INFO(name);
    CHECK(run_castplan(scratch, "inspect " + scratch.path("data/") + name).code == 0);
  }
  const auto after = files_in(scratch.path("data"));
  CHECK(after.size() == before.size());
  for (const auto& [name, bytes] : after) CHECK(castplan::sha256_of(scratch.path("data/" + name)) == sums[name]);
}

TEST_CASE("a drafted lake file can be read once the missing parts are filled in") {
  const Scratch scratch;
  std::filesystem::create_directory(scratch.path("lakes"));
  const std::string draft = scratch.path("lakes/heron.toml");
  const std::string raster = bowl(scratch, "heron_mere.asc", false);
  REQUIRE(run_castplan(scratch, "inspect " + raster + " --write-lake " + draft).code == 0);
  std::string text = read(draft);
  CHECK_THAT(text, Contains("name = \"Heron mere\"") && Contains("raster = \"../heron_mere.asc\"") &&
                       Contains("sense = \"depth\""));
  // nothing that was not established is claimed
  CHECK_THAT(text, !Contains("\nunit = ") && !Contains("\ncrs = ") && !Contains("\nsurveyed = "));
  CHECK(castplan::read_lake_file(draft).name == "Heron mere");
  CHECK(run_castplan(scratch, "inspect " + draft + " --json").code == 0);
  replace(text, "# unit = \"m\"", "unit = \"ft\"");
  replace(text, "# crs = \"EPSG:...\"", "crs = \"EPSG:32624\"");
  replace(text, "# surveyed = 1994", "surveyed = 1994");
  replace(text, "# error = ", "error = ");
  replace(text, "# source = ", "source = ");
  replace(text, "# licence = ", "licence = ");
  replace(text, "# [level]", "[level]");
  replace(text, "# survey = ", "survey = ");
  replace(text, "# today = ", "today = ");
  scratch.write("lakes/heron.toml", text);
  const auto lake = castplan::load_lake(castplan::read_lake_file(draft));
  // 6 ft deep, less the half cell off the middle, at a level 0.4 m lower (312.4 to 312.0 m)
  CHECK(lake.lake.max_depth.value() == Approx(6 * (1 - 0.5 / 324) * 0.3048 - 0.4).margin(1e-4));
}

TEST_CASE("what was told is drafted; what is there is not overwritten") {
  const Scratch scratch;
  const std::string raster = bowl(scratch, "b.asc", false);
  const std::string draft = scratch.path("b.toml");
  const Run run =
      run_castplan(scratch, "inspect " + raster + " --unit ft --crs EPSG:32624 --json --write-lake " + draft);
  REQUIRE(run.code == 0);
  CHECK(json::parse(run.out).contains("files"));
  const castplan::LakeFile file = castplan::read_lake_file(draft);
  CHECK(file.raster.unit == castplan::DepthUnit::foot);
  CHECK(file.raster.crs == "EPSG:32624");
  CHECK(castplan::load_lake(file).lake.max_depth.value() == Approx(6 * (1 - 0.5 / 324) * 0.3048).margin(1e-4));
  const std::string before = read(draft);
  const Run again = run_castplan(scratch, "inspect " + raster + " --unit m --write-lake " + draft);
  CHECK(again.code == 4);
  CHECK_THAT(again.err, Contains("b.toml") && Contains("not overwritten"));
  CHECK(read(draft) == before);
  CHECK(run_castplan(scratch, "inspect " + raster + " --write-lake " + scratch.path("none/b.toml")).code == 4);
  CHECK(run_castplan(scratch, "inspect " + draft + " --write-lake " + scratch.path("c.toml")).code == 2);
}

TEST_CASE("a shoreline or contours are drafted as such") {
  const Scratch scratch;
  const std::string shore = CASTPLAN_SOURCE_DIR "/sample_rasters/shoreline.gpkg";
  REQUIRE(run_castplan(scratch, "inspect " + shore + " --write-lake " + scratch.path("s.toml")).code == 0);
  std::string text = read(scratch.path("s.toml"));
  CHECK_THAT(complaint_of(scratch.path("s.toml")), Contains("raster"));
  replace(text, "# raster = \"depth.tif\"", "raster = \"depth.tif\"");
  const auto file = castplan::read_lake_file(scratch.write("s.toml", text));
  REQUIRE(file.shoreline);
  CHECK(std::filesystem::equivalent(file.shoreline->path, shore));

  // contours are gridded first
  scratch.write("c.geojson", R"({"type":"FeatureCollection","features":[
    {"type":"Feature","properties":{"DEPTH":0},"geometry":{"type":"LineString","coordinates":[[-39.2,45.5],[-39.1,45.5]]}},
    {"type":"Feature","properties":{"DEPTH":3},"geometry":{"type":"LineString","coordinates":[[-39.2,45.4],[-39.1,45.5]]}}
    ]})");
  REQUIRE(
      run_castplan(scratch, "inspect " + scratch.path("c.geojson") + " --write-lake " + scratch.path("c.toml")).code ==
      0);
  std::string lines = read(scratch.path("c.toml"));
  CHECK_THAT(lines, Contains("\n[[depth.contours]]\nfile = \"c.geojson\"") && Contains("\nfield = \"DEPTH\""));
  replace(lines, "# unit = ", "unit = ");
  const auto drafted = castplan::read_lake_file(scratch.write("c.toml", lines));
  CHECK(drafted.name == "C");
  REQUIRE(drafted.contours.size() == 1);
  CHECK(drafted.contours[0].field == "DEPTH");
}

TEST_CASE("inspect ends with 3 where nothing can be read, with 2 where the words are wrong") {
  const Scratch scratch;
  CHECK(run_castplan(scratch, "inspect " + scratch.path("none.tif")).code == 3);
  const Run text = run_castplan(scratch, "inspect " + scratch.write("notes.dat", "no raster at all"));
  CHECK(text.code == 3);
  CHECK_THAT(text.err, Contains("notes.dat"));
  CHECK(run_castplan(scratch, "inspect " + scratch.write("bad.toml", "name = \"x\"\n[depht]\n")).code == 3);
  CHECK(run_castplan(scratch, "inspect").code == 2);
  CHECK(run_castplan(scratch, "inspect " + bowl(scratch) + " --unit cubits").code == 2);
  CHECK(run_castplan(scratch, "inspect " + kSample + " --unit m").code == 2);
  // a lake file whose layer is gone: read as far as it goes
  bowl(scratch, "bowl.asc");
  const Run part =
      run_castplan(scratch, "inspect --json " + scratch.write("part.toml",
                                                              "name = \"x\"\n[depth]\nraster = \"bowl.asc\"\nunit = "
                                                              "\"m\"\n[shoreline]\nfile = \"gone.shp\"\n"));
  CHECK(part.code == 0);
  CHECK_THAT(part.out, Contains("gone.shp"));
}

TEST_CASE("a lake file with soundings and contours instead of a raster is looked at file by file") {
  const Scratch scratch;
  scratch.write("log.csv", "lon,lat,depth_ft\n-39.20,45.50,10\n-39.18,45.52,30\n");
  scratch.write("c.geojson", R"({"type":"FeatureCollection","features":[
    {"type":"Feature","properties":{"DEPTH_M":3},"geometry":{"type":"LineString","coordinates":[[-39.2,45.4],[-39.1,45.5]]}}
    ]})");
  const std::string file =
      scratch.write("lake.toml",
                    "name = \"x\"\n[depth]\n[[depth.soundings]]\nfile = \"log.csv\"\n[[depth.contours]]\nfile = "
                    "\"c.geojson\"\n");
  const Run run = run_castplan(scratch, "inspect " + file);
  INFO(run.err);
  CHECK(run.code == 0);
  CHECK_THAT(run.out, Contains("log.csv: table") && Contains("3.048 to 9.144") && Contains("c.geojson: vector") &&
                          Contains("centre 45.5100 N, 39.1900 W") && !Contains("error:"));
  scratch.write("log.csv", "lon,lat,depth_ft\n45.50,-139.20,10\n45.52,-139.18,30\n");
  CHECK_THAT(run_castplan(scratch, "inspect " + file).out, Contains("error:") && Contains("log.csv"));
}
