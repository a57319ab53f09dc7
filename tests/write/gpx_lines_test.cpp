// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Passes as routes and tracks.
#include "write/gpx_rules.hpp"

using namespace castplan;

TEST_CASE("passes stand as routes, tracks or both, only when asked") {
  Plan plan = sample::plan();
  Line round;  // 120 places
  for (int i = 0; i < 120; ++i) round.push_back({100 * std::cos(i * 0.05), 100 * std::sin(i * 0.05)});
  plan.phases[0].passes.push_back(sample::pass("pre-spawn", 2, round, plan.lake->projection));
  const auto parts_of = [&](GpxLine how) {
    plan.gpx.line = how;
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
        hold_to_order(child, {"name", "cmt", "desc", "src", "link", "number", "type", "rtept"}, {"rtept"});
      if (name == "trk") hold_to_order(child, {"name", "cmt", "desc", "src", "link", "number", "type", "trkseg"});
    }
    return std::pair(count, file.bytes);
  };
  const auto [none, none_bytes] = parts_of(GpxLine::none);
  CHECK(none.count("rte") == 0);
  const int outlines = none.at("trk");  // of the hazard and the closure
  CHECK(outlines >= 1);
  const auto [tracks, track_bytes] = parts_of(GpxLine::track);
  CHECK(tracks.at("trk") == 2 + outlines);
  CHECK(tracks.count("rte") == 0);
  CHECK(tracks.at("wpt") == none.at("wpt"));
  CHECK(track_bytes.find("<time>") == std::string::npos);
  const auto [routes, route_bytes] = parts_of(GpxLine::route);
  CHECK(routes.at("trk") == outlines);
  CHECK(routes.at("rte") == 1 + 3);  // 3 places in one; 120 places by 50, 50 and 22, ends shared
  CHECK(routes.at("wpt") == none.at("wpt") + 3 + 120);
  const auto [both, both_bytes] = parts_of(GpxLine::both);
  CHECK(both.at("rte") == 4);
  CHECK(both.at("trk") == 2 + outlines);
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
  // gpsbabel reads routes and tracks as such: 3 + 50 + 50 + 22 places, and 3 + 120 beside the outlines
  std::ptrdiff_t round_dangers = 0;
  for (const pugi::xml_node track : gpx.children("trk")) {
    if (std::string(track.child_value("type")) == "pass") continue;
    const auto places = track.child("trkseg").children("trkpt");
    round_dangers += std::distance(places.begin(), places.end());
  }
  const auto lines = [&](const std::string& what) {
    const auto read = programs::run("gpsbabel " + what + " -i gpx -f " + path + " -o unicsv -F -");
    REQUIRE(read.code == 0);
    return std::count(read.text.begin(), read.text.end(), '\n') - 1;
  };
  CHECK(lines("-r") == 125);
  CHECK(lines("-t") == 123 + round_dangers);
}

TEST_CASE("no pass at a stop, as route or as track; turns of passes give way to dangers where a file is full") {
  Plan plan = sample::plan({.one_phase = true, .stop = true});
  plan.phases = sample::plan({.one_phase = true}).phases;
  plan.gpx.line = GpxLine::both;
  for (const OutputFile& file : waypoint_files(plan)) {
    CHECK(file.bytes.find("<rte>") == std::string::npos);
    CHECK(file.bytes.find("<type>pass</type>") == std::string::npos);
    CHECK(file.bytes.find("P01") == std::string::npos);
  }
  Plan full = sample::plan({.one_phase = true});
  full.gpx.line = GpxLine::both;
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
  plan.gpx.line = GpxLine::both;
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
  check(document.child("gpx").find_child([](const pugi::xml_node node) {
    return std::string(node.name()) == "trk" && std::string(node.child_value("type")) == "pass";
  }));
  CHECK(said == 3 + 2);
}
