// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/gpx_rules.hpp"

using namespace castplan;

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
  CHECK(names_in(two[0], "spot") == std::vector<std::string>{"01DPRS-2M", "02WPRS-2M"});
  CHECK(names_in(two[1], "spot") == std::vector<std::string>{"01TEAS-2M"});
  sample::Options options;
  options.one_phase = true;
  const auto one = waypoint_files(sample::plan(options));
  REQUIRE(one.size() == 1);
  CHECK(one[0].name == "waypoints.gpx");
  CHECK(names_in(one[0], "spot") == std::vector<std::string>{"01D-2M", "02W-2M"});
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
  CHECK(names.front() == "001TPRS-2M");
}

TEST_CASE("words for people are in the units asked for, with the unit") {
  sample::Options options;
  options.one_phase = true;
  const auto first = [&] { return parsed(waypoint_files(sample::plan(options))[0]); };
  const pugi::xml_document metric = first();
  const pugi::xml_node wpt = metric.child("gpx").child("wpt");
  // the cast: (18, 4) m on the plane: sqrt(340) = 18.44 m at atan2(18, 4) = 77.5 degrees; both ends are printed to
  // 1e-6 degree, so up to 0.11 m and 0.35 degrees beside that
  CHECK(std::regex_match(wpt.child_value("cmt"), std::regex(R"(2\.4 m; 4-8 C; 18 m at 07[78] T)")));
  CHECK(std::regex_search(wpt.child_value("desc"),
                          std::regex(R"(in 2\.4 m of water and cast a crankbait 18\.[3-6] m east-northeast \(07[78] )"
                                     R"(degrees true\) to the drop-off in 3\.2 m;)")));
  options.units = Units::imperial;
  const pugi::xml_document imperial = first();
  // 2.41 m = 7.9 ft, 18.44 m = 60.5 ft (1 ft = 0.3048 m)
  CHECK(std::regex_match(imperial.child("gpx").child("wpt").child_value("cmt"),
                         std::regex("8 ft; 39-46 F; 6[01] ft at 07[78] T")));
}

TEST_CASE("hazards and closures that take up room are tracks too, closed, with the name of their waypoint") {
  Plan plan = sample::plan();
  plan.gpx.line = GpxLine::none;
  const pugi::xml_document document = parsed(waypoint_files(plan)[0]);
  std::set<std::string> marks;
  for (const pugi::xml_node wpt : document.child("gpx").children("wpt")) marks.insert(wpt.child_value("name"));
  int closed = 0;
  for (const pugi::xml_node track : document.child("gpx").children("trk")) {
    CHECK(marks.contains(track.child_value("name")));
    const std::string type = track.child_value("type");
    CHECK((type == "hazard" || type == "closure"));
    CHECK_FALSE(track.child("trkseg").child("trkpt").child("time"));
    const pugi::xml_node first = track.child("trkseg").first_child(), last = track.child("trkseg").last_child();
    if (std::string(first.attribute("lat").value()) == last.attribute("lat").value() &&
        std::string(first.attribute("lon").value()) == last.attribute("lon").value()) {
      ++closed;
    }
  }
  CHECK(closed >= 1);
}

TEST_CASE("names may be brief or in words, cast places may stand there, and symbols are the user's own") {
  Plan plan = sample::plan();
  plan.gpx.names = GpxNames::brief;
  CHECK(names_in(waypoint_files(plan)[0], "spot") == std::vector<std::string>{"01D", "02W"});
  CHECK(names_in(waypoint_files(plan)[0], "landing").empty());
  CHECK(waypoint_files(plan)[0].bytes.find("<sym>") == std::string::npos);
  plan.gpx.landings = true;
  plan.gpx.symbols = {{"spot", "Buoy & <flag>"}};
  const OutputFile brief = waypoint_files(plan)[0];
  CHECK(names_in(brief, "landing") == std::vector<std::string>{"01X", "02X"});
  const pugi::xml_document document = parsed(brief);
  for (const pugi::xml_node wpt : document.child("gpx").children("wpt")) {
    CHECK(std::strlen(wpt.child_value("name")) <= 6);
    const bool spot = std::string(wpt.child_value("type")) == "spot";
    CHECK(std::string(wpt.child_value("sym")) == (spot ? "Buoy & <flag>" : ""));
    hold_to_order(wpt, {"name", "cmt", "desc", "sym", "type"});
  }
  plan.gpx.names = GpxNames::words;
  CHECK(names_in(waypoint_files(plan)[0], "spot") ==
        std::vector<std::string>{"01-drop-off-PRS-2M", "02-weed-line-PRS-2M"});
  plan.gpx.names = GpxNames::usual;
  CHECK(names_in(waypoint_files(plan)[0], "landing") == std::vector<std::string>{"01LAND", "02LAND"});
  plan.units = Units::imperial;
  CHECK(names_in(waypoint_files(plan)[0], "spot") == std::vector<std::string>{"01DPRS-8F", "02WPRS-8F"});
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

TEST_CASE("a launch says at which temperature of the water to stop, in the reader's unit") {
  sample::Options options;
  options.one_phase = true;
  for (const auto& [units, words] : {std::pair(Units::metric, "at 23.9 C or above"),  // 75 F = (75 - 32) / 1.8 C
                                     std::pair(Units::imperial, "at 75 F or above")}) {
    options.units = units;
    const pugi::xml_document document = parsed(waypoint_files(sample::plan(options))[0]);
    int launches = 0;
    for (const pugi::xml_node wpt : document.child("gpx").children("wpt")) {
      if (std::string(wpt.child_value("type")) != "launch") continue;
      ++launches;
      const std::string desc = wpt.child_value("desc");
      CHECK(desc.find(words) != std::string::npos);
      CHECK(desc.find("do not fish for Mere pike") != std::string::npos);
      CHECK(desc.size() <= 255);
    }
    CHECK(launches == 1);
  }
}
