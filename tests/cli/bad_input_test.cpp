// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "cli/castplan_run.hpp"

using namespace castplan::programs;

namespace {

/// All that the scratch folder holds, but for what the test itself writes down of a run.
std::map<std::string, std::string> all_in(const Scratch& scratch) {
  auto all = files_in(scratch.path());
  all.erase(".stdout");
  all.erase(".stderr");
  return all;
}

/// Runs into a folder that already holds a plan: whatever goes wrong, every byte of it must stay, nothing may be added,
/// and the terminal must say whose plan is still there.
void fails(const Scratch& scratch, const std::string& arguments, int code, const std::vector<std::string>& said) {
  const std::string folder = scratch.path("older");
  if (!std::filesystem::exists(folder)) {
    REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --formats geojson --out " + folder).code == 0);
  }
  const auto before = all_in(scratch);
  const Run run = run_castplan(scratch, "scout " + arguments + " --out " + folder);
  INFO(arguments << "\n" << run.err);
  CHECK(run.code == code);
  CHECK(run.out.empty());
  for (const std::string& part : said) CHECK(run.err.find(part) != std::string::npos);
  CHECK(run.err.find("Lake Ossilby") != std::string::npos);
  CHECK(run.err.find("ERROR ") == std::string::npos);  // GDAL's own way of printing; its words only stand in ours
  CHECK(all_in(scratch) == before);
  // and where there was no folder, there is none afterwards
  CHECK(run_castplan(scratch, "scout " + arguments + " --out " + scratch.path("new/plan")).code == code);
  CHECK(all_in(scratch) == before);
}

}  // namespace

TEST_CASE("data that cannot be used end with 3 and a message to act on") {
  const Scratch scratch;
  const auto bowl = [&](const std::string& name, bool crs = true) {
    return ascii_grid(scratch, name, 40, 40, small_bowl, crs);
  };
  SECTION("a missing file") { fails(scratch, scratch.path("none.tif") + " --unit m", 3, {"none.tif", "no such file"}); }
  SECTION("a missing lake file") { fails(scratch, scratch.path("none.toml"), 3, {"none.toml", "no such file"}); }
  SECTION("no CRS") { fails(scratch, bowl("bare.asc", false) + " --unit m", 3, {"bare.asc", "--crs"}); }
  SECTION("no unit") { fails(scratch, bowl("bowl.asc"), 3, {"bowl.asc", "unit", "--unit"}); }
  SECTION("a sense that contradicts the values") {
    fails(scratch, bowl("bowl.asc") + " --unit m --sense height", 3, {"bowl.asc", "height", "--sense"});
  }
  SECTION("elevation without a surface") {
    fails(scratch, bowl("bowl.asc") + " --unit m --sense elevation", 3, {"--surface"});
  }
  SECTION("no water below the surface") {
    fails(scratch, bowl("bowl.asc") + " --unit m --sense elevation --surface -50m", 3, {"bowl.asc", "below"});
  }
  SECTION("all land") {
    const auto land = ascii_grid(scratch, "land.asc", 20, 20, [](int, int) { return 0.0; });
    fails(scratch, land + " --unit m", 3, {"land.asc", "water"});
  }
  SECTION("all no data") {
    const auto none = ascii_grid(scratch, "void.asc", 20, 20, [](int, int) { return -9999.0; });
    fails(scratch, none + " --unit m", 3, {"void.asc", "no data"});
  }
  SECTION("NaN and infinities alone") {
    const auto odd = ascii_grid(scratch, "odd.asc", 20, 20, [](int row, int) { return row % 2 ? NAN : INFINITY; });
    fails(scratch, odd + " --unit m", 3, {"odd.asc"});
  }
  SECTION("one cell") {
    const auto one = ascii_grid(scratch, "one.asc", 1, 1, [](int, int) { return 2.0; });
    fails(scratch, one + " --unit m", 3, {"one.asc", "3"});
  }
  SECTION("a truncated GeoTIFF") {
    REQUIRE(run("gdal_translate -q " + bowl("bowl.asc") + " " + scratch.path("whole.tif")).code == 0);
    const std::string bytes = read(scratch.path("whole.tif"));
    scratch.write("half.tif", bytes.substr(0, bytes.size() / 2));
    fails(scratch, scratch.path("half.tif") + " --unit m", 3, {"half.tif"});
  }
  SECTION("a GeoTIFF with garbage in its middle") {
    REQUIRE(run("gdal_translate -q -co COMPRESS=DEFLATE -outsize 400 400 " + bowl("bowl.asc") + " " +
                scratch.path("whole.tif"))
                .code == 0);
    std::string bytes = read(scratch.path("whole.tif"));
    for (std::size_t at = bytes.size() / 3; at < bytes.size() / 2; ++at) bytes[at] = static_cast<char>(at * 7 % 251);
    scratch.write("garbage.tif", bytes);
    fails(scratch, scratch.path("garbage.tif") + " --unit m", 3, {"garbage.tif", "damaged"});
  }
  SECTION("a unit in the file that is no depth unit") {
    REQUIRE(run("gdal_translate -q -of VRT " + bowl("bowl.asc") + " " + scratch.path("odd.vrt")).code == 0);
    std::string text = read(scratch.path("odd.vrt"));
    REQUIRE(text.find("<VRTRasterBand") != std::string::npos);
    text.insert(text.find(">", text.find("<VRTRasterBand")) + 1, "<UnitType>cubit</UnitType>");
    scratch.write("odd.vrt", text);
    fails(scratch, scratch.path("odd.vrt"), 3, {"odd.vrt", "cubit", "--unit"});
  }
  SECTION("a folder where a raster is meant") {
    std::filesystem::create_directory(scratch.path("folder.tif"));
    fails(scratch, scratch.path("folder.tif") + " --unit m", 3, {"folder.tif"});
  }
  SECTION("a folder where a species profile is meant") {
    std::filesystem::create_directory(scratch.path("folder"));
    fails(scratch, kSample + " --species-file " + scratch.path("folder"), 3, {"folder", "cannot be read"});
  }
  SECTION("a file that is no raster at all") {
    scratch.write("text.tif", "this is not a raster");
    fails(scratch, scratch.path("text.tif") + " --unit m", 3, {"text.tif"});
  }
}

TEST_CASE("lake files that cannot be used") {
  const Scratch scratch;
  ascii_grid(scratch, "bowl.asc", 40, 40, small_bowl);
  const auto lake = [&](const std::string& more) {
    return scratch.write("lake.toml",
                         "name = \"Invented Tarn\"\n[depth]\nraster = \"bowl.asc\"\nunit = \"m\"\n" + more);
  };
  SECTION("an unknown key, with the nearest known one") {
    fails(scratch, lake("[conditions]\nsechi = \"2 m\"\n"), 3, {"lake.toml, line 6", "sechi", "secchi"});
  }
  SECTION("an unknown unit") {
    scratch.write("lake.toml", "name = \"x\"\n[depth]\nraster = \"bowl.asc\"\nunit = \"cubit\"\n");
    fails(scratch, scratch.path("lake.toml"), 3, {"cubit", "fathom"});
  }
  SECTION("a bare number where a unit is needed") {
    fails(scratch, lake("[conditions]\nsecchi = 2.5\n"), 3, {"secchi", "unit"});
  }
  SECTION("a shapefile without .prj") {
    scratch.write("wood.geojson", R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},)"
                                  R"("geometry":{"type":"Point","coordinates":[-40,45.5]}}]})");
    REQUIRE(run("ogr2ogr " + scratch.path("wood.shp") + " " + scratch.path("wood.geojson")).code == 0);
    std::filesystem::remove(scratch.path("wood.prj"));
    fails(scratch, lake("[[structure]]\nfile = \"wood.shp\"\nkind = \"wood\"\n"), 3, {"wood.shp", "crs"});
  }
  SECTION("a layer that is not there") {
    fails(scratch, lake("[[structure]]\nfile = \"gone.shp\"\nkind = \"wood\"\n"), 3, {"lake.toml", "gone.shp"});
  }
  SECTION("not TOML") {
    scratch.write("lake.toml", "name = \n");
    fails(scratch, scratch.path("lake.toml"), 3, {"lake.toml, line 1"});
  }
}

TEST_CASE("a wrong command line ends with 2 before any file is opened") {
  const Scratch scratch;
  const auto wrong = [&](const std::string& arguments, const std::vector<std::string>& said) {
    const Run result = run_castplan(scratch, arguments);
    INFO(arguments << "\n" << result.err);
    CHECK(result.code == 2);
    CHECK(result.out.empty());
    for (const std::string& part : said) CHECK(result.err.find(part) != std::string::npos);
  };
  const std::string lake = "scout nowhere.tif --out " + scratch.path("x") + " ";
  wrong("", {"--help"});
  wrong("scot lake.tif", {"scot", "did you mean 'scout'", "species"});
  wrong("scout", {"LAKE", "scout --help"});
  wrong(lake + "more.tif", {"more.tif"});
  wrong(lake + "--secci 9ft", {"--secci", "did you mean --secchi?"});
  wrong(lake + "--watertemp=66F", {"--watertemp", "did you mean --water-temp?"});
  wrong(lake + "--secchi 9", {"--secchi 9", "unit"});
  wrong(lake + "--secchi nanm", {"--secchi nanm"});
  wrong(lake + "--water-temp 66", {"--water-temp 66", "58F"});
  wrong(lake + "--date 2026-02-30", {"--date 2026-02-30"});
  wrong(lake + "--date 6/20/2026", {"--date 6/20/2026", "YYYY-MM-DD"});
  wrong(lake + "--trend up", {"--trend up", "rising, falling"});
  wrong(lake + "--gpx-line path", {"--gpx-line path", "route, track, both"});
  wrong(lake + "--gpx-names long", {"--gpx-names long", "usual, brief, words"});
  wrong(lake + "--gpx-split 1", {"--gpx-split 1", "two places"});
  wrong(lake + "--seed -1", {"--seed -1", "0 or more"});
  wrong(lake + "--spots 0", {"--spots 0"});
  wrong(lake + "--spots ten", {"--spots", "ten"});
  wrong(lake + "--spots 3 --spots 4", {"--spots"});
  wrong(lake + "--threads -1", {"--threads -1"});
  wrong(lake + "--species muskelunge", {"muskelunge", "muskellunge"});
  wrong(lake + "--formats geojsn", {"geojsn", "did you mean 'geojson'"});
  wrong(lake + "--cast 12m", {"--cast 12m", "12m-25m"});
  wrong(lake + "--sense deep", {"--sense deep", "elevation"});
  wrong(lake + "--unit cubit", {"--unit cubit", "fathom"});
  wrong(lake + "--units nautical", {"--units nautical", "imperial"});
  wrong(lake + "--break-grade 15", {"--break-grade 15", "15%"});
  wrong(lake + "--break-grade inf%", {"--break-grade inf%", "15%"});
  for (const char* option : {"--unit m", "--sense depth", "--surface 312m", "--crs EPSG:4326", "--shoreline x.shp"}) {
    wrong("scout " + kSample + " --out " + scratch.path("x") + " " + option,
          {std::string(option, std::string_view(option).find(' ')), "lake file"});
  }
  wrong(lake + "--spots 1.5", {"--spots", "1.5", "whole"});
  wrong(lake + "--threads two", {"--threads", "two", "whole"});
  wrong(lake + "--formats geojson,,csv", {"--formats geojson,,csv", "comma"});
  wrong("--secchi 9ft scout x.tif", {"--secchi"});
  wrong("species pikee", {"pikee"});
  CHECK_FALSE(std::filesystem::exists(scratch.path("x")));
}

TEST_CASE("a value that is blank does not pass for one that was not given") {
  const Scratch scratch;
  // what a script passes when its variable was never set: the heat stop would be lost without a word
  for (const char* option :
       {"--water-temp", "--date", "--species", "--phase", "--trend", "--secchi", "--formats", "--gpx-line"}) {
    fails(scratch, kSample + " " + option + " ''", 2, {option, "without a value"});
  }
  fails(scratch, "''", 2, {"LAKE"});
}

TEST_CASE("a wrong command line too says whose plan is still there") {
  const Scratch scratch;
  fails(scratch, kSample + " --secci 9ft", 2, {"--secchi"});
  fails(scratch, kSample + " --spots many", 2, {"--spots"});
  fails(scratch, kSample + " --secchi 9", 2, {"unit"});
}

TEST_CASE("a species and a profile of another one contradict each other") {
  const Scratch scratch;
  fails(scratch,
        kSample + " --species northern-pike --species-file " CASTPLAN_SOURCE_DIR "/src/season/species/muskellunge.toml",
        2, {"northern-pike", "muskellunge"});
}

TEST_CASE("what was asked for and cannot be printed is an error") {
  // a device that is always full: Linux, full(4)
  if (!std::filesystem::exists("/dev/full")) {
    WARN("SKIPPED: no /dev/full here");
    return;
  }
  const Result result = run(CASTPLAN_PROGRAM " species > /dev/full");
  CHECK(result.code == 4);
}

TEST_CASE("a phase that the species does not have is named with those it has") {
  const Scratch scratch;
  fails(scratch, kSample + " --phase sumer", 2, {"sumer", "summer"});
}

TEST_CASE("an output folder that cannot be written ends with 4 and leaves nothing") {
  const Scratch scratch;
  scratch.write("file", "in the way");
  const auto before = all_in(scratch);
  for (const char* folder : {"file/plan", "file"}) {
    const Run run = run_castplan(scratch, "scout " + kSample + " --out " + scratch.path(folder));
    INFO(run.err);
    CHECK(run.code == 4);
    CHECK(run.out.empty());
    CHECK(run.err.find(scratch.path("file")) != std::string::npos);
    CHECK(run.err.find("--out") != std::string::npos);
    CHECK(all_in(scratch) == before);
  }
}

TEST_CASE("places where not even root may write end with 4") {
  // Linux, proc(5) and sysfs(5): no folder can be made there; null(4) is no folder
  const Scratch scratch;
  for (const char* folder : {"/proc/castplan", "/proc/castplan/plan", "/sys/castplan", "/dev/null", "/dev/null/plan"}) {
    const Run run = run_castplan(scratch, "scout " + kSample + " --out " + folder);
    INFO(folder << "\n" << run.err);
    CHECK(run.code == 4);
    CHECK(run.out.empty());
    CHECK(("\n" + run.err).find("\ncastplan: /") != std::string::npos);  // after notes on the plan
    CHECK(run.err.find("--out") != std::string::npos);
  }
}

TEST_CASE("a file of the plan that cannot be replaced ends with 4, and the older plan is back whole") {
  const Scratch scratch;
  const std::string folder = scratch.path("older");
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --formats geojson --out " + folder).code == 0);
  std::filesystem::create_directory(folder + "/waypoints.gpx");  // a folder of the user's stands in its place
  const auto before = all_in(scratch);
  const Run run = run_castplan(scratch, "scout " + kSample + " --water-temp 66F --trend rising --out " + folder);
  INFO(run.err);
  CHECK(run.code == 4);
  CHECK(run.out.empty());
  CHECK(run.err.find("waypoints.gpx") != std::string::npos);
  CHECK(run.err.find("Lake Ossilby") != std::string::npos);
  CHECK(all_in(scratch) == before);
}
