// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
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

using namespace castplan;

namespace {

// Child names come in the order of a list, each at most once but for the last; nothing else stands there.
// Source: the schema http://www.topografix.com/GPX/1/1/gpx.xsd, types gpxType, metadataType and wptType.
void hold_to_order(const pugi::xml_node& node, const std::vector<std::string>& order,
                   const std::string& repeated = "") {
  std::size_t at = 0;
  for (const pugi::xml_node child : node.children()) {
    const std::string name = child.name();
    while (at < order.size() && order[at] != name) ++at;
    CAPTURE(node.name(), name);
    REQUIRE(at < order.size());
    if (name != repeated) ++at;
  }
}

void hold_to_waypoint_rules(const pugi::xml_node& wpt) {
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

void hold_to_gpx(const std::string& text) {
  pugi::xml_document document;
  REQUIRE(document.load_string(text.c_str()));
  const pugi::xml_node gpx = document.document_element();
  CHECK(std::string(gpx.name()) == "gpx");
  CHECK(std::string(gpx.attribute("version").value()) == "1.1");
  CHECK(std::string(gpx.attribute("creator").value()) == "castplan " + std::string(version()));
  CHECK(std::string(gpx.attribute("xmlns").value()) == "http://www.topografix.com/GPX/1/1");
  hold_to_order(gpx, {"metadata", "wpt", "rte", "trk"}, "wpt");
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

pugi::xml_document parsed(const OutputFile& file) {
  pugi::xml_document document;
  REQUIRE(document.load_string(file.bytes.c_str()));
  return document;
}

std::vector<std::string> names_in(const OutputFile& file, const std::string& type) {
  std::vector<std::string> out;
  const pugi::xml_document document = parsed(file);
  for (const pugi::xml_node wpt : document.child("gpx").children("wpt")) {
    if (wpt.child_value("type") == type) out.emplace_back(wpt.child_value("name"));
  }
  return out;
}

}  // namespace

TEST_CASE("waypoint files hold to GPX 1.1 in both units") {
  for (const Units units : {Units::metric, Units::imperial}) {
    sample::Options options;
    options.units = units;
    for (const OutputFile& file : waypoint_files(sample::plan(options))) hold_to_gpx(file.bytes);
  }
}

TEST_CASE("one file a phase before the season, one file for one phase") {
  const auto two = waypoint_files(sample::plan());
  REQUIRE(two.size() == 2);
  CHECK(two[0].name == "waypoints-pre-spawn.gpx");
  CHECK(two[1].name == "waypoints-early-summer.gpx");
  CHECK(names_in(two[0], "spot") == std::vector<std::string>{"01DPRS", "02WPRS"});
  CHECK(names_in(two[1], "spot") == std::vector<std::string>{"01TEAS"});
  sample::Options options;
  options.one_phase = true;
  const auto one = waypoint_files(sample::plan(options));
  REQUIRE(one.size() == 1);
  CHECK(one[0].name == "waypoints.gpx");
  CHECK(names_in(one[0], "spot") == std::vector<std::string>{"01D", "02W"});
  for (const OutputFile& file : two) {
    CHECK(names_in(file, "launch") == std::vector<std::string>{"L01"});
    CHECK(names_in(file, "hazard") == std::vector<std::string>{"H01"});
    CHECK(names_in(file, "closure") == std::vector<std::string>{"C01"});
  }
}

TEST_CASE("sorting by name is sorting by rank, with many spots too") {
  Plan plan = sample::plan();
  const Spot first = plan.phases[0].spots[0];
  plan.phases[0].spots.clear();
  for (int rank = 1; rank <= 120; ++rank) {
    plan.phases[0].spots.push_back(first);
    plan.phases[0].spots.back().rank = rank;
    plan.phases[0].spots.back().kinds = {rank % 2 ? Kind::wood : Kind::drop_off};
  }
  const OutputFile file = waypoint_files(plan)[0];
  hold_to_gpx(file.bytes);
  const std::vector<std::string> names = names_in(file, "spot");
  REQUIRE(names.size() == 120);
  CHECK(std::is_sorted(names.begin(), names.end()));
  CHECK(names.front() == "001TPRS");
}

TEST_CASE("words for people are in the units asked for, with the unit") {
  sample::Options options;
  options.one_phase = true;
  const auto first = [&] { return parsed(waypoint_files(sample::plan(options))[0]); };
  const pugi::xml_document metric = first();
  const pugi::xml_node wpt = metric.child("gpx").child("wpt");
  // the cast: (18, 4) m on the plane: sqrt(340) = 18.44 m at atan2(18, 4) = 77.5 degrees; both ends are printed to
  // 1e-6 degree, so up to 0.11 m and 0.35 degrees beside that
  CHECK(std::regex_match(wpt.child_value("cmt"), std::regex(R"(2\.4 m; cast 18\.[3-6] m at 07[78] T)")));
  CHECK(std::regex_search(wpt.child_value("desc"),
                          std::regex(R"(in 2\.4 m of water and cast a crankbait 18\.[3-6] m east-northeast \(07[78] )"
                                     R"(degrees true\) to the drop-off in 3\.2 m;)")));
  options.units = Units::imperial;
  const pugi::xml_document imperial = first();
  // 2.41 m = 7.9 ft, 18.44 m = 60.5 ft (1 ft = 0.3048 m)
  CHECK(std::regex_match(imperial.child("gpx").child("wpt").child_value("cmt"),
                         std::regex("8 ft; cast 6[01] ft at 07[78] T")));
}

TEST_CASE("a closure that is not active has no mark") {
  Plan plan = sample::plan();
  for (Feature& feature : plan.features) {
    if (auto* closure = std::get_if<Closure>(&feature.details)) closure->active = false;
  }
  CHECK(names_in(waypoint_files(plan)[0], "closure").empty());
}

TEST_CASE("a file holds at most 500 waypoints: spots first, then the hazards nearest to them, and says so") {
  Plan plan = sample::plan();
  const Feature shoal = *std::find_if(plan.features.begin(), plan.features.end(),
                                      [](const Feature& feature) { return feature.kind == Kind::hazard; });
  for (int at = 0; at < 700; ++at) {
    plan.features.push_back(shoal);
    plan.features.back().anchor = {-3000.0 - at, 0.0};
  }
  plan.features.push_back(shoal);
  plan.features.back().anchor = {141.0, 1.0};
  plan.features.back().name = "Near rock";
  const OutputFile file = waypoint_files(plan)[0];
  hold_to_gpx(file.bytes);
  const pugi::xml_document gpx = parsed(file);
  const auto all = gpx.child("gpx").children("wpt");
  CHECK(std::distance(all.begin(), all.end()) == 500);
  CHECK(names_in(file, "spot").size() == 2);
  CHECK(names_in(file, "launch").size() == 1);
  CHECK(file.bytes.find("Near rock") != std::string::npos);
  // 702 hazards, 500 - 2 spots - 1 launch - 1 closure = 496 of them written
  CHECK(file.bytes.find("206 more waypoints") != std::string::npos);
}

TEST_CASE("xmllint finds the files well formed, gpsbabel reads every waypoint at its place") {
  const programs::Scratch scratch;
  for (const OutputFile& file : waypoint_files(sample::plan())) {
    const std::string path = scratch.write(file.name, file.bytes);
    const auto lint = programs::run("xmllint --noout " + path);
    CHECK(lint.code == 0);
    CHECK(lint.text.empty());
    // unicsv has a header and one line a waypoint; gpsbabel prints six decimals there
    const auto babel = programs::run("gpsbabel -i gpx -f " + path + " -o unicsv -F -");
    REQUIRE(babel.code == 0);
    std::map<std::string, std::pair<double, double>> read;
    std::istringstream lines(babel.text);
    std::string line;
    std::getline(lines, line);
    CHECK(line.substr(0, 31) == "No,Latitude,Longitude,Name,Desc");
    while (std::getline(lines, line)) {
      double lat = 0, lon = 0;
      char name[32] = {};
      REQUIRE(std::sscanf(line.c_str(), "%*d,%lf,%lf,\"%31[^\"]\"", &lat, &lon, name) == 3);
      read[name] = {lat, lon};
    }
    std::size_t written = 0;
    const pugi::xml_document gpx = parsed(file);
    for (const pugi::xml_node wpt : gpx.child("gpx").children("wpt")) {
      ++written;
      const auto at = read.find(wpt.child_value("name"));
      REQUIRE(at != read.end());
      CHECK(at->second.first == Approx(wpt.attribute("lat").as_double()).margin(1e-6));
      CHECK(at->second.second == Approx(wpt.attribute("lon").as_double()).margin(1e-6));
    }
    CHECK(read.size() == written);
    // and back to GPX, with the same number of waypoints
    const auto again = programs::run("gpsbabel -i gpx -f " + path + " -o gpx -F -");
    REQUIRE(again.code == 0);
    pugi::xml_document back;
    REQUIRE(back.load_string(again.text.c_str()));
    const auto points = back.child("gpx").children("wpt");
    CHECK(static_cast<std::size_t>(std::distance(points.begin(), points.end())) == written);
  }
}

TEST_CASE("passes stand as routes, tracks or both, only when asked") {
  Plan plan = sample::plan();
  Line round;  // 120 places
  for (int i = 0; i < 120; ++i) round.push_back({100 * std::cos(i * 0.05), 100 * std::sin(i * 0.05)});
  plan.phases[0].passes.push_back(sample::pass("pre-spawn", 2, round, plan.lake->projection));
  const auto parts_of = [&](GpxLine how) {
    plan.gpx_line = how;
    const OutputFile file = waypoint_files(plan)[0];
    pugi::xml_document document = parsed(file);
    std::map<std::string, int> count;
    std::string last = "metadata";
    for (const pugi::xml_node child : document.child("gpx").children()) {
      const std::string name = child.name();
      // gpxType: metadata, then all of wpt, of rte, of trk
      static const std::map<std::string, int> kOrder{{"metadata", 0}, {"wpt", 1}, {"rte", 2}, {"trk", 3}};
      REQUIRE(kOrder.count(name) == 1);
      CHECK(kOrder.at(name) >= kOrder.at(last));
      last = name;
      ++count[name];
      if (name == "wpt") hold_to_waypoint_rules(child);
      if (name == "rte")
        hold_to_order(child, {"name", "cmt", "desc", "src", "link", "number", "type", "rtept"}, "rtept");
      if (name == "trk") hold_to_order(child, {"name", "cmt", "desc", "src", "link", "number", "type", "trkseg"});
    }
    return std::pair(count, file.bytes);
  };
  const auto [none, none_bytes] = parts_of(GpxLine::none);
  CHECK(none.count("rte") + none.count("trk") == 0);
  const auto [tracks, track_bytes] = parts_of(GpxLine::track);
  CHECK(tracks.at("trk") == 2);
  CHECK(tracks.count("rte") == 0);
  CHECK(tracks.at("wpt") == none.at("wpt"));
  CHECK(track_bytes.find("<time>") == std::string::npos);
  const auto [routes, route_bytes] = parts_of(GpxLine::route);
  CHECK(routes.count("trk") == 0);
  CHECK(routes.at("rte") == 1 + 3);  // 3 places in one; 120 places by 50, 50 and 22, ends shared
  CHECK(routes.at("wpt") == none.at("wpt") + 3 + 120);
  const auto [both, both_bytes] = parts_of(GpxLine::both);
  CHECK(both.at("rte") == 4);
  CHECK(both.at("trk") == 2);
  pugi::xml_document document;
  REQUIRE(document.load_string(both_bytes.c_str()));
  const pugi::xml_node gpx = document.child("gpx");
  std::map<std::string, std::pair<std::string, std::string>> marks;
  for (const pugi::xml_node wpt : gpx.children("wpt")) {
    CHECK(marks.emplace(wpt.child_value("name"), std::pair(wpt.attribute("lat").value(), wpt.attribute("lon").value()))
              .second);
  }
  for (const pugi::xml_node route : gpx.children("rte")) {
    int places = 0;
    for (const pugi::xml_node point : route.children("rtept")) {
      ++places;
      REQUIRE(marks.count(point.child_value("name")) == 1);
      CHECK(marks[point.child_value("name")] ==
            std::pair<std::string, std::string>(point.attribute("lat").value(), point.attribute("lon").value()));
    }
    CHECK(places >= 2);
    CHECK(places <= 50);
    CHECK(std::strlen(route.child_value("name")) <= 10);
  }
  const programs::Scratch scratch;
  const std::string path = scratch.write("both.gpx", both_bytes);
  CHECK(programs::run("xmllint --noout " + path).code == 0);
  // gpsbabel reads routes and tracks as such: 3 + 50 + 50 + 22 places, and 3 + 120
  const auto lines = [&](const std::string& what) {
    const auto read = programs::run("gpsbabel " + what + " -i gpx -f " + path + " -o unicsv -F -");
    REQUIRE(read.code == 0);
    return std::count(read.text.begin(), read.text.end(), '\n') - 1;
  };
  CHECK(lines("-r") == 125);
  CHECK(lines("-t") == 123);
}

TEST_CASE("no route and no track at a stop; turns of passes give way to dangers where a file is full") {
  Plan plan = sample::plan({.one_phase = true, .stop = true});
  plan.phases = sample::plan({.one_phase = true}).phases;
  plan.gpx_line = GpxLine::both;
  for (const OutputFile& file : waypoint_files(plan)) {
    CHECK(file.bytes.find("<rte>") == std::string::npos);
    CHECK(file.bytes.find("<trk>") == std::string::npos);
    CHECK(file.bytes.find("P01") == std::string::npos);
  }
  Plan full = sample::plan({.one_phase = true});
  full.gpx_line = GpxLine::both;
  const Feature shoal = *std::find_if(full.features.begin(), full.features.end(),
                                      [](const Feature& feature) { return feature.kind == Kind::hazard; });
  for (int at = 0; at < 600; ++at) full.features.push_back(shoal);
  const std::string bytes = waypoint_files(full)[0].bytes;
  CHECK(bytes.find("<rte>") == std::string::npos);
  CHECK(bytes.find("<trk>") != std::string::npos);  // takes no waypoints
  // 601 hazards, 500 - 2 spots - 1 launch - 1 closure = 496 of them written, and 3 turns left out with the rest
  CHECK(bytes.find("108 more waypoints") != std::string::npos);
}

TEST_CASE("a stop that was set aside stands on each pass and each of its turns") {
  Plan plan = sample::plan({.one_phase = true, .stop = true, .overridden = true});
  plan.gpx_line = GpxLine::both;
  const pugi::xml_document document = parsed(waypoint_files(plan)[0]);
  int said = 0;
  const auto check = [&](const pugi::xml_node node) {
    const std::string desc = node.child_value("desc");
    CHECK(desc.find("Stop: ") == 0);
    CHECK(desc.find("tagging survey") != std::string::npos);
    CHECK(desc.size() <= 255);
    ++said;
  };
  for (const pugi::xml_node wpt : document.child("gpx").children("wpt")) {
    if (std::string(wpt.child_value("type")) == "pass") check(wpt);
  }
  check(document.child("gpx").child("rte"));
  check(document.child("gpx").child("trk"));
  CHECK(said == 3 + 2);
}
