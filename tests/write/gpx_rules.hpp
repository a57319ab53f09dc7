// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstring>
#include <map>
#include <pugixml.hpp>
#include <regex>
#include <set>
#include <sstream>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

/// What the schema and the project ask of any GPX file.
namespace castplan {

// Child names come in the order of a list, each at most once but for those named; nothing else stands there.
// Source: the schema http://www.topografix.com/GPX/1/1/gpx.xsd, types gpxType, metadataType and wptType.
inline void hold_to_order(const pugi::xml_node& node, const std::vector<std::string>& order,
                          const std::set<std::string>& repeated = {}) {
  std::size_t at = 0;
  for (const pugi::xml_node child : node.children()) {
    const std::string name = child.name();
    while (at < order.size() && order[at] != name) ++at;
    CAPTURE(node.name(), name);
    REQUIRE(at < order.size());
    if (!repeated.contains(name)) ++at;
  }
}

inline void hold_to_waypoint_rules(const pugi::xml_node& wpt) {
  hold_to_order(wpt, {"ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type"});
  for (const char* absent : {"ele", "time", "sym", "extensions"}) CHECK_FALSE(wpt.child(absent));
  const std::regex degrees(R"(-?\d{1,3}\.\d{6})");
  CHECK(std::regex_match(wpt.attribute("lat").value(), degrees));
  CHECK(std::regex_match(wpt.attribute("lon").value(), degrees));
  CHECK(std::abs(wpt.attribute("lat").as_double()) <= 90.0);
  CHECK(wpt.attribute("lon").as_double() >= -180.0);
  CHECK(wpt.attribute("lon").as_double() < 180.0);
  CHECK(std::regex_match(wpt.child_value("name"), std::regex("[A-Za-z0-9-]{1,10}")));
  CHECK(std::regex_match(wpt.child_value("cmt"), std::regex("[ -~]{1,30}")));
  CHECK(std::strlen(wpt.child_value("desc")) <= 255);
  CHECK(std::string(wpt.child_value("desc")).find("a straight line to this point may cross land or shoals") !=
        std::string::npos);
}

inline void hold_to_gpx(const std::string& text) {
  pugi::xml_document document;
  REQUIRE(document.load_string(text.c_str()));
  const pugi::xml_node gpx = document.document_element();
  CHECK(std::string(gpx.name()) == "gpx");
  CHECK(std::string(gpx.attribute("version").value()) == "1.1");
  CHECK(std::string(gpx.attribute("creator").value()) == "castplan " + std::string(version()));
  CHECK(std::string(gpx.attribute("xmlns").value()) == "http://www.topografix.com/GPX/1/1");
  hold_to_order(gpx, {"metadata", "wpt", "rte", "trk"}, {"wpt", "rte", "trk"});
  hold_to_order(gpx.child("metadata"), {"name", "desc", "author", "copyright", "link", "keywords", "bounds"});
  const pugi::xml_node bounds = gpx.child("metadata").child("bounds");
  std::set<std::string> names;
  for (const pugi::xml_node wpt : gpx.children("wpt")) {
    hold_to_waypoint_rules(wpt);
    CHECK(names.insert(wpt.child_value("name")).second);
    CHECK(wpt.attribute("lat").as_double() >= bounds.attribute("minlat").as_double());
    CHECK(wpt.attribute("lat").as_double() <= bounds.attribute("maxlat").as_double());
    CHECK(wpt.attribute("lon").as_double() >= bounds.attribute("minlon").as_double());
    CHECK(wpt.attribute("lon").as_double() <= bounds.attribute("maxlon").as_double());
  }
}

inline pugi::xml_document parsed(const OutputFile& file) {
  pugi::xml_document document;
  REQUIRE(document.load_string(file.bytes.c_str()));
  return document;
}

inline std::vector<std::string> names_in(const OutputFile& file, const std::string& type) {
  std::vector<std::string> out;
  const pugi::xml_document document = parsed(file);
  for (const pugi::xml_node wpt : document.child("gpx").children("wpt")) {
    if (wpt.child_value("type") == type) out.emplace_back(wpt.child_value("name"));
  }
  return out;
}

}  // namespace castplan
