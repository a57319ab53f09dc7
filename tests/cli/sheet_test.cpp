// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "cli/printed_page.hpp"

using namespace castplan;
using namespace castplan::programs;
using namespace castplan::printed;

namespace {

struct Sheet {
  Scratch scratch;
  std::string path;
  nlohmann::json spots;

  explicit Sheet(const std::string& options, const std::string& lake = kSample, const std::string& before = "") {
    const std::string out = scratch.path("plan");
    const Result made =
        run(before + CASTPLAN_PROGRAM " scout " + lake + " --quiet --formats pdf,geojson --out " + out + " " + options);
    INFO(made.text);
    REQUIRE(made.code == 0);
    path = out + "/sheet.pdf";
    spots = json_in(out + "/spots.geojson")["features"];
  }
};

double middle_of(const pdf::Run& one) { return one.top + one.height / 2.0; }

// Where the sheet folds, which is where its upper half ends.
double fold_of(const std::string& path) {
  for (const pdf::Word& word : pdf::words_of(path)) {
    if (word.text == "fold") return (word.top + word.bottom) / 2.0;
  }
  return 0.0;
}

const std::string kSummer = "--water-temp 66F --trend rising --date 2026-06-20 ";

}  // namespace

TEST_CASE("the sheet is one page of the reader's paper at 3, 12 and 30 spots, whole for qpdf and poppler") {
  for (const std::string spots : {"3", "12", "30"}) {
    for (const std::string units : {"metric", "imperial"}) {
      CAPTURE(spots, units);
      const Sheet sheet(kSummer + "--spots " + spots + " --units " + units);
      const Result check = run("qpdf --check " + sheet.path);
      CHECK(check.code == 0);
      CHECK_FALSE(says(check.text, "WARNING"));
      const std::string info = run("pdfinfo " + sheet.path).text;
      CHECK(says(info, "Pages:           1\n"));
      // ISO 216: A4 is 210 x 297 mm; Letter is 8.5 x 11 in (ANSI/ASME Y14.1)
      CHECK(says(info, units == "metric" ? "595.276 x 841.89 pts (A4)" : "612 x 792 pts (letter)"));
      CHECK(says(info, "Tagged:          yes"));
      CHECK(says(info, "Title:           Sheet for the water: Lake Ossilby, 2026-06-20, Muskellunge"));
      no_words_meet(sheet.path, units == "metric" ? 595.276 : 612.0, units == "metric" ? 841.89 : 792.0);
    }
  }
}

TEST_CASE("the sheet has its language, its structure and a text for the map") {
  const Sheet sheet(kSummer);
  const std::string objects = pdf::objects_of(sheet.scratch, sheet.path);
  CHECK(says(objects, "/Lang (en)"));
  CHECK(says(objects, "/DisplayDocTitle true"));
  CHECK(says(objects, "/Alt (Depth map of Lake Ossilby with 10 numbered places"));
  CHECK(says(objects, "/Scope /Column"));
  CHECK(says(objects, "/Scope /Row"));
  const std::string tree = run("pdfinfo -struct-text " + sheet.path).text;
  for (const char* part : {"Document", "H1", "Table", "THead", "TR", "TH", "TD", "Figure"}) CHECK(says(tree, part));
  CHECK(says(tree, "Lake Ossilby"));
}

TEST_CASE("the sheet carries its fonts, and nothing on it needs colour") {
  const Sheet sheet(kSummer);
  carries_its_fonts(sheet.path);
  const pdf::Picture colour = pdf::drawn(sheet.scratch, sheet.path, 100);
  const pdf::Picture grey = pdf::drawn(sheet.scratch, sheet.path, 100, "-gray");
  REQUIRE(colour.channels == 3);
  REQUIRE(grey.channels == 1);
  REQUIRE(colour.width == grey.width);
  int differing = 0;
  for (int y = 0; y < colour.height; ++y) {
    for (int x = 0; x < colour.width; ++x) {
      for (int channel = 0; channel < 3; ++channel) {
        differing += std::abs(colour.at(x, y, channel) - grey.at(x, y)) > 2 ? 1 : 0;
      }
    }
  }
  CHECK(differing == 0);
}

TEST_CASE("the table is set in 13 points or more, all else in 9 or more") {
  for (const std::string& options : {kSummer, std::string("--date 2026-05-01"), kSummer + "--units imperial"}) {
    const Sheet sheet(options);
    const double fold = fold_of(sheet.path);
    REQUIRE(fold > 300);
    bool in_table = false;
    int cells = 0;
    for (const pdf::Run& one : pdf::runs_of(sheet.path)) {
      INFO(one.text << " of size " << one.size);
      CHECK(one.size >= 9);
      in_table = in_table || one.text.starts_with("stop") || one.text.starts_with("A Cold water");
      if (!in_table || middle_of(one) > fold - 8) continue;
      CHECK(one.size >= 13);
      ++cells;
    }
    CHECK(cells > 25);
  }
}

TEST_CASE("boxes to tick are 8 mm wide and high, four a stop, and the temperature has its boxes") {
  const Sheet sheet(kSummer);
  const std::string objects = pdf::objects_of(sheet.scratch, sheet.path);
  const std::regex rectangle("(-?[0-9.]+) (-?[0-9.]+) (-?[0-9.]+) (-?[0-9.]+) re\\s+S");
  int square = 0;
  int wide = 0;
  for (std::sregex_iterator at(objects.begin(), objects.end(), rectangle), end; at != end; ++at) {
    const double width = std::abs(std::stod((*at)[3]));
    const double height = std::abs(std::stod((*at)[4]));
    if (width < 8 * kMm || height < 8 * kMm) continue;
    square += std::abs(width - height) < 0.01 ? 1 : 0;
    wide += std::abs(height - 8.4 * kMm) < 0.01 && width > height ? 1 : 0;
  }
  CHECK(square == 4 * 10);
  CHECK(wide >= 4);
}

TEST_CASE("numbers on the map are 5 mm high, measured on the drawn page") {
  constexpr int kDpi = 300;
  const Sheet sheet(kSummer);
  const double fold = fold_of(sheet.path);
  const pdf::Picture page = pdf::drawn(sheet.scratch, sheet.path, kDpi, "-gray");
  std::set<std::string> seen;
  for (const pdf::Word& word : pdf::words_of(sheet.path)) {
    if (word.top < fold || word.bottom - word.top < 20 || !std::regex_match(word.text, std::regex("\\d+"))) continue;
    // the longest run of rows with ink between the left and right edge of the number
    const auto pixel = [&](double points) { return static_cast<int>(points * kDpi / 72.0); };
    int longest = 0;
    int sofar = 0;
    for (int y = pixel(word.top); y < pixel(word.bottom); ++y) {
      bool ink = false;
      for (int x = pixel(word.left) + 1; x < pixel(word.right); ++x) ink = ink || page.at(x, y) < 128;
      sofar = ink ? sofar + 1 : 0;
      longest = std::max(longest, sofar);
    }
    INFO(word.text);
    CHECK(longest * 25.4 / kDpi >= 5.0);
    seen.insert(word.text);
  }
  CHECK(seen.size() == sheet.spots.size());
}

TEST_CASE("what the table says of a stop is what spots.geojson says") {
  for (const std::string units : {"metric", "imperial"}) {
    const Sheet sheet(kSummer + "--spots 30 --units " + units);
    const double unit = units == "metric" ? 1.0 : 0.3048;
    const double step = units == "metric" ? 0.1 : 1.0;  // what depths are rounded to
    const double fold = fold_of(sheet.path);
    const std::vector<pdf::Run> runs = pdf::runs_of(sheet.path);
    std::set<int> ranks;
    for (const pdf::Run& number : runs) {
      if (number.size != 20 || middle_of(number) > fold || number.left > 100 || number.top < 80) continue;
      const int rank = std::stoi(number.text);
      CAPTURE(rank, units);
      CHECK(ranks.insert(rank).second);
      std::string row;
      for (const pdf::Run& one : runs) {
        if (std::abs(middle_of(one) - middle_of(number)) < 12 && &one != &number) row += one.text + " | ";
      }
      INFO(row);
      const auto& p = sheet.spots.at(static_cast<std::size_t>(rank - 1))["properties"];
      REQUIRE(p["rank"] == rank);
      std::smatch match;
      REQUIRE(std::regex_search(row, match,
                                std::regex("\\| ?([0-9.]+) (m|ft) ?\\|.*?(\\d{3})\xC2\xB0 true, (\\d+) (m|ft)")));
      CHECK(std::stod(match[1]) * unit == Approx(p["boat_depth_m"].get<double>()).margin(unit * step / 2 + 0.006));
      CHECK(match[2] == (units == "metric" ? "m" : "ft"));
      const double turn = std::remainder(std::stod(match[3]) - p["bearing_deg"].get<double>(), 360.0);
      CHECK(std::abs(turn) <= 0.56);
      CHECK(std::stod(match[4]) * unit == Approx(p["cast_m"].get<double>()).margin(unit / 2 + 0.06));
      CHECK(says(row, p["presentations"][0]["lure"].get<std::string>()));
      CHECK(says(row, "| " + std::to_string(std::lround(p["minutes"].get<double>())) + " |"));
    }
    CHECK(ranks.size() == 10);
    // the four best are always stops
    for (int rank = 1; rank <= 4; ++rank) CHECK(ranks.count(rank) == 1);
  }
}

TEST_CASE("every line that the sheet must have is there") {
  const Sheet sheet(kSummer + "--wind '5 m/s from NW'");
  const std::string text = pdf::text_of(sheet.path);
  for (const char* part : {"PRIVATE: EXACT PLACES",
                           "from the launch South ramp",
                           "spots.geojson",
                           "minus sounder =",
                           "Over 0.6 m, either way: distrust all depths",
                           "At 75 F (23.9 C) the day ends",
                           "Measure 0.5 m (20 in) down",
                           "away from the ramp, every 2 h",
                           "45 minutes before sunset",
                           "Longest open crossing",
                           "On shore",
                           "Emergency",
                           "Large net",
                           "long pliers",
                           "hook cutters",
                           "gloves",
                           "jaw spreader last",
                           "under 2 minutes",
                           "engine out of gear",
                           "Cut hooks rather than dig",
                           "Measure it in the water",
                           "Never hang it",
                           "One quick lift at most",
                           "never in the gills",
                           "one under the belly",
                           "None at caution or in freezing air",
                           "by tail wrist and belly",
                           "No pumping",
                           "Look behind you before every cast",
                           "Glasses on",
                           "One person nets",
                           "kill-switch lanyard",
                           "life jacket",
                           "Cold water",
                           "clean, drain, dry",
                           "Not for navigation",
                           "thunder",
                           "Rules as the user noted them (Invented for the sample lake",
                           "checked 2026-03-01",
                           "EXAMPLE, not a real rule",
                           "214.60 m",
                           "Invented for castplan",
                           "surveyed 2024",
                           "18 to 22 C (64 to 72 F)",
                           "open water upwind",
                           "true north",
                           "Boat places, WGS 84:",
                           "fold",
                           "castplan 0."}) {
    INFO(part);
    CHECK(says(text, part));
  }
  CHECK(says(pdf::text_of(Sheet(kSummer + "--units imperial").path), "Over 2 ft, either way"));
}

// The sample holds muskellunge, whose stop is 75 F (tests/season/stops_test.cpp); largemouth bass have none of their
// own.
TEST_CASE("the day ends at the lowest stop of the fish that the lake holds, whichever is planned") {
  const Sheet sheet("--species largemouth-bass --water-temp 72F --trend rising --units imperial");
  CHECK(says(pdf::text_of(sheet.path), "At 75 F (23.9 C) the day ends, for muskellunge."));
  no_words_meet(sheet.path, 612, 792);
  // a pike's stop of 25 C lies above it
  const Sheet pike("--species northern-pike --water-temp 18C --trend rising");
  CHECK(says(pdf::text_of(pike.path), "At 75 F (23.9 C) the day ends, for muskellunge."));
}

TEST_CASE("boat places stand in degrees and decimal minutes, as in spots.geojson") {
  const Sheet sheet(kSummer);
  const std::string text = pdf::text_of(sheet.path);
  for (const auto& spot : sheet.spots) {
    const auto& place = spot["geometry"]["coordinates"];
    // a minute is a sixtieth of a degree
    const double north = place[1].get<double>();
    const double west = -place[0].get<double>();
    char words[80];
    std::snprintf(words, sizeof words, "%d %02d\xC2\xB0 %06.3f' N %03d\xC2\xB0 %06.3f' W",
                  spot["properties"]["rank"].get<int>(), static_cast<int>(north), (north - std::floor(north)) * 60.0,
                  static_cast<int>(west), (west - std::floor(west)) * 60.0);
    INFO(words);
    CHECK(says(text, words));
  }
  CHECK(says(pdf::text_of(Sheet("--date 2026-05-01").path), "Boat places, WGS 84: A 45\xC2\xB0"));
}

// Sunset of 20 June 2026 at 45.5 N 40.0 W. Source: tests/truth/season.csv and tests/season/sky_test.cpp hold sunset to
// libnova; here the sheet's time is held to the page's own, which the same test covers.
TEST_CASE("be back is 45 minutes before the sunset that the plan gives") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet " + kSummer + " --out " + folder).code == 0);
  const std::string page = read(folder + "/map.html");
  std::smatch sunset;
  REQUIRE(std::regex_search(page, sunset, std::regex("sunset (\\d\\d):(\\d\\d)")));
  const std::string text = pdf::text_of(folder + "/sheet.pdf");
  std::smatch back;
  REQUIRE(std::regex_search(text, back, std::regex("Be back by (\\d\\d):(\\d\\d) \\(Etc/GMT\\+3, UTC-03:00\\)")));
  const auto minutes = [](const std::smatch& clock) { return std::stoi(clock[1]) * 60 + std::stoi(clock[2]); };
  CHECK(minutes(sunset) - minutes(back) == 45);
  CHECK(says(pdf::text_of(Sheet("--water-temp 66F --trend rising").path), "Be back by ____"));
}

TEST_CASE("without a temperature the sheet is one table of the year, with the best spots of each phase") {
  const Sheet sheet("");
  const std::string text = pdf::text_of(sheet.path);
  for (const char* title : {"A Cold water", "B Pre-spawn", "C Spawn", "D Post-spawn", "E Early summer", "F Summer",
                            "G Heat stop", "H Early autumn", "I Late autumn"}) {
    INFO(title);
    CHECK(says(text, title));
  }
  for (const char* label : {"A1 A2 A3", "B1 B2 B3", "D1 D2 D3", "I1 I2 I3"}) CHECK(says(text, label));
  CHECK_FALSE(says(text, "C1"));
  CHECK(says(text, "no fishing"));
  CHECK(says(text, "measure before you choose a row"));
  CHECK(says(text, "weed tops beside deeper water"));
  no_words_meet(sheet.path, 595.276, 841.89);
}

TEST_CASE("at a stop the sheet has no spot, and says the stop and when to look again in large letters") {
  const Sheet sheet("--water-temp 76F --date 2026-08-01");
  CHECK(sheet.spots.empty());
  const std::string text = pdf::text_of(sheet.path);
  CHECK(says(text, "STOP: NO FISHING"));
  CHECK_FALSE(says(text, "\xC2\xB0 true"));
  CHECK_FALSE(says(text, "First stop"));
  CHECK(says(pdf::objects_of(sheet.scratch, sheet.path), "with 0 numbered places"));
  int large = 0;
  for (const pdf::Run& one : pdf::runs_of(sheet.path)) {
    if (says(one.text, "STOP")) CHECK(one.size >= 40);
    if (says(one.text, "Look again")) CHECK(one.size >= 20);
    if (says(one.text, "Look again") || says(one.text, "STOP")) ++large;
  }
  CHECK(large == 2);
  no_words_meet(sheet.path, 595.276, 841.89);
}

TEST_CASE("a stop that was set aside stands above the table and at each stop") {
  const Sheet sheet("--water-temp 76F --spots 30 --units imperial --override-stop 'tagging study, permit in hand'");
  const std::string text = pdf::text_of(sheet.path);
  CHECK(says(text, "set aside by the user, with this reason: tagging study, permit in hand"));
  CHECK(says(text, "75 F"));
  CHECK(says(text, "No lift: this is a day of caution"));
  // the warning takes five lines, so two of the ten rows give way
  int marks = 0;
  for (const pdf::Word& word : pdf::words_of(sheet.path)) marks += word.text == "!" ? 1 : 0;
  CHECK(marks == 8);
  no_words_meet(sheet.path, 612, 792);
}

TEST_CASE("the document's date is SOURCE_DATE_EPOCH, else the planned day, else a fixed one") {
  const auto created = [](const Sheet& sheet) {
    const std::string info = run("TZ=UTC pdfinfo -isodates " + sheet.path).text;
    std::smatch match;
    REQUIRE(std::regex_search(info, match, std::regex("CreationDate: +(\\S+)")));
    return match[1].str();
  };
  const std::string warm = "--water-temp 66F --trend rising";
  // 1767225600 s after 1970 is 2026-01-01 00:00:00 UTC (date -u -d @1767225600)
  CHECK(says(created(Sheet(kSummer, kSample, "SOURCE_DATE_EPOCH=1767225661 ")), "2026-01-01T00:01:01"));
  CHECK(says(created(Sheet(kSummer)), "2026-06-20T00:00:00"));
  CHECK(says(created(Sheet(warm)), "2000-01-01T00:00:00"));
  CHECK(read(Sheet(warm).path) == read(Sheet(warm).path));
  CHECK(read(Sheet(warm + " --threads 1").path) == read(Sheet(warm + " --threads 2").path));
  const Scratch scratch;
  const Result bad =
      run("SOURCE_DATE_EPOCH=tomorrow " CASTPLAN_PROGRAM " scout " + kSample + " --out " + scratch.path("plan"));
  CHECK(bad.code == 2);
  CHECK(says(bad.text, "SOURCE_DATE_EPOCH"));
}

TEST_CASE("any names leave one page on which nothing meets") {
  std::string much;
  for (int i = 0; i < 2000; ++i) much += "name ";
  const std::vector<std::pair<std::string, std::string>> names = {
      {"\"quoted\"", "\\\"quoted\\\""},
      {"bell", "\\u0007bell\\u0000\\u001b[31m"},
      {"Hebrew turned", "\\u202egnp.exe \\u05e9\\u05dc\\u05d5\\u05dd \\u0627\\u0644"},
      {"10,000 letters without a space", std::string(10000, 'W')},
      {"2,000 words", much},
      {"Greek and Cyrillic", "\xCE\xA9\xCE\xBC\xCE\xAD\xCE\xB3\xCE\xB1 \xD0\x96\xD1\x83\xD0\xBA"}};
  for (const auto& [what, name] : names) {
    CAPTURE(what);
    const Scratch scratch;
    const std::string lake = sample_with(scratch, {{"name = \"Lake Ossilby\"", "name = \"" + name + "\""},
                                                   {"name = \"South ramp\"", "name = \"" + name + "\""},
                                                   {"source = \"Invented for castplan\"", "source = \"" + name + "\""},
                                                   {"text = \"EXAMPLE", "text = \"" + name + " EXAMPLE"}});
    const Sheet sheet(
        "--water-temp 76F --date 2026-08-01 --units imperial --wind '24 mph from 230' --spots 30 --override-stop '" +
            std::string(3000, 'x') + "'",
        lake);
    CHECK(run("qpdf --check " + sheet.path).code == 0);
    CHECK(says(run("pdfinfo " + sheet.path).text, "Pages:           1\n"));
    no_words_meet(sheet.path, 612, 792);
    const std::string text = pdf::text_of(sheet.path);
    const bool lacks = what == "Hebrew turned";
    CHECK(says(text, "not in this sheet's font") == lacks);
    CHECK(says(text, "2026-03-01"));
    if (what == "Greek and Cyrillic") CHECK(says(text, "\xD0\x96\xD1\x83\xD0\xBA"));
  }
}
