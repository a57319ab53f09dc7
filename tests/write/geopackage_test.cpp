// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

// GeoPackage, OGC 12-128r15 (version 1.2): the requirements by number. System tables are read with ogrinfo and with
// SQLite's own program.

using namespace castplan;
using nlohmann::json;

namespace {

// SQLite's file format, section 1.3: numbers of four bytes, the most significant first.
std::uint32_t number_at(const std::string& bytes, std::size_t at) {
  std::uint32_t out = 0;
  for (std::size_t i = 0; i < 4; ++i) out = out << 8U | static_cast<unsigned char>(bytes[at + i]);
  return out;
}

class File {
 public:
  explicit File(const Plan& plan) : bytes(castplan_gpkg(plan)), path(scratch_.write("castplan.gpkg", bytes)) {}
  [[nodiscard]] std::string sql(const std::string& query) const {
    return programs::run("sqlite3 -readonly -separator '|' " + path + " \"" + query + "\"").text;
  }
  [[nodiscard]] std::vector<std::string> lines(const std::string& query) const {
    std::vector<std::string> out;
    std::istringstream text(sql(query));
    for (std::string line; std::getline(text, line);) out.push_back(line);
    return out;
  }
  [[nodiscard]] std::string info(const std::string& arguments) const {
    const auto found = programs::run("ogrinfo -ro -q " + path + " " + arguments);
    CHECK(found.code == 0);
    return found.text;
  }

 private:
  programs::Scratch scratch_;

 public:
  std::string bytes, path;
};

std::string snake(std::string name) {
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("the file is a GeoPackage 1.2 by its head, without a log beside it (Req. 1, 2)") {
  const File file(sample::plan());
  CHECK(file.bytes.substr(0, 16) == std::string("SQLite format 3\0", 16));
  CHECK(number_at(file.bytes, 68) == 0x47504B47);  // application_id: GPKG
  CHECK(number_at(file.bytes, 60) >= 10200);       // user_version
  CHECK(file.bytes[18] == 1);                      // no write-ahead log is needed to read it
  CHECK(file.bytes[19] == 1);
  CHECK(file.sql("pragma integrity_check") == "ok\n");
  CHECK(file.sql("pragma foreign_key_check").empty());
}

// GDAL's own validator of the requirements, of the package python3-gdal, for the system's interpreter.
TEST_CASE("a validator that nobody here wrote finds no requirement broken") {
  const programs::Scratch scratch;
  const auto validated = [&](const std::string& bytes) {
    return programs::run("PATH=/usr/bin:$PATH python3 -m osgeo_utils.samples.validate_gpkg " +
                         scratch.write("validated.gpkg", bytes));
  };
  sample::Options options;
  options.one_phase = options.stop = true;
  for (const Plan& plan : {sample::plan(), sample::plan(options)}) {
    const auto found = validated(castplan_gpkg(plan));
    CAPTURE(found.text);
    CHECK(found.code == 0);
  }
  std::string wrong = castplan_gpkg(sample::plan());
  wrong[68] = 'X';  // no GeoPackage by its application_id
  const auto found = validated(wrong);
  CAPTURE(found.text);
  CHECK(found.code != 0);
  CHECK(says(found.text, "application_id"));
}

TEST_CASE("the reference systems -1, 0 and 4326 are there, and the shapes are in 4326 (Req. 11)") {
  const File file(sample::plan());
  const auto ids = file.lines("select srs_id from gpkg_spatial_ref_sys order by srs_id");
  CHECK(ids == std::vector<std::string>{"-1", "0", "4326"});
  CHECK(file.sql("select organization, organization_coordsys_id from gpkg_spatial_ref_sys where srs_id = 4326") ==
        "EPSG|4326\n");
  CHECK(file.sql("select distinct srs_id from gpkg_geometry_columns") == "4326\n");
}

TEST_CASE("a layer a kind in snake case, spots and passes, all of them listed (Req. 13, 21)") {
  const File file(sample::plan());
  std::set<std::string> expected{"spot", "pass"};
  for (const KindRow& row : kinds()) expected.insert(snake(std::string(row.name)));
  expected.erase("rock");  // a line in this plan
  expected.insert("rock_lines");
  const auto features = file.lines("select table_name from gpkg_contents where data_type = 'features'");
  CHECK(std::set<std::string>(features.begin(), features.end()) == expected);
  CHECK(file.lines("select table_name from gpkg_contents where data_type = 'attributes'") ==
        std::vector<std::string>{"metadata"});
  const auto shaped = file.lines("select table_name from gpkg_geometry_columns where column_name = 'geom'");
  CHECK(std::set<std::string>(shaped.begin(), shaped.end()) == expected);
  CHECK(file.sql("select count(*) from sqlite_master where name = 'layer_styles'") == "0\n");
}

TEST_CASE("columns: fid is the key (Req. 29), geom the shape, id a text; names in snake case, types as they are") {
  const File file(sample::plan());
  for (const std::string& table : file.lines("select table_name from gpkg_contents")) {
    CAPTURE(table);
    CHECK(std::regex_match(table, std::regex("[a-z][a-z0-9_]*")));
    const auto columns = file.lines("select name, type, pk from pragma_table_info('" + table + "')");
    REQUIRE(columns.size() >= 3);
    CHECK(columns[0] == "fid|INTEGER|1");
    if (table == "metadata") continue;
    CHECK(columns[1].substr(0, 5) == "geom|");
    CHECK(columns[2] == "id|TEXT|0");
    for (const std::string& column : columns) {
      CHECK(std::regex_match(column, std::regex("[a-z][a-z0-9_]*\\|[A-Z]+\\|[01]")));
    }
  }
  const auto pool = file.lines("select name, type from pragma_table_info('pool')");
  for (const char* column : {"max_depth_m|REAL", "area_m2|REAL", "deepest|TEXT", "name|TEXT"}) {
    CHECK(std::count(pool.begin(), pool.end(), column) == 1);
  }
  const auto spot = file.lines("select name, type from pragma_table_info('spot')");
  for (const char* column : {"rank|INTEGER", "score|REAL", "hold|TEXT", "why|TEXT"}) {
    CHECK(std::count(spot.begin(), spot.end(), column) == 1);
  }
  CHECK(file.sql("select type from pragma_table_info('launch') where name = 'dry'") == "BOOLEAN\n");
}

TEST_CASE("one geometry type a layer, and each has its R-tree (Req. 75, extension gpkg_rtree_index)") {
  const File file(sample::plan());
  for (const std::string& table : file.lines("select table_name from gpkg_geometry_columns")) {
    CAPTURE(table);
    const std::string type =
        file.sql("select geometry_type_name from gpkg_geometry_columns where table_name = '" + table + "'");
    const std::string found =
        file.info("-dialect sqlite -sql \"select distinct GeometryType(geom) as t from " + table + "\"");
    CHECK(says(found, "t (String) = " + type.substr(0, type.size() - 1)));
    CHECK(found.find("t (String)") == found.rfind("t (String)"));
    CHECK(file.sql("select count(*) from gpkg_extensions where extension_name = 'gpkg_rtree_index' and table_name = '" +
                   table + "'") == "1\n");
    CHECK(file.sql("select count(*) from rtree_" + table + "_geom") == file.sql("select count(*) from " + table));
  }
  CHECK(file.sql("select geometry_type_name from gpkg_geometry_columns where table_name = 'spot'") == "POINT\n");
  CHECK(file.sql("select geometry_type_name from gpkg_geometry_columns where table_name = 'pool'") == "MULTIPOLYGON\n");
}

TEST_CASE("OGR reads the values and places that the GeoJSON files have") {
  const Plan plan = sample::plan();
  const File file(plan);
  const json features = json::parse(features_geojson(plan))["features"];
  const json spots = json::parse(spots_geojson(plan))["features"];
  CHECK(file.sql("select count(*) from spot") == std::to_string(spots.size()) + "\n");
  const programs::Scratch scratch;
  const auto same = [&](const std::string& table, const json& feature) {
    CAPTURE(table);
    const std::string id = feature["id"];
    const std::string out = scratch.path(table + ".json");
    REQUIRE(programs::run("ogr2ogr -f GeoJSON -lco COORDINATE_PRECISION=6 -where \"id = '" + id + "'\" " + out + " " +
                          file.path + " " + table)
                .code == 0);
    const json read = json::parse(programs::read(out))["features"].at(0);
    for (const auto& [name, value] : feature["properties"].items()) {
      CAPTURE(name, value.dump());
      const json& got = read["properties"][name];
      if (value.is_structured()) {
        CHECK((got.is_string() ? json::parse(got.get<std::string>()) : got) == value);
      } else {
        CHECK(got == value);
      }
    }
    return read["geometry"];
  };
  CHECK(same("spot", spots[0]) == spots[0]["geometry"]);
  CHECK(same("pool", features[0])["coordinates"][0] == features[0]["geometry"]["coordinates"]);
  CHECK(same("drop_off", features[1])["coordinates"][0] == features[1]["geometry"]["coordinates"]);
  CHECK(same("weed_line", features[2])["coordinates"] == features[2]["geometry"]["coordinates"]);
  same("pass", json::parse(passes_geojson(plan))["features"][0]);
}

TEST_CASE("shapes across 180 degrees are cut, polar ones are read, and all are valid to GEOS") {
  for (const auto& [lon, lat] : {std::pair(180.0, -17.0), std::pair(-180.0, 17.0), std::pair(20.0, 84.0)}) {
    sample::Options options;
    options.centre = {Longitude{lon}, Latitude{lat}};
    const File file(sample::plan(options));
    CHECK(says(file.info("-dialect sqlite -sql 'select count(*) as n from pool where ST_IsValid(geom)'"),
               "n (Integer) = 1"));
    const std::string box = file.sql("select min(minx), max(maxx) from rtree_pool_geom");
    const double low = std::stod(box), high = std::stod(box.substr(box.find('|') + 1));
    CHECK(low >= -180.0001);
    CHECK(high <= 180.0001);
  }
}

TEST_CASE("the metadata table says what every file carries") {
  const File file(sample::plan());
  const std::string said = file.sql("select name, text from metadata");
  for (const char* part :
       {"private|PRIVATE: EXACT PLACES", "caution|Not for navigation", "life jacket", "surface|depths are below",
        "source|Invented county survey", "licence|CC BY 4.0", "temperatures|pre-spawn: rising 4 to 8 C",
        "not_assessed|oxygen", "note|The depth error", "program|castplan "}) {
    CAPTURE(part);
    CHECK(says(said, part));
  }
  const std::string summary = file.sql("select text from metadata where name = 'summary'");
  CHECK(json::parse(summary) == json::parse(summary_json(sample::plan())));
}

TEST_CASE("a GeoPackage at a stop has no table of spots or passes, and the reason") {
  sample::Options options;
  options.one_phase = options.stop = true;
  Plan plan = sample::plan(options);
  plan.phases = sample::plan().phases;
  const File file(plan);
  CHECK(file.sql("select count(*) from gpkg_contents where table_name in ('spot', 'pass')") == "0\n");
  CHECK_FALSE(says(file.bytes, "spot-45."));
  CHECK_FALSE(says(file.bytes, "pass-45."));
  CHECK(says(file.sql("select text from metadata where name = 'caution'"), "at or above the stop of 75 F"));
}

TEST_CASE("no name leaves its column") {
  for (const std::string& name : {std::string("'); drop table pool; --"), std::string("<script>\"x\"</script>"),
                                  std::string("bell\a\xE2\x80\xAEgnp"), std::string(10000, 'x')}) {
    sample::Options options;
    options.lake_name = options.feature_name = name;
    const File file(sample::plan(options));
    CHECK(file.sql("pragma integrity_check") == "ok\n");
    CHECK(file.sql("select length(name) from pool") ==
          std::to_string(name == "bell\a\xE2\x80\xAEgnp" ? 7 : name.size()) + "\n");
    CHECK_FALSE(says(file.bytes, "\xE2\x80\xAE"));
  }
}

TEST_CASE("equal plans, equal bytes: tables carry the plan's date and no clock") {
  const File file(sample::plan());
  CHECK((file.bytes == castplan_gpkg(sample::plan())));
  CHECK(file.sql("select distinct last_change from gpkg_contents") == "2000-01-01T00:00:00.000Z\n");
  Plan dated = sample::plan();
  dated.document_date = "2026-05-02T00:00:00Z";
  CHECK(File(dated).sql("select distinct last_change from gpkg_contents") == "2026-05-02T00:00:00.000Z\n");
  setenv("OGR_CURRENT_DATE", "2011-01-01T00:00:00.000Z", 1);
  CHECK((castplan_gpkg(sample::plan()) == file.bytes));
  unsetenv("OGR_CURRENT_DATE");
}
