// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "castplan/grid/sweep.hpp"
#include "castplan/write/text.hpp"
#include "support/plans.hpp"

// The structure of the page, read as text. How it looks and how it is worked by keyboard is for a browser to say.

using namespace castplan;

namespace {

std::size_t count(const std::string& page, const std::string& what) {
  std::size_t found = 0;
  for (std::size_t at = page.find(what); at != std::string::npos; at = page.find(what, at + 1)) ++found;
  return found;
}

bool has(const std::string& page, const std::string& what) { return page.find(what) != std::string::npos; }

std::vector<std::string> all_matches(const std::string& page, const std::string& pattern) {
  const std::regex regex(pattern);
  std::vector<std::string> out;
  for (std::sregex_iterator it(page.begin(), page.end(), regex), end; it != end; ++it) out.push_back((*it)[1]);
  return out;
}

std::string between(const std::string& page, const std::string& from, const std::string& to) {
  const std::size_t start = page.find(from);
  if (start == std::string::npos) return {};
  const std::size_t end = page.find(to, start + from.size());
  return page.substr(start + from.size(), end - start - from.size());
}

/// The page without what stands in style and script elements, and without the picture (a long text for a regex).
std::string markup(std::string page) {
  for (const auto& [open, close] :
       std::vector<std::pair<std::string, std::string>>{{"<style>", "</style>"},
                                                        {"<script type=\"application/json\" id=\"plan\">", "</script>"},
                                                        {"<script>", "</script>"},
                                                        {"data:image/png;base64,", "\""}}) {
    const std::size_t at = page.find(open);
    REQUIRE(at != std::string::npos);
    const std::size_t end = page.find(close, at + open.size());
    REQUIRE(end != std::string::npos);
    page.erase(at + open.size(), end - at - open.size());
  }
  return page;
}

/// Base 64 read back (RFC 4648, section 4).
std::string decoded(const std::string& text) {
  static const std::string kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  unsigned bits = 0, held = 0;
  for (const char letter : text) {
    if (letter == '=') break;
    held = held << 6U | static_cast<unsigned>(kLetters.find(letter));
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    out += static_cast<char>(held >> bits & 0xffU);
    held &= (1U << bits) - 1;
  }
  return out;
}

/// The page as it is read in "m" or "ft": without what stands for the other unit.
std::string read_in(const std::string& unit, const std::string& page) {
  const std::string kEnd = "</span>";
  std::string out;
  std::size_t at = 0;
  for (std::size_t open = page.find("<span class=\"in-"); open != std::string::npos;
       open = page.find("<span class=\"in-", at)) {
    const std::size_t name = open + 16, text = page.find('>', open) + 1, end = page.find(kEnd, text);
    out += page.substr(at, open - at);
    if (page.substr(name, page.find('"', name) - name) == unit) out += page.substr(text, end - text);
    at = end + kEnd.size();
  }
  return out + page.substr(at);
}

/// Empty when every element that opens also closes, in order; else the tag where it goes wrong. Elements without an
/// end tag: HTML Living Standard, 13.1.2, "void elements".
std::string unbalanced(const std::string& html) {
  static const std::set<std::string> kVoid{"meta", "br", "input", "img", "link", "hr"};
  std::vector<std::string> open;
  const std::regex tag("<(/?)([a-zA-Z][a-zA-Z0-9]*)[^<>]*?(/?)>");
  for (std::sregex_iterator it(html.begin(), html.end(), tag), end; it != end; ++it) {
    const std::string name = (*it)[2];
    if (kVoid.count(name) != 0 || (*it)[3].length() != 0) continue;
    if ((*it)[1].length() == 0) {
      open.push_back(name);
    } else if (open.empty() || open.back() != name) {
      return it->str() + " closes " + (open.empty() ? "nothing" : open.back());
    } else {
      open.pop_back();
    }
  }
  return open.empty() ? "" : open.back() + " is never closed";
}

}  // namespace

TEST_CASE("the page asks nothing of the network") {
  const std::string page = map_html(sample::plan());
  CHECK_FALSE(has(page, "http:"));
  CHECK_FALSE(has(page, "https:"));
  CHECK_FALSE(has(page, "@import"));
  CHECK_FALSE(has(page, " src="));
  CHECK_FALSE(has(page, "<link"));
  for (const std::string call : {"fetch(", "XMLHttpRequest", "WebSocket", "import(", "sendBeacon"}) {
    CHECK_FALSE(has(page, call));
  }
  // the policy of HTML Living Standard / CSP level 3 that lets nothing in but what stands in the file
  CHECK(has(page,
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; "
            "style-src 'unsafe-inline'; script-src 'unsafe-inline'\">"));
  for (const std::string& link : all_matches(markup(page), "href=\"([^\"]{0,22})")) {
    INFO(link);
    CHECK((link.front() == '#' || link == "data:image/png;base64," || link == "data:application/gpx+x" ||
           link == "data:text/csv;charset="));
  }
}

TEST_CASE("every element of the page closes, every id is there once, every link inside has an end") {
  for (const bool one_phase : {true, false}) {
    for (const bool stop : {true, false}) {
      const std::string html =
          markup(map_html(sample::plan({.units = Units::imperial, .one_phase = one_phase, .stop = stop})));
      CHECK(unbalanced(html) == "");
      CHECK_FALSE(has(html, "{{"));
      const auto ids = all_matches(html, " id=\"([^\"]+)\"");
      const std::set<std::string> known(ids.begin(), ids.end());
      CHECK(known.size() == ids.size());
      auto ends = all_matches(html, "href=\"#([^\"]+)\"");
      for (const std::string& end : all_matches(html, "aria-labelledby=\"([^\"]+)\"")) ends.push_back(end);
      for (const std::string& end : all_matches(html, "url\\(#([^)]+)\\)")) ends.push_back(end);
      for (const std::string& end : ends) {
        INFO(end);
        CHECK(known.count(end) == 1);
      }
    }
  }
}

TEST_CASE("the page has a language, a title, skip links and one first heading") {
  const std::string page = map_html(sample::plan());
  CHECK(has(page, "<html lang=\"en\">"));                  // WCAG 2.2, 3.1.1
  CHECK(has(page, "<title>Kestrel Mere: casting"));        // 2.4.2
  CHECK(has(page, "<a class=\"skip\" href=\"#spots\">"));  // 2.4.1
  CHECK(count(page, "<h1>") == 1);
  CHECK(has(page, "PRIVATE: EXACT PLACES"));
}

TEST_CASE("each spot has one button on the map and one row in a table, without script too") {
  const Plan plan = sample::plan();
  const std::string html = markup(map_html(plan));
  const auto buttons = all_matches(html, "<button type=\"button\" class=\"spot\"[^>]*data-spot=\"([^\"]+)\"");
  const auto rows = all_matches(html, "<tbody class=\"spot-rows\"[^>]*data-spot=\"([^\"]+)\"");
  CHECK(buttons.size() == 3);  // two in the first phase of the sample, one in the second
  CHECK(std::set<std::string>(buttons.begin(), buttons.end()) == std::set<std::string>(rows.begin(), rows.end()));
  CHECK(count(html, "<section class=\"phase\"") == 2);
  CHECK_FALSE(has(html, " hidden"));
  CHECK_FALSE(has(html, "display:none"));
  for (const std::string label : {">A1<", ">A2<", ">B1<"})
    CHECK(has(html, "<span class=\"unseen\">Spot </span>" + label.substr(1)));
  for (const PhaseSpots& phase : plan.phases) {
    for (const Spot& spot : phase.spots) CHECK(has(html, ">" + spot.id + "<"));
  }
}

TEST_CASE("each pass has one lane and one button on the map, one row in a table, and all have one switch") {
  const Plan plan = sample::plan();
  const std::string html = read_in("m", markup(map_html(plan)));
  CHECK(all_matches(html, "<g class=\"pass\" data-phase=\"0\" id=\"([^\"]+)\"") ==
        std::vector<std::string>{"lane-0-1"});
  CHECK(all_matches(html, "<button type=\"button\" class=\"pass-mark\"[^>]*data-pass=\"([^\"]+)\"") ==
        std::vector<std::string>{"pass-0-1"});
  CHECK(count(html, "<tbody class=\"spot-rows\" role=\"rowgroup\" id=\"pass-0-1\"") == 1);
  CHECK(count(html, "<input class=\"scripted\" type=\"checkbox\" checked data-kind=\"pass\">") == 1);
  CHECK(has(html, "<b>passes</b> (1)"));
  CHECK(has(html, "To the <strong>right</strong>, 14.5 m to 19.0 m<br>over 2.6 m to 3.4 m"));
  CHECK(has(html, ">" + plan.phases[0].passes[0].id + "<"));
  CHECK(has(html, "Grey shoal lies 60 m to the west of the lane."));
  // arrows show the way: the last stretch from (152, 0) to (138, 60) runs atan2(-14, 60) = -13 degrees
  CHECK(has(html, "--turn:347deg"));
  Plan without = plan;
  without.phases[0].passes.clear();
  CHECK_FALSE(has(markup(map_html(without)), "<b>passes</b>"));
}

TEST_CASE("one phase: plain numbers, no switch") {
  const std::string html = markup(map_html(sample::plan({.one_phase = true})));
  CHECK(has(html, "Spot </span>1<"));
  CHECK_FALSE(has(html, "name=\"phase\""));
}

TEST_CASE("the page carries cautions, water surface, source, licence, survey date and temperatures") {
  const Plan plan = sample::plan({.one_phase = true});
  const std::string page = map_html(plan);
  for (const std::string& caution : plan.cautions) CHECK(has(page, "<li>" + caution + "</li>"));
  CHECK(page.find("Not for navigation") < page.find("<svg class=\"picture\""));
  CHECK(has(page, "depths are below today&#39;s surface, 312.4 m"));
  CHECK(has(page, "Invented county survey, surveyed 1994, licence: CC BY 4.0"));
  CHECK(has(page, "4 to 8 C (39 to 46 F), rising"));
  CHECK(has(page, "Single barbless hooks."));
  CHECK(has(page, "2026-05-02"));
  CHECK(has(page, "No layer was given for: oxygen."));
  CHECK(has(page, "The depth error is not stated; 0.3 m is assumed."));
}

TEST_CASE("a row says the cast in words, in true degrees and in both units") {
  const std::string page = read_in("m", map_html(sample::plan({.one_phase = true})));
  // from (140, 0) to (158, 4) on the plane: atan2(18, 4) = 77.5 degrees, sqrt(18^2 + 4^2) = 18.44 m; both ends are
  // printed to 0.11 m, so 0.16 m and 0.5 degrees may go, and another half degree in rounding
  const std::regex cast(
      "<strong>east-northeast</strong>, toward the deep side<br>(\\d{3})° true, ([0-9.]+) m \\((\\d+) ft\\)");
  std::smatch found;
  REQUIRE(std::regex_search(page, found, cast));
  CHECK(std::stod(found[1]) == Approx(77.5).margin(1.0));
  CHECK(std::stod(found[2]) == Approx(18.44).margin(0.21));
  CHECK(std::stod(found[3]) == Approx(18.44 / 0.3048).margin(1.1));
  CHECK(has(page, "A steep edge beside deep water, with weeds on its top."));
  CHECK(has(page, "fits 64 %, counts 50 %"));
  CHECK(has(page, "14 casts, 13 minutes"));
  CHECK(has(page, "A shoal lies 40 m to the west."));
  CHECK(has(page, "Not assessed, and so not in the score: light."));
  CHECK(has(read_in("ft", map_html(sample::plan({.one_phase = true}))),
            "<strong data-part=\"sounder\">8 ft (2.4 m)</strong>"));
}

TEST_CASE("the cast says which side it goes to, by the sounder's reading and the depth that is fished") {
  Plan plan = sample::plan({.one_phase = true});
  Spot& spot = plan.phases[0].spots[0];
  spot.boat_depth = Metres(5.0);
  spot.target_depth = Metres(2.0);
  CHECK(has(map_html(plan), "<strong>east-northeast</strong>, toward the shallow side<br>"));
  spot.target_depth = Metres(5.1);
  CHECK(has(map_html(plan), "<strong>east-northeast</strong>, along the same depth<br>"));
  spot.target_depth = Metres(NAN);
  CHECK(has(map_html(plan), "<strong>east-northeast</strong><br>"));
}

TEST_CASE("sentences about the order name spots as their buttons do") {
  Plan plan = sample::plan();
  plan.phases[0].order = {12, 1, {1}, {{1, 2}}, {2}};
  const std::string several = map_html(plan);
  CHECK(has(several, "Spot A1 is a clear pick: among the first 1 in nine draws of ten."));
  CHECK(has(several, "Near ties, whose order tells little: A1 to A2."));
  CHECK(has(several, "Sound the depth at spot A2 first: the order turns most on it."));
  Plan alone = sample::plan({.one_phase = true});
  alone.phases[0].order = plan.phases[0].order;
  CHECK(has(map_html(alone), "Near ties, whose order tells little: 1 to 2."));
}

TEST_CASE("the page opens in the plan's units and holds both") {
  for (const Units units : {Units::metric, Units::imperial}) {
    const std::string page = map_html(sample::plan({.units = units}));
    const std::string own = units == Units::metric ? "m" : "ft";
    CHECK(has(page, "<body class=\"" + own + "\">"));
    CHECK(has(page, "name=\"units\" value=\"" + own + "\" checked>"));
    CHECK(count(page, " value=\"m\" checked>") + count(page, " value=\"ft\" checked>") == 1);
    CHECK(count(page, "<span class=\"in-m\">") == count(page, "<span class=\"in-ft\">"));
  }
}

TEST_CASE("the files in the page are those of the folder, byte for byte") {
  for (const bool one_phase : {true, false}) {
    const Plan plan = sample::plan({.one_phase = one_phase});
    const std::string page = map_html(plan);
    std::vector<OutputFile> files = waypoint_files(plan);
    CHECK(files.size() == (one_phase ? 1 : 2));
    if (one_phase) files.push_back({"spots.csv", spots_csv(plan)});
    CHECK(count(page, "<a download=") == files.size());
    for (const OutputFile& file : files) {
      INFO(file.name);
      const std::string link = between(page, "<a download=\"" + file.name + "\" href=\"data:", "\"");
      CHECK(decoded(link.substr(link.find(";base64,") + 8)) == file.bytes);
    }
  }
}

TEST_CASE("advisory and valid temperatures stay in sight") {
  const std::string alone = map_html(sample::plan({.one_phase = true}));
  CHECK(has(alone, "Holds for: <span id=\"fixed-holds\">4 to 8 C (39 to 46 F), rising</span>"));
  CHECK_FALSE(has(alone, "id=\"fixed-advisory\""));
  CHECK(has(map_html(sample::plan()), "<span id=\"fixed-holds\">as each phase says</span>"));
  CHECK(has(map_html(sample::plan({.one_phase = true, .stop = true})),
            "<a class=\"stop\" id=\"fixed-advisory\" href=\"#advisory\">Stop</a>"));
}

TEST_CASE("a factor measured in metres stands in the reader's unit first, whatever follows the unit") {
  Plan plan = sample::plan({.units = Units::imperial, .one_phase = true});
  plan.phases[0].spots[0].why[1] = {"cover", 3.048, "m away", 0.97, 0.5, "design choice"};  // ten feet exactly
  CHECK(has(read_in("ft", map_html(plan)), "cover: 10 ft (3.0 m) away<"));
  CHECK(has(read_in("m", map_html(plan)), "cover: 3.0 m (10 ft) away<"));
}

TEST_CASE("places stand in degrees and decimal minutes, all four quarters of the earth") {
  struct Row {
    double lon, lat;
    std::string lat_text, lon_text;
  };
  // minutes are sixtieths of a degree: the pool of the sample lies at its centre
  const std::vector<Row> rows{{-40.0, 45.5, "45° 30.000' N,", "040° 00.000' W"},
                              {151.125, -33.25, "33° 15.000' S,", "151° 07.500' E"},
                              {0.0, 0.0, "00° 00.000' N,", "000° 00.000' E"},
                              {-0.0125, 59.999999, "60° 00.000' N,", "000° 00.750' W"}};
  for (const Row& row : rows) {
    const std::string page = map_html(sample::plan({.centre = {Longitude{row.lon}, Latitude{row.lat}}}));
    INFO(row.lat_text);
    CHECK(
        has(page, "<span class=\"axis\">" + row.lat_text + "</span> <span class=\"axis\">" + row.lon_text + "</span>"));
  }
}

TEST_CASE("names from outside are text, nothing else") {
  const std::string nasty = "</script><script>alert(1)</script><img src=x onerror='a'>\"&\x01\xE2\x80\xAE";
  Plan plan = sample::plan({.lake_name = nasty, .feature_name = nasty + std::string(10000, 'W')});
  plan.rules_text = nasty;
  plan.notes = {nasty};
  plan.inputs = {{nasty, nasty}};
  plan.phases[0].spots[0].cautions = {nasty};
  plan.phases[0].spots[0].presentations[0].lure = nasty;
  const std::string page = map_html(plan);
  const std::string html = markup(page);
  CHECK_FALSE(has(page, "<script>alert"));
  CHECK_FALSE(has(page, "<img"));
  CHECK_FALSE(has(html, "onerror='"));
  CHECK_FALSE(has(page, "\x01"));
  CHECK_FALSE(has(html, "\xE2\x80\xAE"));  // U+202E turns the rest of a line round
  CHECK_FALSE(has(page, std::string(500, 'W')));
  CHECK(has(page, "&lt;/script&gt;&lt;script&gt;alert(1)"));
  CHECK(count(page, "</script>") == 2);
  CHECK(unbalanced(html) == "");
  const std::string data = between(page, "<script type=\"application/json\" id=\"plan\">", "</script>");
  CHECK(has(data, "\\u003c/script>"));
  CHECK_FALSE(has(data, "<"));
  CHECK(nlohmann::json::parse(data).at("lake").get<std::string>().rfind("</script><script>", 0) == 0);
}

TEST_CASE("a stop shows its reason and the features, and no spot") {
  const std::string page = map_html(sample::plan({.one_phase = true, .stop = true}));
  CHECK(has(page, "Stop: this plan has no spots"));
  CHECK(page.find("water at 24.5 C is at or above the stop of 75 F") < page.find("<main>"));
  CHECK_FALSE(has(markup(page), "class=\"spot\""));
  CHECK_FALSE(has(markup(page), "data-spot"));
  CHECK_FALSE(has(markup(page), "data-pass"));
  CHECK_FALSE(has(markup(page), "class=\"pass\""));
  CHECK_FALSE(has(markup(page), "class=\"cast\""));
  CHECK(has(page, "Heron Hole"));

  // whatever the plan still holds
  Plan plan = sample::plan();
  plan.season.no_spots = true;
  CHECK_FALSE(has(markup(map_html(plan)), "data-spot"));
  CHECK_FALSE(has(markup(map_html(plan)), "data-pass"));
}

TEST_CASE("a stop that was set aside stays on the page with its reason") {
  const std::string page = map_html(sample::plan({.one_phase = true, .stop = true, .overridden = true}));
  CHECK(has(page, "Stop, set aside by the person who made this plan"));
  CHECK(has(page, "Reason given: tagging survey."));
  CHECK(count(markup(page), "class=\"spot\"") == 2);
}

TEST_CASE("same plan, same bytes, at any thread count; small enough to send") {
  const Plan plan = sample::plan();
  set_threads(1);
  const std::string once = map_html(plan);
  set_threads(2);
  const std::string again = map_html(plan);
  set_threads(0);
  CHECK(once == again);
  CHECK(once.size() < 1500000);
}
