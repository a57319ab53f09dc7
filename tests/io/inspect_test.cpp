// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/inspect.hpp"

#include <catch2/catch.hpp>

#include "io/inspecting.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

TEST_CASE("a sound raster is described, and nothing is held against it") {
  const programs::Scratch scratch;
  const Inspection in = inspect(of(changed_lake(scratch, "lake.tif", as_it_is)));
  for (const Finding& one : in.findings) UNSCOPED_INFO(one.code << ": " << one.text);
  CHECK(in.findings.empty());
  REQUIRE(in.files.size() == 1);
  const FileFacts& file = in.files.front();
  CHECK(file.kind == "raster");
  CHECK(file.format == "GeoTIFF");
  REQUIRE(file.centre);  // the plane's origin is the middle of the raster
  CHECK(file.centre->lat.degrees == Approx(45.5).margin(1e-7));
  CHECK(file.centre->lon.degrees == Approx(-39.2).margin(1e-7));
  CHECK(place_text(*file.centre) == "45.5000 N, 39.2000 W");
  const RasterFacts& raster = *file.raster;
  CHECK(raster.cell_width->value() == Approx(5).epsilon(1e-5));
  CHECK(raster.cell_height->value() == Approx(5).epsilon(1e-5));
  CHECK(raster.unit == DepthUnit::metre);
  CHECK(raster.sense == Sense::depth);
  CHECK(raster.nodata_share == Approx(1 - kArea / (600 * 500)).margin(0.002));  // ellipse: pi a b
  CHECK(raster.flat_share == 0);
  // paraboloid: the share deeper than d is 1 - d / 12
  REQUIRE(raster.hypsography.size() == 12);
  for (const DeeperShare& step : raster.hypsography) {
    CHECK(step.share == Approx(1 - step.depth / kDeepest).margin(0.005));
  }
  // gdalinfo, on a copy, as -stats writes a side file
  std::filesystem::copy(scratch.path("lake.tif"), scratch.path("copy.tif"));
  const auto info = programs::run("gdalinfo -stats " + scratch.path("copy.tif"));
  REQUIRE(info.code == 0);
  CHECK(*raster.low == Approx(number_after(info.text, "STATISTICS_MINIMUM=")).margin(1e-4));
  CHECK(*raster.high == Approx(number_after(info.text, "STATISTICS_MAXIMUM=")).margin(1e-4));
  CHECK(100 * (1 - raster.nodata_share) == Approx(number_after(info.text, "STATISTICS_VALID_PERCENT=")).margin(0.01));
}

TEST_CASE("unit: from the band, from what was said, else an error that passes on what the name suggests") {
  const programs::Scratch scratch;
  Spec feet;
  feet.unit = "ft";
  const std::string stated = changed_lake(scratch, "stated.tif", as_it_is, feet);
  const Inspection said = inspect(of(stated));
  CHECK(said.files[0].raster->unit == DepthUnit::foot);
  CHECK_THAT(said.files[0].raster->unit_evidence, Contains("ft"));
  // 12 ft are 3.6576 m: steps reach 3.5 m, not 12 (1 ft = 0.3048 m by definition)
  CHECK(said.files[0].raster->hypsography.back().depth < 3.6576);
  auto other = of(stated);
  other.unit = DepthUnit::metre;
  CHECK(found(inspect(other), "unit-differs").severity == Severity::warning);

  Spec silent;
  silent.unit = "";
  const Finding hinted = found(inspect(of(changed_lake(scratch, "depth_ft.tif", as_it_is, silent))), "no-unit");
  CHECK(hinted.severity == Severity::error);
  CHECK_THAT(hinted.mend, Contains("unit = \"ft\"") && Contains("--unit ft"));
  const Finding plain = found(inspect(of(changed_lake(scratch, "left.tif", as_it_is, silent))), "no-unit");
  CHECK_THAT(plain.mend, Contains("--unit m or --unit ft"));
}

TEST_CASE("sense: heights and elevations are told from depths by their values") {
  const programs::Scratch scratch;
  const auto turned = [&](const std::string& name, double shift) {
    return changed_lake(scratch, name, [shift](int, int, double d) { return d == -9999 ? d : shift - d; });
  };
  const Inspection heights = inspect(of(turned("heights.tif", 0)));
  CHECK(heights.files[0].raster->sense == Sense::height);
  CHECK_THAT(found(heights, "sense").mend, Contains("--sense height"));
  CHECK(count(heights, "unusable") == 0);  // and the reader takes it so

  const std::string floor = turned("floor.tif", 312);
  const Inspection elevations = inspect(of(floor));
  CHECK(elevations.files[0].raster->sense == Sense::elevation);
  CHECK_THAT(found(elevations, "no-surface").mend, Contains("--surface"));
  CHECK(elevations.files[0].raster->hypsography.empty());
  auto told = of(floor);
  told.sense = Sense::elevation;
  told.surface = Metres(312);
  const Inspection known = inspect(told);
  CHECK(known.findings.empty());
  for (const DeeperShare& step : known.files[0].raster->hypsography) {
    CHECK(step.share == Approx(1 - step.depth / kDeepest).margin(0.005));
  }
  auto wrong = of(floor);
  wrong.sense = Sense::depth;
  CHECK(found(inspect(wrong), "sense-differs").severity == Severity::warning);
}

TEST_CASE("numbers that stand for no data are counted, with the line that declares them") {
  const programs::Scratch scratch;
  const double filler = GENERATE(-9999.0, -32768.0, 1e6, -3.4028234663852886e38);
  Spec spec;
  spec.nodata = -77;  // declared, but not what the hole holds
  const std::string path = changed_lake(
      scratch, "lake.tif", [&](int c, int r, double d) { return c >= 60 && c < 64 && r == 50 ? filler : d; }, spec);
  const Finding finding = found(inspect(of(path)), "undeclared-nodata");
  CHECK(finding.severity == Severity::warning);
  CHECK_THAT(finding.text, Contains("4 cells"));

  Spec bare;  // nothing declared at all
  bare.driver = "GTiff";
  const Value lake = lake_on(bare);
  write(scratch.path("bare.tif"), bare, [&](double c, double r) { return lake(c, r) > 0 ? lake(c, r) : filler; });
  const Inspection in = inspect(of(scratch.path("bare.tif")));
  const Finding all = found(in, "undeclared-nodata");
  if (std::fabs(filler) < 1e20) {
    CHECK_THAT(all.mend, Contains("nodata = "));
    CHECK(in.files[0].raster->undeclared == filler);
  }
}

TEST_CASE("gaps in deep water are told from islands") {
  const programs::Scratch scratch;
  // 3 x 3 cells about column 60, row 50: the deepest place, (2.5, 2.5) m off the middle
  const auto gap = [](double value) {
    return [value](int c, int r, double d) { return std::abs(c - 60) <= 1 && std::abs(r - 50) <= 1 ? value : d; };
  };
  const Finding zeros = found(inspect(of(changed_lake(scratch, "zeros.tif", gap(0)))), "zero-blocks");
  CHECK_THAT(zeros.text, Contains("1 block (9 cells in all)") && Contains("12.0 m deep"));
  CHECK_THAT(zeros.mend, Contains("nodata = 0"));
  const Finding hole = found(inspect(of(changed_lake(scratch, "hole.tif", gap(-9999)))), "holes");
  CHECK_THAT(hole.text, Contains("1 block (9 cells in all)") && Contains("45.5"));

  // a cone that rises to an island, its top cut off as 0 or no data: no finding
  const double top = GENERATE(0.0, -9999.0);
  const auto island = [top](int c, int r, double d) {
    const double away = std::hypot(c - 60, r - 50) * 5;  // metres
    if (d == -9999) return d;
    return away < 15 ? top : std::min(d, (away - 15) * 0.2 + 0.1);
  };
  const Inspection in = inspect(of(changed_lake(scratch, "island.tif", island)));
  CHECK(count(in, "zero-blocks") + count(in, "holes") == 0);
}

TEST_CASE("spikes are found, slopes and edges are not") {
  const programs::Scratch scratch;
  const auto spike = [](int c, int r, double d) { return c == 50 && r == 45 ? d + 6 : c == 70 && r == 52 ? 1 : d; };
  const std::string path = changed_lake(scratch, "spiked.tif", spike);
  const Finding finding = found(inspect(of(path)), "spikes");
  CHECK_THAT(finding.text, Contains("2 cells stand"));
  // the worst: at column 70, row 52 gdallocationinfo reads 1 and what lies around it
  const auto value = [&](int c, int r) {
    return std::stod(
        programs::run("gdallocationinfo -valonly " + path + " " + std::to_string(c) + " " + std::to_string(r)).text);
  };
  CHECK(value(70, 52) == 1);
  char off[32];
  std::snprintf(off, sizeof off, "by %.1f m", value(70, 53) - 1);
  CHECK_THAT(finding.text, Contains(off));
  // a wall 8 m high, and a ridge one cell wide, are no spikes
  const auto wall = [](int c, int r, double d) { return d < 0 ? d : c < 60 ? d : r == 40 ? d / 4 : std::min(d, 2.5); };
  CHECK(count(inspect(of(changed_lake(scratch, "wall.tif", wall))), "spikes") == 0);
  // nor is the sharp top of a ridge 6 m high, though it stands alone above its neighbours
  const auto ridge = [](int c, int r, double d) {
    return d < 0 ? d : d - std::max(0.0, 6 - 1.5 * std::abs(c - 60) - 2.5 * std::abs(r - 50));
  };
  CHECK(count(inspect(of(changed_lake(scratch, "ridge.tif", ridge))), "spikes") == 0);
}

TEST_CASE("terraces, rounding and a lake's surface look flat in three ways") {
  const programs::Scratch scratch;
  const auto stepped = [](double step) {
    return [step](int, int, double d) { return d < 0 ? d : std::ceil(d / step) * step; };
  };
  const Inspection terraced = inspect(of(changed_lake(scratch, "terraced.tif", stepped(3))));
  // cells of one level whose 8 neighbours are of it too, counted from the closed form
  long long water = 0;
  long long flat = 0;
  const auto level = [](int c, int r) {
    const double d = depth_at_home({-300 + 5 * (c + 0.5), 250 - 5 * (r + 0.5)});
    return d > 0 ? static_cast<int>(std::ceil(d / 3)) : 0;
  };
  for (int r = 1; r < 99; ++r) {
    for (int c = 1; c < 119; ++c) {
      if (level(c, r) == 0) continue;
      ++water;
      bool same = true;
      for (int i = 0; i < 9; ++i) same = same && level(c - 1 + i % 3, r - 1 + i / 3) == level(c, r);
      flat += same ? 1 : 0;
    }
  }
  CHECK(terraced.files[0].raster->flat_share ==
        Approx(static_cast<double>(flat) / static_cast<double>(water)).epsilon(0.002));
  CHECK(terraced.files[0].raster->levels == 4);
  CHECK_THAT(found(terraced, "terraces").text, Contains("4 levels about 3.0 m apart"));

  Spec wide;  // 0.5 m cells in the deepest part: rounding to 0.1 m leaves flats there
  wide.transform = {-30, 0.5, 0, 25, 0, -0.5};
  const Inspection rounded = inspect(of(changed_lake(scratch, "rounded.tif", stepped(0.1), wide)));
  CHECK(found(rounded, "rounded").severity == Severity::note);
  CHECK(count(rounded, "terraces") == 0);

  // a terrain model: land about a lake whose surface is flat at 312 m
  Spec terrain;
  terrain.nodata = -9999;
  write(scratch.path("terrain.tif"), terrain, [&](double c, double r) {
    return 312 + std::max(0.0, -depth_at_home({-300 + 5 * c, 250 - 5 * r}));
  });
  CHECK_THAT(found(inspect(of(scratch.path("terrain.tif"))), "flat-surface").text, Contains("312.00"));
}

TEST_CASE("a table of soundings: how it is read, where it lies, which lines are not used") {
  const castplan::programs::Scratch scratch;
  castplan::InspectOptions options;
  // a square of 0.02 by 0.01 degrees; line 4 has no depth
  options.path = scratch.write(
      "log.csv", "Longitude;Latitude;Depth_ft\n-40,02;45,50;10\n-40,00;45,50;30\n-40,01;45,505;\n-40,02;45,51;20\n");
  const castplan::Inspection found = castplan::inspect(options);
  REQUIRE(found.files.size() == 1);
  const castplan::FileFacts& file = found.files.front();
  CHECK(file.kind == "table");
  REQUIRE(file.crs_accuracy);
  CHECK(file.crs_accuracy->value() == 0);  // WGS 84 is itself
  REQUIRE(file.centre);
  CHECK(file.centre->lon.degrees == Approx(-40.01));
  CHECK(file.centre->lat.degrees == Approx(45.505));
  REQUIRE(file.layers.size() == 1);
  CHECK(file.layers[0].records == 4);
  const castplan::FieldFacts& depth = file.layers[0].fields.back();
  CHECK(*depth.low == Approx(10 * 0.3048));
  CHECK(*depth.high == Approx(30 * 0.3048));
  const auto says = [&](castplan::Severity severity, const std::string& text) {
    return std::any_of(found.findings.begin(), found.findings.end(), [&](const castplan::Finding& finding) {
      return finding.severity == severity && finding.text.find(text) != std::string::npos;
    });
  };
  CHECK(says(castplan::Severity::note, "parted by semicolon, decimal mark ','"));
  CHECK(says(castplan::Severity::note, "unit ft"));
  CHECK(says(castplan::Severity::warning, "1 of 4 lines are not used (such as line 4)"));

  // without a unit the rest is still told
  options.path = scratch.write("bare.csv", "lon,lat,depth\n-40.02,45.50,-3\n-40.00,45.52,-9\n");
  const castplan::Inspection bare = castplan::inspect(options);
  CHECK(bare.findings.front().severity == castplan::Severity::error);
  CHECK_THAT(bare.findings.front().mend, Catch::Contains("--unit"));
  REQUIRE(bare.files.front().centre);
  CHECK(bare.files.front().centre->lat.degrees == Approx(45.51));
}
