// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/load.hpp"

#include <catch2/catch.hpp>
#include <filesystem>

#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

namespace {

std::string lonlat(double x, double y) {
  const LonLat place = home().to_lonlat({x, y});
  char text[80];
  std::snprintf(text, sizeof text, "[%.9f,%.9f]", place.lon.degrees, place.lat.degrees);
  return text;
}

std::string point(double x, double y) { return R"({"type":"Point","coordinates":)" + lonlat(x, y) + "}"; }

std::string box(double west, double south, double east, double north) {
  return R"({"type":"Polygon","coordinates":[[)" + lonlat(west, south) + "," + lonlat(east, south) + "," +
         lonlat(east, north) + "," + lonlat(west, north) + "," + lonlat(west, south) + "]]}";
}

std::string feature(const std::string& geometry, const std::string& properties) {
  return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":)" + geometry + "}";
}

std::string collection(const std::string& features) {
  return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}

/// A folder with the elliptic lake (no data on land) and a lake file.
struct Folder {
  programs::Scratch scratch;
  std::string depth = "raster = \"k.tif\"\nerror = \"0.2 m\"\n";

  Folder() {
    Spec spec;
    spec.nodata = -9999;
    write(scratch.path("k.tif"), spec, water_only(lake_on(spec), -9999));
  }
  LoadedLake load(const std::string& more) {
    return load_lake(read_lake_file(scratch.write("k.toml", "name = \"K\"\n[depth]\n" + depth + more)));
  }
  std::string said(const std::string& more) {
    return complaint([&] { load(more); });
  }
  void put(const std::string& name, const std::string& bytes) { REQUIRE_FALSE(scratch.write(name, bytes).empty()); }
};

}  // namespace

TEST_CASE("a bare lake: its figures, its inputs, what depths refer to") {
  Folder folder;
  const LoadedLake loaded = folder.load("");
  CHECK(loaded.lake.area.value() == Approx(kArea).epsilon(0.01));
  CHECK(loaded.lake.volume.value() == Approx(kVolume).epsilon(0.01));
  CHECK(loaded.lake.cut_share == 0);
  CHECK(loaded.lake.depth_error == Metres(0.2));
  CHECK(loaded.lake.depth_error_known);
  CHECK(loaded.layers_given.empty());
  CHECK(loaded.surface_text == "depths in metres below the surface when surveyed (level not given)");
  REQUIRE(loaded.inputs.size() == 2);
  CHECK(loaded.inputs[0] == InputFile{"k.tif", sha256_of(folder.scratch.path("k.tif"))});
  CHECK(loaded.inputs[1].name == "k.toml");
  REQUIRE(loaded.notes.size() == 1);
  CHECK_THAT(loaded.notes[0], Contains("no shoreline given"));
}

TEST_CASE("structure by kind and by attribute") {
  Folder folder;
  folder.put("wood.geojson",
             collection(feature(point(0, 0), R"("NAME":"Old oak")") + "," + feature(point(900, 0), "")));
  folder.put("mixed.geojson",
             collection(feature(point(10, 0), R"("TYPE":"BLDR")") + "," + feature(point(20, 0), R"("TYPE":"CAR")") +
                        "," + feature(point(30, 0), R"("TYPE":"STREAM","WATER":"Cool")")));
  const LoadedLake loaded = folder.load(
      "[[structure]]\nfile = \"wood.geojson\"\nkind = \"wood\"\n"
      "[[structure]]\nfile = \"mixed.geojson\"\nattribute = \"TYPE\"\nmap = { BLDR = \"rock\", STREAM = \"inflow\" "
      "}\n");
  REQUIRE(loaded.structure.size() == 4);
  CHECK(loaded.structure[0].kind == "wood");
  CHECK(loaded.structure[0].name == "Old oak");
  CHECK(loaded.structure[0].source_file == "wood.geojson");
  CHECK(loaded.structure[2].kind == "rock");
  CHECK(loaded.structure[3].kind == "inflow");
  CHECK(loaded.structure[3].attribute == "cool");
  CHECK(loaded.layers_given == std::vector<std::string>{"wood", "rock", "inflow"});
  const std::string notes = loaded.notes.at(1) + " | " + loaded.notes.at(2);
  CHECK_THAT(notes, Contains("wood.geojson: 1 records lie outside the water") &&
                        Contains("mixed.geojson: 1 records left out") && Contains("CAR"));
  SECTION("a field that is not there, weeds as points") {
    CHECK_THAT(folder.said("[[structure]]\nfile = \"mixed.geojson\"\nattribute = \"KIND\"\nmap = { A = \"rock\" }\n"),
               Contains("mixed.geojson: no field KIND") && Contains("TYPE"));
    CHECK_THAT(folder.said("[[structure]]\nfile = \"wood.geojson\"\nkind = \"weeds\"\n"),
               Contains("expected polygons"));
  }
}

TEST_CASE("launches and closures") {
  Folder folder;
  folder.put("ramps.geojson", collection(feature(point(-100, 50), R"("name":"South ramp")")));
  folder.put("shut.geojson", collection(feature(point(0, 0), "")));
  const LoadedLake loaded = folder.load("[[launch]]\nname = \"Ramp\"\nat = " + lonlat(200, 10) +
                                        "\nusable_above = \"310 m\"\n[[launch]]\nfile = \"ramps.geojson\"\n"
                                        "[[closure]]\nfile = \"shut.geojson\"\nkind = \"no-wake\"\nname = "
                                        "\"Buoy\"\nbuffer = \"50 m\"\nfrom = \"04-01\"\nto = "
                                        "\"05-31\"\n");
  REQUIRE(loaded.launches.size() == 2);
  CHECK(loaded.launches[0].name == "Ramp");
  CHECK(loaded.launches[0].place.x == Approx(200).margin(1e-3));
  CHECK(loaded.launches[0].usable_above == Metres(310));
  CHECK(loaded.launches[1].name == "South ramp");
  CHECK(loaded.launches[1].place.y == Approx(50).margin(1e-3));
  REQUIRE(loaded.closures.size() == 1);
  CHECK(loaded.closures[0].name == "Buoy");
  CHECK(loaded.closures[0].from == "04-01");
  // a disc of 50 m, drawn by chords: within 1 % of pi r^2
  CHECK(area(std::get<Polygons>(loaded.closures[0].geometry)).value() == Approx(std::numbers::pi * 2500).epsilon(0.01));
}

TEST_CASE("a shoreline clips the lake and becomes its outline") {
  Folder folder;
  folder.put("shore.geojson", collection(feature(box(-100, -50, 100, 50), "")));
  const LoadedLake loaded = folder.load("[shoreline]\nfile = \"shore.geojson\"\n");
  // 200 by 100 m, edges on cell borders
  CHECK(loaded.lake.area.value() == Approx(20000).epsilon(1e-6));
  CHECK(loaded.lake.shoreline.value() == Approx(600).epsilon(1e-4));
  folder.put("shore.geojson", collection(feature(box(900, 900, 950, 950), "")));
  CHECK_THAT(folder.said("[shoreline]\nfile = \"shore.geojson\"\n"),
             Contains("shore.geojson: no water of k.tif lies inside this shoreline"));
}

TEST_CASE("polygons of a shoreline that hold no water are left out, and that is said") {
  Folder folder;
  folder.put("shore.geojson",
             collection(feature(box(-100, -50, 100, 50), "") + "," + feature(box(900, 900, 950, 950), "")));
  const LoadedLake loaded = folder.load("[shoreline]\nfile = \"shore.geojson\"\n");
  CHECK(loaded.lake.outline.size() == 1);
  CHECK(loaded.lake.shoreline.value() == Approx(600).epsilon(1e-4));
  CHECK_THAT(
      loaded.notes,
      Catch::VectorContains(std::string("shore.geojson: 1 of its 2 polygons hold no water of k.tif and are left out")));
}

TEST_CASE("a raster that shows the lake's surface is refused") {
  Folder folder;
  Spec spec;
  // flat, a thousandth of a metre below the surface that is stated; land 10 m above it
  write(folder.scratch.path("k.tif"), spec,
        [depth = lake_on(spec)](double column, double row) { return depth(column, row) > 0 ? 311.999 : 322.0; });
  folder.depth = "raster = \"k.tif\"\nsense = \"elevation\"\nsurface = \"312 m\"\n";
  CHECK_THAT(folder.said(""), Contains("k.tif: its deepest water is 0.001 m") && Contains("surface 312.00 m") &&
                                  Contains("shows the lake's surface"));
}

TEST_CASE("ground below the surface counts as water as far as the data reach, and that is said") {
  Folder folder;
  Spec spec;
  // the lake, with a valley of 5 m west of it that runs off the raster
  write(folder.scratch.path("k.tif"), spec,
        [depth = lake_on(spec)](double column, double row) { return column < 5 ? 307.0 : 312.0 - depth(column, row); });
  folder.depth = "raster = \"k.tif\"\nsense = \"elevation\"\nsurface = \"312 m\"\n";
  const std::string said =
      "k.tif: all ground below 312.00 m is taken for water, as far as the data reach; where that is land, give the "
      "lake's shoreline";
  CHECK_THAT(folder.load("").notes, Catch::VectorContains(said));
  folder.put("shore.geojson", collection(feature(box(-230, -170, 230, 170), "")));
  CHECK_THAT(folder.load("[shoreline]\nfile = \"shore.geojson\"\n").notes, !Catch::VectorContains(said));
}

TEST_CASE("plants and temperatures from tables") {
  Folder folder;
  folder.put("rakes.csv", "\xEF\xBB\xBFsite,depth_m,present\r\n\"A, north\",1.5,1\r\n\r\nB,4.0,0\r\n");
  folder.put("temps.csv", "date,temp_c\n2026-06-11,15.5\n2026-06-10,14.5\n");
  const LoadedLake loaded =
      folder.load("[level]\noffset = \"-0.5 m\"\n[conditions]\nplants = \"rakes.csv\"\nwater_temps = \"temps.csv\"\n");
  REQUIRE(loaded.plants.size() == 2);
  CHECK(loaded.plants[0].depth.value() == Approx(1.0));
  CHECK(loaded.plants[0].present);
  CHECK_FALSE(loaded.plants[1].present);
  REQUIRE(loaded.water_temps.size() == 2);
  CHECK(loaded.water_temps[0].date == "2026-06-10");
  CHECK(loaded.water_temps[1].temperature == Celsius(15.5));
  CHECK(loaded.surface_text == "depths in metres below today's surface, 0.50 m under the surveyed one");

  const auto [name, bytes, text] = GENERATE(table<std::string, std::string, std::string>({
      {"plants", "depth_m,present\n1,1\n\nx,1\n", "t.csv, line 4: depth_m is \"x\", expected a number"},
      {"plants", "depth_m,present\n1,2\n", "t.csv, line 2: present is \"2\", expected 0 or 1"},
      {"plants", "depth_m,cover_pct\n1,120\n", "cover_pct is \"120\", expected 0 to 100"},
      {"plants", "depth_m\n1\n", "t.csv, line 1: no column cover_pct; it has depth_m"},
      {"plants", "depth_m,present\n1,1,1\n", "t.csv, line 2: has 3 cells, but the header has 2"},
      {"plants", "", "t.csv: is empty"},
      {"water_temps", "date,temp_c\n2026-02-30,4\n", "date is \"2026-02-30\", expected a date"},
      {"water_temps", "date,temp_c\n2026-06-10,58\n", "temp_c is \"58\", expected degrees Celsius"},
      {"air_temps", "date,temp_c\n2026-06-10,88\n", "temp_c is \"88\", expected degrees Celsius of air, -60 to 55"},
      {"profile", "date,depth_m\n2026-06-10,0\n", "t.csv, line 1: no column temp_c; it has date, depth_m"},
      {"profile", "date,depth_m,temp_c\n2026-06-10,-1,9\n", "line 2: depth_m is \"-1\", expected metres below"},
      {"profile", "date,depth_m,temp_c\n2026-06-10,1,72\n", "temp_c is \"72\", expected degrees Celsius of water"},
      {"profile", "date,depth_m,temp_c,oxygen_mg_l\n2026-06-10,1,9,95\n", "oxygen_mg_l is \"95\", expected milli"},
      {"profile", "date,depth_m,temp_c\n2026-06-10,1,9\n2026-06-10,1.0,8\n",
       "line 3: depth_m is \"1.0\", expected each depth once a date; 2026-06-10 has it already"},
      {"wind", "time,speed_mps\n2026-06-10T07:00Z,4\n", "t.csv, line 1: no column from_deg"},
      {"wind", "time,speed_mps,from_deg\n2026-06-10T07:00+02:00,4,90\n", "expected a time of UTC, as in 2026-06-10T"},
      {"wind", "time,speed_mps,from_deg\n2026-06-10T24:00Z,4,90\n", "expected a time of UTC"},
      {"wind", "time,speed_mps,from_deg\n2026-06-10T07:00Z,-4,90\n", "speed_mps is \"-4\", expected metres a sec"},
      {"wind", "time,speed_mps,from_deg\n2026-06-10T07:00Z,4,400\n", "from_deg is \"400\", expected degrees clock"},
      {"wind", "time,speed_mps,from_deg\n2026-06-10 07:00,4,9\n2026-06-10T07:00:00Z,5,9\n", "each time once"},
  }));
  folder.put("t.csv", bytes);
  CHECK_THAT(folder.said("[conditions]\n" + name + " = \"t.csv\"\n"), Contains(text));
}

TEST_CASE("a profile, the wind and the air from tables") {
  Folder folder;
  folder.put("profile.csv",
             "date,depth_m,temp_c,oxygen_mg_l\n2026-07-02,6,11.5,2.5\n2026-07-02,0,22,\n2026-06-10,1,18,9.1\n");
  folder.put("wind.csv",
             "time,speed_mps,gust_mps,from_deg\n2026-06-10T08:00Z,4,3,360\n2026-06-10 07:30:15,5,9,230\n"
             "2026-06-10T09:00,1,,0\n");
  folder.put("air.csv", "date,temp_c\n2026-06-11,-5.5\n2026-06-10,31\n");
  const LoadedLake loaded =
      folder.load("[conditions]\nprofile = \"profile.csv\"\nwind = \"wind.csv\"\nair_temps = \"air.csv\"\n");
  REQUIRE(loaded.profile.size() == 3);
  CHECK(loaded.profile[0].date == "2026-06-10");
  CHECK(loaded.profile[0].oxygen_mg_l == 9.1);
  CHECK(loaded.profile[1].depth == Metres(0));
  CHECK_FALSE(loaded.profile[1].oxygen_mg_l);
  CHECK(loaded.profile[2].temperature == Celsius(11.5));
  REQUIRE(loaded.wind.size() == 3);
  using namespace std::chrono;
  CHECK(loaded.wind[0].time == sys_days(year(2026) / 6 / 10) + hours(7) + minutes(30) + seconds(15));
  CHECK(loaded.wind[0].wind.gust == MetresPerSecond(9));
  CHECK(loaded.wind[0].wind.from == Degrees(230));
  CHECK(loaded.wind[1].wind.gust == MetresPerSecond(4));  // a gust is no weaker than the wind
  CHECK(loaded.wind[1].wind.from == Degrees(0));
  CHECK(loaded.wind[2].wind.gust == MetresPerSecond(1));
  REQUIRE(loaded.air_temps.size() == 2);
  CHECK(loaded.air_temps[0].temperature == Celsius(31));
  for (const std::string& note : loaded.notes) CHECK(note.find("not used") == std::string::npos);
}

TEST_CASE("a file that a lake file names and that is not there is named as written") {
  Folder folder;
  CHECK(folder.said("[shoreline]\nfile = \"sub/shore.gpkg\"\n") ==
        "k.toml: shoreline.file = \"sub/shore.gpkg\": no such file; paths are relative to the lake file's folder");
  folder.depth = "raster = \"none.tif\"\n";
  CHECK_THAT(folder.said(""), Contains("k.toml: depth.raster = \"none.tif\": no such file"));
}

TEST_CASE("side files of a shapefile are inputs too") {
  Folder folder;
  GDALAllRegister();
  {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("ESRI Shapefile");
    const std::unique_ptr<GDALDataset> out(
        driver->Create(folder.scratch.path("w.shp").c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference reference;
    reference.SetFromUserInput(Spec{}.crs.c_str());
    OGRLayer* layer = out->CreateLayer("w", &reference, wkbPoint, nullptr);
    const OGRFeatureUniquePtr one(OGRFeature::CreateFeature(layer->GetLayerDefn()));
    OGRPoint place(1, 2);
    one->SetGeometry(&place);
    REQUIRE(layer->CreateFeature(one.get()) == OGRERR_NONE);
  }
  const LoadedLake loaded = folder.load("[[structure]]\nfile = \"w.shp\"\nkind = \"rock\"\n");
  std::vector<std::string> names;
  for (const InputFile& input : loaded.inputs) names.push_back(input.name);
  CHECK(names == std::vector<std::string>{"k.tif", "k.toml", "w.dbf", "w.prj", "w.shp", "w.shx"});
}

TEST_CASE("what depths refer to, in words") {
  Folder folder;
  CHECK(folder.load("[level]\nsurvey = \"312.4 m\"\n").surface_text == "depths in metres below a surface of 312.40 m");
  CHECK(folder.load("[level]\nsurvey = \"312.4 m\"\ntoday = \"311.8 m\"\n").surface_text ==
        "depths in metres below today's surface, 0.60 m under the surveyed one (today 311.80 m)");
}
