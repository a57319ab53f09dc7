// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/vector.hpp"

#include <catch2/catch.hpp>
#include <filesystem>

#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

namespace {

/// One layer with the field KIND, a feature for each pair of WKT and value.
void write_layer(const std::string& path, const std::string& driver, const std::string& crs,
                 const std::vector<std::pair<std::string, std::string>>& features, const std::string& layer_name = "",
                 OGRwkbGeometryType type = wkbUnknown) {
  GDALAllRegister();
  GDALDriver* writer = GetGDALDriverManager()->GetDriverByName(driver.c_str());
  REQUIRE(writer != nullptr);
  std::unique_ptr<GDALDataset> out;
  if (std::filesystem::exists(path)) {
    out.reset(GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
  } else {
    out.reset(writer->Create(path.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
  }
  REQUIRE(out);
  OGRSpatialReference reference;
  if (!crs.empty()) reference.SetFromUserInput(crs.c_str());
  reference.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  const std::string name = layer_name.empty() ? std::filesystem::path(path).stem().string() : layer_name;
  OGRLayer* layer = out->CreateLayer(name.c_str(), crs.empty() ? nullptr : &reference, type, nullptr);
  REQUIRE(layer != nullptr);
  OGRFieldDefn field("KIND", OFTString);
  layer->CreateField(&field);
  for (const auto& [wkt, kind] : features) {
    const OGRFeatureUniquePtr feature(OGRFeature::CreateFeature(layer->GetLayerDefn()));
    feature->SetField("KIND", kind.c_str());
    OGRGeometry* geometry = nullptr;
    if (!wkt.empty()) {
      REQUIRE(OGRGeometryFactory::createFromWkt(wkt.c_str(), nullptr, &geometry) == OGRERR_NONE);
      feature->SetGeometryDirectly(geometry);
    }
    REQUIRE(layer->CreateFeature(feature.get()) == OGRERR_NONE);
  }
}

const std::string kHome = "+proj=tmerc +lat_0=45.5 +lon_0=-39.2 +datum=WGS84 +units=m";
const std::string kSquare = "POLYGON((0 0,100 0,100 100,0 100,0 0),(20 20,40 20,40 40,20 40,20 20))";

}  // namespace

TEST_CASE("a polygon comes the same way out of every format") {
  const programs::Scratch scratch;
  const auto [driver, name] = GENERATE(
      table<std::string, std::string>({{"ESRI Shapefile", "a.shp"}, {"GPKG", "a.gpkg"}, {"FlatGeobuf", "a.fgb"}}));
  INFO(driver);
  write_layer(scratch.path(name), driver, kHome, {{kSquare, " wood "}}, "a", wkbPolygon);
  const auto records = read_vector({scratch.path(name)}, home());
  REQUIRE(records.size() == 1);
  CHECK(records[0].attributes.at("KIND") == "wood");
  const auto& polygons = std::get<Polygons>(records[0].geometry);
  REQUIRE(polygons.size() == 1);
  REQUIRE(polygons[0].holes.size() == 1);
  // outer rings anticlockwise, holes clockwise, though a shapefile stores them the other way (its specification, 1998,
  // p. 8)
  CHECK(signed_area(polygons[0].outer).value() == Approx(10000).epsilon(1e-6));
  CHECK(signed_area(polygons[0].holes[0]).value() == Approx(-400).epsilon(1e-6));
}

TEST_CASE("places in degrees and in US feet land where they belong") {
  const programs::Scratch scratch;
  // the middle of the home plane is 39.2 W 45.5 N by definition
  const std::string geojson = scratch.write(
      "p.geojson",
      R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Pin","n":3,"none":null},
          "geometry":{"type":"Point","coordinates":[-39.2,45.5,12.0]}}]})");
  const auto points = read_vector({geojson}, home());
  REQUIRE(points.size() == 1);
  const XY at = std::get<Points>(points[0].geometry).at(0);
  CHECK(std::hypot(at.x, at.y) < 1e-6);
  CHECK(points[0].attributes == std::map<std::string, std::string>{{"name", "Pin"}, {"n", "3"}});

  write_layer(scratch.path("ft.gpkg"), "GPKG", "+proj=tmerc +lat_0=45.5 +lon_0=-39.2 +datum=WGS84 +units=us-ft",
              {{"POINT(3937 -3937)", "x"}});
  // 3937 US survey feet are 1200 m (NIST SP 811, appendix B.6)
  const XY feet = std::get<Points>(read_vector({scratch.path("ft.gpkg")}, home()).at(0).geometry).at(0);
  CHECK(feet.x == Approx(1200).margin(1e-5));
  CHECK(feet.y == Approx(-1200).margin(1e-5));
}

TEST_CASE("many parts, collections, heights, curves and empty shapes are flattened") {
  const programs::Scratch scratch;
  const std::string path = scratch.path("m.gpkg");
  write_layer(path, "GPKG", kHome,
              {{"MULTIPOINT Z(1 2 9,3 4 9)", "a"},
               {"GEOMETRYCOLLECTION(POINT(5 6),LINESTRING(0 0,3 4))", "b"},
               {"CURVEPOLYGON(CIRCULARSTRING(10 0,0 10,-10 0,0 -10,10 0))", "c"},
               {"POLYGON EMPTY", "d"},
               {"", "e"}});
  const auto records = read_vector({path}, home());
  REQUIRE(records.size() == 4);
  CHECK(std::get<Points>(records[0].geometry).size() == 2);
  CHECK(std::get<Points>(records[1].geometry).size() == 1);
  CHECK(length(std::get<Lines>(records[2].geometry).at(0)).value() == Approx(5).epsilon(1e-6));
  CHECK(records[1].attributes == records[2].attributes);
  // a circle of radius 10: pi r^2; straightened by chords of 4 degrees, which lose 0.08 %
  CHECK(area(std::get<Polygons>(records[3].geometry)).value() == Approx(std::numbers::pi * 100).epsilon(0.002));
}

TEST_CASE("a polygon that crosses itself is mended") {
  const programs::Scratch scratch;
  write_layer(scratch.path("bow.gpkg"), "GPKG", kHome, {{"POLYGON((0 0,10 10,10 0,0 10,0 0))", "bow"}});
  // two triangles of 10 by 5
  CHECK(area(read_polygons({scratch.path("bow.gpkg")}, home())).value() == Approx(50).epsilon(1e-6));
}

TEST_CASE("the layer is the only one, or the one named") {
  const programs::Scratch scratch;
  const std::string path = scratch.path("two.gpkg");
  write_layer(path, "GPKG", kHome, {{"POINT(1 1)", "x"}}, "wood");
  write_layer(path, "GPKG", kHome, {{"POINT(2 2)", "y"}}, "rock");
  CHECK(read_vector({path, "rock"}, home()).at(0).attributes.at("KIND") == "y");
  CHECK_THAT(complaint([&] { read_vector({path}, home()); }), Contains("two.gpkg") && Contains("wood, rock"));
  CHECK_THAT(complaint([&] {
               read_vector({path, "rocks"}, home());
             }),
             Contains("no layer rocks") && Contains("wood, rock"));
}

TEST_CASE("waypoints of a GPX file and placemarks of a KML file are read") {
  const programs::Scratch scratch;
  const std::string gpx = scratch.write(
      "w.gpx",
      R"(<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="45.5" lon="-39.2"><name>Ramp</name></wpt></gpx>)");
  const auto waypoints = read_vector({gpx}, home());
  REQUIRE(waypoints.size() == 1);
  CHECK(waypoints[0].attributes.at("name") == "Ramp");
  const std::string kml = scratch.write(
      "k.kml",
      R"(<kml xmlns="http://www.opengis.net/kml/2.2"><Document><Placemark><name>Pin</name><Point><coordinates>-39.2,45.5,0</coordinates></Point></Placemark></Document></kml>)");
  const auto places = read_vector({kml}, home());
  REQUIRE(places.size() == 1);
  CHECK(std::hypot(std::get<Points>(places[0].geometry)[0].x, std::get<Points>(places[0].geometry)[0].y) < 1e-6);
}

TEST_CASE("a layer that cannot be used says so") {
  const programs::Scratch scratch;
  CHECK(complaint([&] { read_vector({scratch.path("none.shp")}, home()); }) ==
        "none.shp: no such file; check the name and the folder");
  SECTION("a shapefile without its .prj; a given CRS mends it") {
    const std::string path = scratch.path("s.shp");
    write_layer(path, "ESRI Shapefile", "", {{kSquare, "x"}}, "", wkbPolygon);
    REQUIRE_FALSE(std::filesystem::exists(scratch.path("s.prj")));
    CHECK_THAT(complaint([&] { read_vector({path}, home()); }),
               Contains("s.shp: states no CRS") && Contains("crs = \"EPSG:...\""));
    CHECK(area(read_polygons({path, "", kHome}, home())).value() == Approx(9600).epsilon(1e-6));
  }
  SECTION("no polygons where an area is expected, no geometry, no vectors") {
    write_layer(scratch.path("p.gpkg"), "GPKG", kHome, {{"POINT(1 1)", "x"}});
    CHECK_THAT(complaint([&] { read_polygons({scratch.path("p.gpkg")}, home()); }),
               Contains("p.gpkg: holds no polygons"));
    write_layer(scratch.path("e.gpkg"), "GPKG", kHome, {{"", "x"}});
    CHECK_THAT(complaint([&] { read_vector({scratch.path("e.gpkg")}, home()); }), Contains("no geometry"));
    CHECK_THAT(complaint([&] { read_vector({scratch.write("t.shp", "words")}, home()); }),
               Contains("t.shp: cannot be read as a vector layer") && Contains("GDAL: "));
  }
}
