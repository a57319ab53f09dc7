// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "cli/evening.hpp"
#include "cli/spots_in_files.hpp"

using namespace castplan;
using namespace castplan::printed;

namespace {

const std::vector<std::string> kPdfs = {"contours.pdf", "contours-key.pdf", "glossary.pdf", "to-check.pdf"};
int pages_of(const std::string& name) { return name == "glossary.pdf" ? 2 : 1; }

std::string one_space(const std::string& text) { return std::regex_replace(text, std::regex("\\s+"), " "); }

}  // namespace

TEST_CASE("pages for teaching are the reader's paper, whole for qpdf and poppler, and nothing on them meets") {
  for (const std::string& options : {kSummer, std::string("--date 2026-05-01 "), kWarmest}) {
    for (const std::string units : {"metric", "imperial"}) {
      const Evening evening(options + "--units " + units);
      const bool metric = units == "metric";
      for (const std::string& name : kPdfs) {
        CAPTURE(name, options, units);
        const Result check = run("qpdf --check " + evening.path(name));
        CHECK(check.code == 0);
        CHECK_FALSE(says(check.text, "WARNING"));
        const std::string info = run("pdfinfo " + evening.path(name)).text;
        CHECK(says(info, "Pages:           " + std::to_string(pages_of(name)) + "\n"));
        // ISO 216 and ANSI/ASME Y14.1, as for the sheet
        CHECK(says(info, metric ? "595.276 x 841.89 pts (A4)" : "612 x 792 pts (letter)"));
        CHECK(says(info, "Tagged:          yes"));
        for (int page = 1; page <= pages_of(name); ++page) {
          no_words_meet(evening.path(name), metric ? 595.276 : 612.0, metric ? 841.89 : 792.0, page, 3);
          for (const pdf::Run& one : pdf::runs_of(evening.path(name), page)) {
            INFO(one.text);
            CHECK(one.size >= 9);
          }
        }
      }
    }
  }
}

TEST_CASE("pages for teaching have embedded fonts, a language, a structure, texts for figures, and no colour") {
  const Evening evening(kSummer);
  for (const std::string& name : kPdfs) {
    CAPTURE(name);
    carries_its_fonts(evening.path(name));
    const std::string objects = pdf::objects_of(evening.scratch, evening.path(name));
    CHECK(says(objects, "/Lang (en)"));
    const std::string tree = run("pdfinfo -struct " + evening.path(name)).text;
    CHECK(says(tree, "Document"));
    CHECK(says(tree, "H1"));
    CHECK(count_of(objects, "/Alt ") == (name == "glossary.pdf" ? 12 : 1));
    const pdf::Picture colour = pdf::drawn(evening.scratch, evening.path(name), 60);
    REQUIRE(colour.channels == 3);
    int coloured = 0;
    for (int y = 0; y < colour.height; ++y) {
      for (int x = 0; x < colour.width; ++x) {
        coloured += colour.at(x, y, 0) != colour.at(x, y, 1) || colour.at(x, y, 1) != colour.at(x, y, 2) ? 1 : 0;
      }
    }
    CHECK(coloured == 0);
  }
}

TEST_CASE("the contour sheet has the task and the contours, and nothing in it comes from spots") {
  const Evening evening(kSummer);
  const std::string text = evening.text("contours.pdf");
  for (const char* part : {"Lake Ossilby", "Mark three places where you would cast, and say why.", "place, in words",
                           "depth", "why there", "true north", "launch", "Invented for castplan", "CC0-1.0", "214.60 m",
                           "Not for navigation", "life jacket", "Muskellunge", "18 to 22 C (64 to 72 F)"}) {
    INFO(part);
    CHECK(says(text, part));
  }
  for (const char* part : {"PRIVATE", "\xC2\xB0", "hazard", "closed", "drop-off", "weed line"}) {
    INFO(part);
    CHECK_FALSE(says(text, part));
  }
  // however many spots there are, the bytes are the same
  CHECK(read(evening.path("contours.pdf")) == read(Evening(kSummer + "--spots 3").path("contours.pdf")));
  CHECK(read(evening.path("contours.pdf")) == read(Evening(kSummer + "--cast 12m-15m").path("contours.pdf")));
  // numbers on the map are whole steps below the lake's greatest depth
  const double deepest = json_in(evening.path("summary.json"))["lake"]["max_depth_m"];
  std::smatch step;
  REQUIRE(std::regex_search(text, step, std::regex("depths in m, a line each ([0-9.]+) m")));
  int labels = 0;
  for (const pdf::Word& word : pdf::words_of(evening.path("contours.pdf"))) {
    if (word.top < 40 * kMm || word.bottom > 160 * kMm || !std::regex_match(word.text, std::regex("[0-9.]+"))) continue;
    INFO(word.text);
    const double depth = std::stod(word.text);
    CHECK(depth < deepest);
    CHECK(std::abs(std::remainder(depth, std::stod(step[1]))) < 1e-9);
    ++labels;
  }
  CHECK(labels >= 10);
}

TEST_CASE("the key lies over the contour sheet: outline and contours are drawn alike") {
  const Evening evening(kSummer);
  const auto lines = [&](const std::string& name, const std::string& width) {
    const std::string objects = pdf::objects_of(evening.scratch, evening.path(name));
    const auto from = objects.find(" " + width + " w");
    REQUIRE(from != std::string::npos);
    return objects.substr(from, objects.find(" S", from) - from);
  };
  for (const std::string width : {"1.5", "0.6"}) {
    CHECK(lines("contours.pdf", width).size() > 2000);
    CHECK(lines("contours.pdf", width) == lines("contours-key.pdf", width));
  }
}

TEST_CASE("the key says of its six best spots what spots.geojson says") {
  for (const std::string units : {"metric", "imperial"}) {
    const Evening evening(kSummer + "--units " + units);
    const std::string text = evening.text("contours-key.pdf");
    CHECK(says(text, "PRIVATE: EXACT PLACES"));
    CHECK(says(text, "the 6 best of 10 spots"));
    CHECK(count_of(text, "\xC2\xB0 true") == 6);
    const auto spots = evening.features("spots.geojson");
    for (std::size_t i = 0; i < 6; ++i) {
      const auto& p = spots[i]["properties"];
      INFO(p["reason"]);
      CHECK(says(text, one_space(p["reason"].get<std::string>())));
      CHECK(says(text, minutes_of(spots[i]["geometry"]["coordinates"])));
      const double unit = units == "metric" ? 1.0 : 0.3048;
      char depth[60];
      std::snprintf(depth, sizeof depth, units == "metric" ? "%.1f m under the boat" : "%.0f ft under the boat",
                    p["boat_depth_m"].get<double>() / unit);
      CHECK(says(text, depth));
    }
    for (std::size_t i = 6; i < spots.size(); ++i) {
      CHECK_FALSE(says(text, minutes_of(spots[i]["geometry"]["coordinates"])));
    }
  }
}

TEST_CASE("before the season the key has the best place of each phase, by its letter") {
  const Evening evening("--date 2026-05-01");
  const std::string text = evening.text("contours-key.pdf");
  CHECK(says(text, "the best place of each phase"));
  int found = 0;
  for (const auto& spot : evening.features("spots.geojson")) {
    if (spot["properties"]["rank"] != 1) continue;
    CHECK(says(text, minutes_of(spot["geometry"]["coordinates"])));
    ++found;
  }
  CHECK(found == 7);
  CHECK(count_of(text, "\xC2\xB0 true") == 7);
}

TEST_CASE("at a stop the key has features and no spots, and says why; the list to check names no spot") {
  const Evening evening(kWarmest);
  const std::string key = evening.text("contours-key.pdf");
  CHECK(says(key, "No spots: the features alone"));
  CHECK(says(key, "75 F"));
  CHECK(says(key, "d drop-off"));
  CHECK(says(key, "p pool"));
  const std::regex place("\\d\xC2\xB0 \\d\\d\\.\\d{3}'");
  CHECK_FALSE(std::regex_search(key, place));
  CHECK_FALSE(std::regex_search(evening.text("contours.pdf"), place));
  const auto records = evening.checks();
  REQUIRE(records.size() > 1);
  for (std::size_t i = 1; i < records.size(); ++i) {
    auto row = csv::row(records, i);
    INFO(row["what"]);
    CHECK(row["what"] != "depth at a spot");
    CHECK(row["spots"].empty());
    CHECK_FALSE(row["id"].starts_with("spot"));
    CHECK(says(row["cautions"], "75 F"));
  }
  for (const std::string& name : kPdfs) CHECK(says(evening.text(name), "75 F"));
  // a stop that was set aside is said on every page, with its reason
  const Evening aside(kWarmest + "--override-stop 'tagging study'");
  for (const std::string& name : kPdfs) CHECK(says(aside.text(name), "tagging study"));
}

TEST_CASE("the glossary has twelve terms, each with what a sounder shows and why fish hold there") {
  const Evening evening(kSummer);
  const std::string text = evening.text("glossary.pdf");
  for (const char* term : {"Pool", "Drop-off", "Weed line", "Hump", "Saddle", "Flat", "Channel", "Point", "Inside turn",
                           "Narrows", "Bay", "Thermocline"}) {
    INFO(term);
    CHECK(says(text, term));
  }
  CHECK(count_of(text, "On a sounder:") == 12);
  CHECK(count_of(text, "Why a muskellunge holds there:") == 12);
  const std::string bass = Evening("--species smallmouth-bass --water-temp 22C --trend rising").text("glossary.pdf");
  CHECK(count_of(bass, "Why a big predator holds there:") == 12);
}

TEST_CASE("pages for teaching are equal to the byte on any number of threads") {
  const Evening one(kSummer + "--threads 1");
  const Evening two(kSummer + "--threads 2");
  for (const std::string& name : kPdfs) CHECK(read(one.path(name)) == read(two.path(name)));
  CHECK(read(one.path("to-check.csv")) == read(two.path("to-check.csv")));
}

TEST_CASE("any names leave the pages for teaching whole") {
  const std::vector<std::pair<std::string, std::string>> names = {
      {"script", "<script>alert(1)</script>"},
      {"bell", "\\u0007bell\\u0000\\u001b[31m"},
      {"Hebrew turned", "\\u202egnp.exe \\u05e9\\u05dc\\u05d5\\u05dd"},
      {"formula", "=1+1"},
      {"10,000 letters", std::string(10000, 'W')}};
  for (const auto& [what, name] : names) {
    CAPTURE(what);
    const Scratch scratch;
    const std::string lake = sample_with(scratch, {{"name = \"Lake Ossilby\"", "name = \"" + name + "\""},
                                                   {"name = \"East landing\"", "name = \"" + name + "\""},
                                                   {"source = \"Invented for castplan\"", "source = \"" + name + "\""},
                                                   {"text = \"EXAMPLE", "text = \"" + name + " EXAMPLE"}});
    const Evening evening("--water-temp 76F --date 2026-08-01 --units imperial --spots 30 --override-stop '" +
                              std::string(3000, 'x') + "'",
                          lake);
    for (const std::string& page : kPdfs) {
      CAPTURE(page);
      CHECK(run("qpdf --check " + evening.path(page)).code == 0);
      CHECK(says(run("pdfinfo " + evening.path(page)).text, "Pages:           " + std::to_string(pages_of(page))));
      for (int number = 1; number <= pages_of(page); ++number) {
        no_words_meet(evening.path(page), 612, 792, number, 3);
      }
      const std::string text = evening.text(page);
      CHECK(says(text, "2026-03-01"));
      CHECK(text.find("\xE2\x80\xAE") == std::string::npos);
    }
    for (const auto& record : evening.checks()) {
      for (const std::string& cell : record) {
        CHECK((cell.empty() || cell[0] != '='));
        CHECK(cell.find('\x07') == std::string::npos);
      }
    }
  }
}
