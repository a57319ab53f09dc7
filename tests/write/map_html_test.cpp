// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "castplan/grid/sweep.hpp"
#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "write/page_text.hpp"

// The structure of the page, read as text. How it looks and how it is worked by keyboard is for a browser to say.

using namespace castplan;
using namespace page_text;

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
