// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/place_codes.hpp"

#include <catch2/catch.hpp>
#include <cstdio>

#include "support/programs.hpp"

using namespace castplan;

namespace {

LonLat at(double lat, double lon) { return {Longitude{lon}, Latitude{lat}}; }

Secrets::Place secret(double lat, double lon) { return {at(lat, lon), "a spot"}; }

}  // namespace

// The worked example that descriptions of the code give: 57.64911, 10.40744; and 42.6, -5.6.
TEST_CASE("geohashes of the published examples") {
  CHECK(geohash(at(57.64911, 10.40744), 11) == "u4pruydqqvj");
  CHECK(geohash(at(42.6, -5.6), 5) == "ezs42");
}

// Rows of the test data that the specification of Open Location Code is published with.
TEST_CASE("location codes of the published test data") {
  struct Row {
    double lat, lon;
    const char* code;
  };
  for (const Row& row : {Row{20.3700625, 2.7821875, "7fg49qcj+2v"}, Row{47.0000625, 8.0000625, "8fvc2222+22"},
                         Row{-41.2730625, 174.7859375, "4vcppqgp+q9"}, Row{-89.9999375, -179.9999375, "22222222+22"}}) {
    INFO(row.lat << ", " << row.lon);
    CHECK(location_code(at(row.lat, row.lon)) == row.code);
  }
}

// FGDC-STD-011-2001 gives 18SUJ2348306479 for a monument whose place in zone 18 of UTM is 323483 E, 4306479 N.
TEST_CASE("the grid reference of the published example") {
  const GridSquare square = grid_square({18, {323483, 4306479}});
  CHECK(square.zone == 18);
  CHECK(square.letters == "uj");
  CHECK(square.easting == 23483);
  CHECK(square.northing == 6479);
}

TEST_CASE("UTM equals PROJ's, north and south of the equator") {
  const programs::Scratch scratch;
  struct Row {
    double lat, lon;
    int epsg;
  };
  Utm utm;
  for (const Row& row : {Row{38.889, -77.035, 32618}, Row{-36.2, 175.1, 32760}, Row{60.01, 0.4, 32631}}) {
    char place[64];
    std::snprintf(place, sizeof place, "%.6f %.6f\n", row.lon, row.lat);
    const auto told = programs::run("gdaltransform -s_srs EPSG:4326 -t_srs EPSG:" + std::to_string(row.epsg) +
                                    " -output_xy < " + scratch.write("place", place));
    double east = 0, north = 0;
    REQUIRE(std::sscanf(told.text.c_str(), "%lf %lf", &east, &north) == 2);
    const UtmPlace found = utm.of(at(row.lat, row.lon));
    CHECK(found.zone == row.epsg % 100);
    CHECK(found.at.x == Approx(east).margin(0.01));
    CHECK(found.at.y == Approx(north).margin(0.01));
  }
}

TEST_CASE("codes of a place are found in a text, those of others are not") {
  const PlaceCodes codes({secret(20.3700625, 2.7821875), secret(57.64911, 10.40744), secret(38.8894674, -77.0352364)});
  const auto notation = [&](const std::string& text) {
    const auto found = codes.in(text);
    return found.empty() ? std::string() : std::string(found.front().notation);
  };
  CHECK(notation("at 7fg49qcj+2v.") == "location code");
  CHECK(notation("9qcj+2v, say") == "location code");
  CHECK(notation("9qcj+2w") == "location code");  // the cell beside
  CHECK(notation("9qcj+2xx").empty());
  CHECK(notation("9qcj+62").empty());
  CHECK(notation("u4pruydq") == "geohash");
  CHECK(notation("see u4pruydqqvj") == "geohash");
  CHECK(notation("u4pruyd").empty());
  CHECK(notation("u4pruydqqvjxxx").empty());  // a word too long to be one
  for (const char* text :
       {"18suj2348306479", "18s uj 23483 06479", "18suj 2348 0647", "18s uj 23480647", "18suj2348406478"}) {
    INFO(text);
    CHECK(notation(text) == "grid reference");
  }
  for (const char* text : {"18suj234064", "18suj2388306479", "17suj2348306479", "18suh2348306479", "18s", "18suj",
                           "1 2", "", "+", "18s uj 23483 0647"}) {
    INFO(text);
    CHECK(notation(text).empty());
  }
}
