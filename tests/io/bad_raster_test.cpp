// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <filesystem>

#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

namespace {

struct Bad {
  programs::Scratch scratch;
  Spec spec;
  RasterOptions options;
  Value depth = lake_on(Spec{});

  Bad() {
    options.path = scratch.path("k.tif");
    options.shown = "k.tif";
  }
  std::string said(const Value& value) {
    write(options.path, spec, value);
    return said();
  }
  std::string said() {
    return complaint([&] { read_depth_raster(options); });
  }
};

}  // namespace

TEST_CASE("a raster that cannot be used says what was found and what would mend it") {
  Bad bad;
  SECTION("missing file") { CHECK(bad.said() == "k.tif: no such file; check the name and the folder"); }
  SECTION("no raster at all") {
    bad.options.path = bad.scratch.write("k.tif", "these are words, not cells\n");
    CHECK_THAT(bad.said(), Contains("k.tif: cannot be read as a raster") && Contains("GDAL: "));
  }
  SECTION("no unit") {
    bad.spec.unit.clear();
    CHECK(bad.said(bad.depth) ==
          "k.tif, band 1: no depth unit in the file; say which: --unit m or --unit ft (or unit = \"m\" under [depth])");
  }
  SECTION("a unit that is none") {
    bad.spec.unit = "furlong";
    CHECK_THAT(bad.said(bad.depth), Contains("k.tif, band 1") && Contains("furlong") && Contains("--unit m"));
  }
  SECTION("no CRS; a given one mends it") {
    bad.spec.crs.clear();
    CHECK_THAT(bad.said(bad.depth), Contains("k.tif: states no CRS") && Contains("--crs EPSG:"));
    bad.options.crs = Spec{}.crs;
    CHECK(bad.said(bad.depth).empty());
    bad.options.crs = "EPSG:nothing";
    CHECK_THAT(bad.said(bad.depth), Contains("EPSG:nothing"));
  }
  SECTION("no georeference") {
    bad.spec.transform = {0, 1, 0, 0, 0, 1};
    CHECK_THAT(bad.said(bad.depth), Contains("does not say where its cells lie"));
  }
  SECTION("senses that the values contradict") {
    const auto heights = [&](double c, double r) { return bad.depth(c, r) > 0 ? -bad.depth(c, r) : 0; };
    CHECK_THAT(bad.said(heights), Contains("100 % of the values are negative") && Contains("--sense height"));
    bad.options.sense = Sense::height;
    const auto depths = [&](double c, double r) { return std::max(0.0, bad.depth(c, r)); };
    CHECK_THAT(bad.said(depths), Contains("only 0 % of the values are negative") && Contains("--sense depth"));
    bad.options.sense = Sense::elevation;
    CHECK_THAT(bad.said(depths), Contains("needs the water's surface") && Contains("--surface"));
    bad.options.surface = Metres(-1);
    CHECK_THAT(bad.said(depths), Contains("no cell lies below the surface of -1.00 m"));
    bad.options.surface = Metres(312.4);
    CHECK_THAT(bad.said(depths), Contains("every cell lies at least 300 m below the surface"));
    bad.options.sense = Sense::depth;
    CHECK_THAT(bad.said([&](double c, double r) { return 312.4 - bad.depth(c, r); }),
               Contains("no cell is shallower than 300") && Contains("--sense elevation"));
  }
  SECTION("no water, no data, too few cells") {
    CHECK_THAT(bad.said([](double, double) { return 0.0; }), Contains("no cell holds water"));
    CHECK_THAT(bad.said([](double, double) { return kNaN; }), Contains("nothing but no data"));
    bad.spec.cols = bad.spec.rows = 1;
    CHECK_THAT(bad.said(bad.depth), Contains("has 1 by 1 cells; a lake needs at least 3 by 3"));
    bad.spec.cols = 50;
    bad.spec.rows = 2;
    CHECK_THAT(bad.said(bad.depth), Contains("has 50 by 2 cells"));
  }
  SECTION("a band that is not there") {
    bad.options.band = 2;
    CHECK(bad.said(bad.depth) == "k.tif: no band 2; it has 1 to 1");
  }
  SECTION("a file cut short, GDAL's words folded in") {
    write(bad.options.path, bad.spec, bad.depth);
    std::filesystem::resize_file(bad.options.path, std::filesystem::file_size(bad.options.path) / 2);
    CHECK_THAT(bad.said(), Contains("k.tif") && Contains("GDAL: "));
    std::filesystem::resize_file(bad.options.path, 60);
    CHECK_THAT(bad.said(), Contains("k.tif") && Contains("GDAL: "));
  }
}

TEST_CASE("nothing of GDAL's reaches the terminal") {
  // a handler beneath ours hears whatever ours lets through
  static std::string heard;
  heard.clear();
  CPLPushErrorHandler([](CPLErr, CPLErrorNum, const char* text) { heard += text; });
  Bad bad;
  bad.options.path = bad.scratch.write("k.tif", "II*\0 and then nothing");
  bad.said();
  bad.options.path = bad.scratch.path("cut.tif");
  write(bad.options.path, bad.spec, bad.depth);
  std::filesystem::resize_file(bad.options.path, std::filesystem::file_size(bad.options.path) / 2);
  bad.said();
  CPLPopErrorHandler();
  CHECK(heard == "");
}

TEST_CASE("more than 2^31 cells are refused before any is read") {
  Bad bad;
  bad.options.path =
      bad.scratch.write("big.vrt",
                        "<VRTDataset rasterXSize=\"60000\" rasterYSize=\"60000\"><SRS>EPSG:32624</SRS>"
                        "<GeoTransform>0,1,0,0,0,-1</GeoTransform><VRTRasterBand dataType=\"Float32\" band=\"1\"/>"
                        "</VRTDataset>");
  CHECK_THAT(bad.said(), Contains("60000 by 60000 cells, more than 2^31"));
}
