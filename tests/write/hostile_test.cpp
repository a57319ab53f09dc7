// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cstring>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "castplan/write/text.hpp"
#include "support/csv.hpp"
#include "support/pdf.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;
using nlohmann::json;

namespace {

std::vector<std::string> hostile_names() {
  return {"<script>alert(1)</script>",
          "]]> & \"quoted\" 'single' <!-- -->",
          std::string("nul\0bell\a\x1b[31m\x7f", 14),
          "=cmd|' /C calc'!A0",
          "\xE2\x80\xAEgnp.exe \xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D",  // right-to-left override, then Hebrew
          "cut \xF0\x9F\x8E and \xFF bytes",
          "line\r\nbreak\tand\xE2\x80\xA8more",
          std::string(10000, 'x'),
          "\xEF\xBF\xBE\xEF\xBF\xBF",  // U+FFFE, U+FFFF: not letters of XML 1.0 (section 2.2)
          ""};
}

Plan named(const std::string& name) {
  sample::Options options;
  options.lake_name = name;
  Plan plan = sample::plan(options);
  for (Feature& feature : plan.features) feature.name = name;
  for (PhaseSpots& phase : plan.phases) {
    for (Spot& spot : phase.spots) {
      spot.reason_words = name;
      spot.cautions = {name};
      spot.presentations[0].lure = name;
    }
  }
  plan.source = plan.licence = plan.rules_text = name;
  plan.notes = {name};
  return plan;
}

// control characters other than line ends, and the marks that turn the reading direction
bool has_unseen(const std::string& text) {
  for (const char letter : text) {
    if ((static_cast<unsigned char>(letter) < 0x20 && letter != '\n' && letter != '\r') || letter == 0x7f) return true;
  }
  return text.find("\xE2\x80\xAE") != std::string::npos || text.find("\xEF\xBF\xBE") != std::string::npos;
}

}  // namespace

TEST_CASE("any name leaves every file well formed") {
  const programs::Scratch scratch;
  for (const std::string& name : hostile_names()) {
    CAPTURE(name.substr(0, 60));
    const Plan plan = named(name);
    CHECK_NOTHROW(json::parse(features_geojson(plan)));
    CHECK_NOTHROW(json::parse(spots_geojson(plan)));
    CHECK_NOTHROW(json::parse(summary_json(plan)));
    CHECK_NOTHROW(csv::parse(spots_csv(plan)));
    CHECK_NOTHROW(csv::parse(log_csv(plan)));
    CHECK_FALSE(has_unseen(spots_csv(plan)));
    const std::string sheet = scratch.write("sheet.pdf", sheet_pdf(plan));
    CHECK(programs::run("qpdf --check " + sheet).code == 0);
    CHECK(programs::run("pdfinfo " + sheet).text.find("Pages:           1\n") != std::string::npos);
    CHECK_FALSE(has_unseen(pdf::text_of(sheet)));
    for (const OutputFile& file : waypoint_files(plan)) {
      CHECK_FALSE(has_unseen(file.bytes));
      const auto lint = programs::run("xmllint --noout " + scratch.write("names.gpx", file.bytes));
      CHECK(lint.code == 0);
      CHECK(lint.text.empty());
      pugi::xml_document gpx;
      REQUIRE(gpx.load_string(file.bytes.c_str()));
      for (const pugi::xml_node wpt : gpx.child("gpx").children("wpt")) {
        CHECK(std::strlen(wpt.child_value("desc")) <= 255);
        CHECK(std::string(wpt.child_value("desc")).find("may cross land or shoals") != std::string::npos);
        CHECK_FALSE(wpt.first_element_by_path("desc/script"));
      }
    }
  }
}

TEST_CASE("names that are text come back unchanged from GeoJSON") {
  for (const std::string name : {"<script>alert(1)</script>", "a \"b\" \\ 'c'", "Étang des Hérons", "line\nbreak"}) {
    CHECK(json::parse(features_geojson(named(name)))["features"][0]["properties"]["name"] == name);
  }
}
