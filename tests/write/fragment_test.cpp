// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>
#include <regex>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;

namespace {

pugi::xml_document read(const std::string& text) {
  pugi::xml_document document;
  REQUIRE(document.load_string(text.c_str(), pugi::parse_default | pugi::parse_ws_pcdata));
  return document;
}

std::string text_of(const pugi::xml_node& node) {
  std::string out;
  for (const pugi::xml_node child : node.children()) {
    out += child.type() == pugi::node_pcdata ? child.value() : child.name() == std::string("br") ? " " : text_of(child);
  }
  return out;
}

void hold_to_plain_html(const std::string& text) {
  const std::regex tag("<([a-z0-9]+)([^>]*)>");
  for (std::sregex_iterator at(text.begin(), text.end(), tag), end; at != end; ++at) {
    CAPTURE((*at)[0].str());
    CHECK(std::regex_match((*at)[1].str(),
                           std::regex("div|p|strong|h2|h3|ul|li|table|caption|thead|tbody|tr|th|td|br|bdi")));
    CHECK(std::regex_match((*at)[2].str(), std::regex("| /| scope=\"(row|col)\"")));
  }
  for (const char* absent : {"<script", "<style", "javascript:", "http:", "https:", "<!DOCTYPE", "<html"}) {
    CHECK(text.find(absent) == std::string::npos);
  }
}

}  // namespace

TEST_CASE("the fragment has no script, style, id, class or address, and is one element") {
  const std::string text = fragment_html(sample::plan());
  hold_to_plain_html(text);
  const pugi::xml_document document = read(text);
  CHECK(std::string(document.first_child().name()) == "div");
  CHECK(std::distance(document.begin(), document.end()) == 1);
  CHECK(text.find("PRIVATE: EXACT PLACES") != std::string::npos);
}

TEST_CASE("the fragment's tables have each spot with place, depth and cast in words, as spots.geojson has them") {
  const Plan plan = sample::plan();
  const auto spots = nlohmann::json::parse(spots_geojson(plan))["features"];
  const pugi::xml_document document = read(fragment_html(plan));
  std::size_t at = 0;
  for (const pugi::xml_node table : document.child("div").children("table")) {
    for (const pugi::xml_node row : table.child("tbody").children("tr")) {
      REQUIRE(at < spots.size());
      const auto& place = spots[at]["geometry"]["coordinates"];
      char degrees[64];
      std::snprintf(degrees, sizeof degrees, "%.6f, %.6f", place[1].get<double>(), place[0].get<double>());
      const std::string said = text_of(row);
      CAPTURE(said);
      CHECK(said.find(degrees) != std::string::npos);
      CHECK(said.find("2.4 m (8 ft)") != std::string::npos);  // 2.41 m, 2.41 / 0.3048 = 7.9 ft
      CHECK(said.find(" true, ") != std::string::npos);
      CHECK(said.find("toward the deep side") != std::string::npos);  // 2.41 m at the boat, 3.2 m where the lure goes
      CHECK(said.find("crankbait") != std::string::npos);
      ++at;
    }
  }
  CHECK(at == spots.size());
  // the first boat is 140 m east of 45.5 N, 40 W: 45 30.000' N, 39 59.893' W by 111320 m x cos 45.5 a degree
  CHECK(text_of(document).find("45° 30.000' N, 039° 59.89") != std::string::npos);
}

TEST_CASE("at a stop the fragment has the reason and no table") {
  sample::Options options;
  options.one_phase = options.stop = true;
  Plan plan = sample::plan(options);
  plan.phases = sample::plan().phases;
  const std::string text = fragment_html(plan);
  CHECK(text.find("<table") == std::string::npos);
  CHECK(text.find("at or above the stop of 75 F") != std::string::npos);
  CHECK(text.find("No spots.") != std::string::npos);
}

TEST_CASE("no name can put markup into the fragment") {
  for (const std::string& name :
       {std::string("<script>alert(1)</script>"), std::string("\" onload=x '<b>&"),
        std::string("\xE2\x80\xAEgnp \xD7\xA9"), std::string(10000, 'x'), std::string("\a\x1b")}) {
    sample::Options options;
    options.lake_name = name;
    Plan plan = sample::plan(options);
    for (Feature& feature : plan.features) feature.name = name;
    plan.phases[0].spots[0].reason_words = plan.source = plan.rules_text = name;
    plan.phases[0].spots[0].presentations[0].lure = name;
    const std::string text = fragment_html(plan);
    hold_to_plain_html(text);
    CHECK(text.find("\xE2\x80\xAE") == std::string::npos);
    read(text);
  }
}

TEST_CASE("equal plans, equal fragments") { CHECK(fragment_html(sample::plan()) == fragment_html(sample::plan())); }
