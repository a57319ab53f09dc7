// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cctype>
#include <cmath>
#include <cstdio>

#include "castplan/geo/error.hpp"
#include "publish/club.hpp"
#include "publish/place_codes.hpp"

using namespace castplan;
using namespace castplan::club;

// A place is written in each notation by the arithmetic of the notation alone, put into a page before it is looked
// through, and the whole command must fail, naming the file and the byte.

namespace {

std::string printed(const char* form, double value) {
  char text[64];
  std::snprintf(text, sizeof text, form, value);
  return text;
}

/// The first spot of the plan as its file has it.
struct Places {
  LonLat boat, target, cover, lane;
  std::string spot_id, pass_id;
};

Places places_in(const Plan& plan) {
  const json spots = json::parse(spots_geojson(plan))["features"];
  const json passes = json::parse(passes_geojson(plan))["features"];
  const auto place = [](const json& at) {
    return LonLat{Longitude{at[0].get<double>()}, Latitude{at[1].get<double>()}};
  };
  Places out{place(spots[0]["geometry"]["coordinates"]),
             place(spots[0]["properties"]["target"]),
             {},
             place(passes[0]["geometry"]["coordinates"][0]),
             spots[0]["id"],
             passes[0]["id"]};
  const json features = json::parse(features_geojson(plan))["features"];
  for (const json& feature : features) {
    if (feature["properties"]["kind"] == "cover") out.cover = place(feature["geometry"]["coordinates"]);
  }
  return out;
}

/// What the command says when a text is put in before a mark of a file.
std::string said_with(const Plan& plan, const std::string& file, const std::string& mark, const std::string& text,
                      std::size_t* at = nullptr, bool exact = false) {
  PublishOptions options;
  options.exact = exact;
  options.before_check = [&](std::vector<OutputFile>& files) {
    for (OutputFile& each : files) {
      if (each.name != file) continue;
      const std::size_t place = each.bytes.find(mark);
      REQUIRE(place != std::string::npos);
      each.bytes.insert(place, text);
      if (at) *at = place;
    }
  };
  return thrown<OutputError>([&] { site_of(plan, options); });
}

const std::string kPage = "lakes/kestrel-mere.html";

std::string dms(double degrees, const char* seconds_form) {
  const double whole = std::floor(std::abs(degrees));
  const double minutes = std::floor((std::abs(degrees) - whole) * 60.0);
  const double seconds = ((std::abs(degrees) - whole) * 60.0 - minutes) * 60.0;
  return printed("%.0f", whole) + "\xC2\xB0" + printed("%.0f", minutes) + "'" + printed(seconds_form, seconds) + "\"";
}

std::string dmm(double degrees, const char* minutes_form) {
  const double whole = std::floor(std::abs(degrees));
  return printed("%.0f", whole) + "\xC2\xB0 " + printed(minutes_form, (std::abs(degrees) - whole) * 60.0) + "'";
}

// EPSG Guidance Note 7-2, method 1024 (Popular Visualisation Pseudo-Mercator)
double mercator_x(LonLat at) { return 6378137.0 * at.lon.degrees * M_PI / 180.0; }
double mercator_y(LonLat at) { return 6378137.0 * std::log(std::tan(M_PI / 4.0 + at.lat.degrees * M_PI / 360.0)); }

}  // namespace

TEST_CASE("a clean site passes, coarse and exact") {
  CHECK_NOTHROW(site_of(large()));
  CHECK_NOTHROW(site_of(large({})));
  CHECK_NOTHROW(site_of(large(), {.exact = true}));
  CHECK_NOTHROW(site_of(sample::plan()));
}

TEST_CASE("a place planted in any notation is caught") {
  const Plan plan = large();
  const Places places = places_in(plan);
  for (const LonLat at : {places.boat, places.target, places.lane, places.cover}) {
    const double lon = at.lon.degrees, lat = at.lat.degrees;
    const std::string d6 = printed("%.6f", lat) + ", " + printed("%.6f", lon);
    const std::vector<std::string> notations{
        d6,
        printed("%.5f", lat) + " " + printed("%.5f", lon),
        printed("%.4f", lon) + "," + printed("%.4f", lat),
        "lat=\"" + printed("%.7f", lat) + "\" lon=\"" + printed("%.7f", lon) + "\"",
        printed("%.0f", lat * 1e6) + ";" + printed("%.0f", lon * 1e6),
        dmm(lat, "%06.3f") + " N, " + dmm(lon, "%06.3f") + " W",
        dmm(lat, "%.2f") + " N " + dmm(lon, "%.2f") + " W",
        "N" + dms(lat, "%.1f") + " W" + dms(lon, "%.1f"),
        dms(lat, "%.0f") + " N " + dms(lon, "%.0f") + " W",
        printed("%09.4f", std::floor(lat) * 100.0 + (lat - std::floor(lat)) * 60.0) + ",N," +
            printed("%010.4f", std::floor(-lon) * 100.0 + (-lon - std::floor(-lon)) * 60.0) + ",W",
        printed("%.2f", mercator_x(at)) + " " + printed("%.2f", mercator_y(at)),
        "{\"x\": " + printed("%.0f", mercator_x(at)) + ", \"y\": " + printed("%.0f", mercator_y(at)) + "}",
    };
    for (const std::string& text : notations) {
      INFO(text);
      std::size_t byte = 0;
      const std::string said = said_with(plan, kPage, "</main>", "<p>" + text + "</p>", &byte);
      CHECK(has(said, kPage + ", byte "));
      CHECK(has(said, "nothing was written"));
    }
  }
}

TEST_CASE("a place in metres of UTM is caught") {
  const Plan plan = large();
  const Places places = places_in(plan);
  for (const LonLat at : {places.boat, places.target}) {
    // by the program gdaltransform (PROJ)
    const Scratch scratch;
    const std::string in =
        scratch.write("place", printed("%.6f", at.lon.degrees) + " " + printed("%.6f", at.lat.degrees) + "\n");
    const std::string metres =
        programs::run("gdaltransform -s_srs EPSG:4326 -t_srs EPSG:32624 -output_xy < " + in).text;
    double east = 0, north = 0;
    REQUIRE(std::sscanf(metres.c_str(), "%lf %lf", &east, &north) == 2);
    for (const char* form : {"%.0f", "%.2f"}) {
      const std::string text = "<p>24T " + printed(form, east) + " " + printed(form, north) + "</p>";
      INFO(text);
      CHECK(has(said_with(plan, kPage, "</main>", text), "metres of UTM"));
    }
  }
}

TEST_CASE("a place as a code of letters and digits is caught, in every file") {
  const Plan plan = large();
  const Places places = places_in(plan);
  Utm utm;
  for (const LonLat at : {places.boat, places.target, places.lane, places.cover}) {
    const GridSquare square = grid_square(utm.of(at));
    std::string letters = square.letters;
    for (char& each : letters) each = static_cast<char>(std::toupper(static_cast<unsigned char>(each)));
    const std::string reference = std::to_string(square.zone) + "T " + letters + " " +
                                  printed("%05.0f", std::floor(square.easting)) + " " +
                                  printed("%05.0f", std::floor(square.northing));
    const std::vector<std::pair<std::string, std::string>> codes{
        {geohash(at, 9), "geohash"}, {location_code(at), "location code"}, {reference, "grid reference"}};
    for (const auto& [code, notation] : codes) {
      INFO(code);
      CHECK(has(said_with(plan, kPage, "</main>", "<p>At " + code + ".</p>"), "as a " + notation));
      CHECK(has(said_with(plan, "lakes/kestrel-mere/areas.csv", "\r\n", "," + code), "as a " + notation));
    }
  }
}

TEST_CASE("one finely printed coordinate is enough, and the byte is named") {
  const Plan plan = large();
  const Places places = places_in(plan);
  std::size_t byte = 0;
  const std::string text = printed("%.6f", places.target.lat.degrees);
  const std::string said = said_with(plan, "lakes/kestrel-mere/areas.csv", "\r\n", "," + text, &byte);
  CHECK(has(said, "lakes/kestrel-mere/areas.csv, byte " + std::to_string(byte + 1) + ": a target, as decimal degrees"));
}

TEST_CASE("places are caught in hidden fields, comments, scripts, escapes and metadata") {
  const Plan plan = large();
  const Places places = places_in(plan);
  const std::string lat = printed("%.6f", places.boat.lat.degrees), lon = printed("%.6f", -places.boat.lon.degrees);
  const std::string escaped_lat = lat.substr(0, 2) + "&#46;" + lat.substr(3),
                    percent = lat.substr(0, 2) + "%2E" + lat.substr(3);
  const std::string in_json = lat.substr(0, 2) + "\\u002e" + lat.substr(3),
                    comma = lat.substr(0, 2) + "," + lat.substr(3);
  for (const std::string& text :
       {"<input type=\"hidden\" value=\"" + lat + "\">", "<!-- " + lat + " -->",
        "<meta name=\"x\" content=\"" + lon + "\">", "<script>const a = [" + lon + "];</script>", escaped_lat, percent,
        in_json, comma, std::string("<a href=\"#\" data-at=\"" + lat + "\">x</a>")}) {
    INFO(text);
    CHECK(has(said_with(plan, kPage, "</main>", text), "a spot, as decimal degrees"));
    CHECK(has(said_with(plan, "index.html", "</main>", text), "a spot, as decimal degrees"));
  }
  CHECK(has(said_with(plan, "feed.atom", "</feed>", "<!-- " + lat + " -->"), "feed.atom, byte "));
  CHECK(has(said_with(plan, "lakes/kestrel-mere/features.geojson", "\"features\": [", "\"bbox\": [" + lon + "], "),
            "features.geojson, byte "));
}

TEST_CASE("a place in base 64 is caught") {
  const Plan plan = large();
  const Places places = places_in(plan);
  const Scratch scratch;
  scratch.write("place", "at " + printed("%.6f", places.boat.lat.degrees) + " north");
  // by the program base64 of the GNU core utilities
  std::string run = programs::run("base64 -w0 " + scratch.path("place")).text;
  CHECK(has(said_with(plan, kPage, "</main>", "<p data-x=\"" + run + "\">"), "in base 64"));
}

TEST_CASE("a place drawn on the page's own map is caught, in units and per cent") {
  const Plan plan = large();
  const Places places = places_in(plan);
  const std::string page = file_in(site_of(plan), kPage);
  // the map's own corners: from the shoreline of the plan, as any reader of the page has it
  const json shore = json::parse(contours_geojson(plan))["features"][0];
  REQUIRE(shore["id"] == "shoreline");
  double west = 180, east = -180, south = 90, north = -90;
  for (const json& at : shore["geometry"]["coordinates"][0]) {
    west = std::min(west, at[0].get<double>()), east = std::max(east, at[0].get<double>());
    south = std::min(south, at[1].get<double>()), north = std::max(north, at[1].get<double>());
  }
  // a round lake fills 1 / 1.1 of its square map of 1000 units; on 600 m the earth is flat
  const auto drawn = [&](LonLat at) {
    return XY{500.0 + (at.lon.degrees - (west + east) / 2) / (east - west) * 1000.0 / 1.1,
              500.0 - (at.lat.degrees - (south + north) / 2) / (north - south) * 1000.0 / 1.1};
  };
  REQUIRE(has(page, "viewBox=\"0 0 1000 1000\""));
  for (const LonLat at : {places.boat, places.target, places.cover}) {
    const XY place = drawn(at);
    for (const std::string& text :
         {"<circle cx=\"" + printed("%.1f", place.x) + "\" cy=\"" + printed("%.1f", place.y) + "\" r=\"4\"/>",
          "<path d=\"M" + printed("%.0f", place.x) + " " + printed("%.0f", place.y) + "h0\"/>",
          "<i style=\"left:" + printed("%.2f%%", place.x / 10.0) + ";top:" + printed("%.2f%%", place.y / 10.0) +
              "\"></i>",
          "<script>draw(" + printed("%.2f", place.x) + ", " + printed("%.2f", place.y) + ");</script>"}) {
      INFO(text);
      CHECK(has(said_with(plan, kPage, "</main>", text), "as a place on the map"));
    }
  }
}

TEST_CASE("ids, hashes, pictures and file names are caught") {
  const Plan plan = large();
  const Places places = places_in(plan);
  CHECK(has(said_with(plan, kPage, "</main>", "<p id=\"" + places.spot_id + "\">"), "the id of a spot"));
  CHECK(has(said_with(plan, kPage, "</main>", "<p id=\"" + places.pass_id + "\">"), "the id of a pass"));
  CHECK(has(said_with(plan, kPage, "</main>", std::string(64, 'A')), "the hash of an input"));
  for (const std::string& picture : {std::string("<img src=\"a.png\">"), std::string("\x89PNG\r\n"),
                                     std::string("<image href=\"data:image/png;base64,AAAA\"/>")}) {
    CHECK(has(said_with(plan, kPage, "</main>", picture), "a picture"));
  }
  PublishOptions options;
  options.before_check = [&](std::vector<OutputFile>& files) {
    files.insert(files.begin(), {"lakes/at-" + printed("%.6f", places.boat.lat.degrees) + ".txt", "x"});
  };
  CHECK(has(thrown<OutputError>([&] { site_of(plan, options); }), "in the file's name"));
}

// A line along an edge may run through a target; the same numbers outside that line may not pass.
TEST_CASE("a public line is passed over only as it stands") {
  Plan plan = large();
  const Places places = places_in(plan);
  const XY target = plan.lake->projection.from_lonlat(places.target);
  std::get<Lines>(plan.features[1].geometry)[0][1] = target;
  CHECK_NOTHROW(site_of(plan));
  PublishOptions options;
  options.before_check = [&](std::vector<OutputFile>& files) {
    for (OutputFile& file : files) {
      if (file.name != "lakes/kestrel-mere/features.geojson") continue;
      const std::size_t at = file.bytes.find("\"drop-off\"");
      REQUIRE(at != std::string::npos);
      file.bytes.insert(at + 1, "best-");
    }
  };
  CHECK(has(thrown<OutputError>([&] { site_of(plan, options); }), "features.geojson, byte "));
}

TEST_CASE("a text of the user's own that tells a place stops the command") {
  Plan plan = large();
  const Places places = places_in(plan);
  plan.rules_text = "No wake at " + printed("%.5f", places.boat.lat.degrees) + ".";
  CHECK(has(thrown<OutputError>([&] { site_of(plan); }), "if a text of your own"));
}

TEST_CASE("with exact places, what never leaves is still caught") {
  const Plan plan = large();
  const Places places = places_in(plan);
  const std::string cover = printed("%.6f", places.cover.lat.degrees) + " " + printed("%.6f", places.cover.lon.degrees);
  CHECK(has(said_with(plan, kPage, "</main>", cover, nullptr, true), "a feature that does not leave (cover)"));
  CHECK(has(said_with(plan, kPage, "</main>", std::string(64, 'a'), nullptr, true), "the hash of an input"));
}
