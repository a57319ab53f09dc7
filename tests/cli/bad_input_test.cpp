// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "cli/castplan_run.hpp"

using namespace castplan::programs;

namespace {

/// Runs into a folder that already holds a plan: whatever goes wrong, every byte of it must stay, nothing may be added,
/// and the terminal must say whose plan is still there.
void fails(const Scratch& scratch, const std::string& arguments, int code, const std::vector<std::string>& said) {
  const std::string folder = scratch.path("older");
  if (!std::filesystem::exists(folder)) {
    REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --formats geojson --out " + folder).code == 0);
  }
  const auto before = files_in(folder);
  const Run run = run_castplan(scratch, "scout " + arguments + " --out " + folder);
  INFO(arguments << "\n" << run.err);
  CHECK(run.code == code);
  CHECK(run.out.empty());
  for (const std::string& part : said) CHECK(run.err.find(part) != std::string::npos);
  CHECK(run.err.find("Lake Ossilby") != std::string::npos);
  CHECK(run.err.find("ERROR ") == std::string::npos);  // GDAL's own way of printing; its words only stand in ours
  CHECK(files_in(folder) == before);
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
  wrong(lake + "--secci 9ft", {"--secci"});
  wrong(lake + "--secchi 9", {"--secchi 9", "unit"});
  wrong(lake + "--water-temp 66", {"--water-temp 66", "58F"});
  wrong(lake + "--date 2026-02-30", {"--date 2026-02-30"});
  wrong(lake + "--trend up", {"--trend up", "rising, falling"});
  wrong(lake + "--spots 0", {"--spots 0"});
  wrong(lake + "--species muskelunge", {"muskelunge", "muskellunge"});
  wrong(lake + "--formats geojsn", {"geojsn", "geojson"});
  wrong(lake + "--cast 12m", {"--cast 12m", "12m-25m"});
  wrong(lake + "--sense deep", {"--sense deep", "elevation"});
  wrong(lake + "--unit cubit", {"--unit cubit", "fathom"});
  wrong(lake + "--break-grade 15", {"--break-grade 15", "15%"});
  wrong("scout " + kSample + " --unit m --out " + scratch.path("x"), {"--unit", "lake file"});
  wrong("species pikee", {"pikee"});
  CHECK_FALSE(std::filesystem::exists(scratch.path("x")));
}

TEST_CASE("a phase that the species does not have is named with those it has") {
  const Scratch scratch;
  fails(scratch, kSample + " --phase sumer", 2, {"sumer", "summer"});
}

TEST_CASE("an output folder that cannot be written ends with 4 and leaves nothing") {
  const Scratch scratch;
  scratch.write("file", "in the way");
  const Run run = run_castplan(scratch, "scout " + kSample + " --out " + scratch.path("file") + "/plan");
  INFO(run.err);
  CHECK(run.code == 4);
  CHECK(run.out.empty());
  CHECK(run.err.find("file") != std::string::npos);
  CHECK(read(scratch.path("file")) == "in the way");
}
