// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <set>

#include "cli/castplan_run.hpp"

using namespace castplan::programs;
using nlohmann::json;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

struct Club {
  Scratch scratch;
  std::string plan = scratch.path("plan"), site = scratch.path("site");

  void scout(const std::string& options = " --water-temp 66F --trend rising") const {
    const Run run = run_castplan(scratch, "scout " + kSample + " --quiet --out " + plan + options);
    INFO(run.err);
    REQUIRE(run.code == 0);
  }
  [[nodiscard]] Run publish(const std::string& options = "") const {
    return run_castplan(scratch, "publish " + plan + " --site " + site + options);
  }
};

}  // namespace

TEST_CASE("publish turns a scouted lake into pages, coarse by default, and again into the same bytes") {
  const Club club;
  club.scout();
  const Run first = club.publish(" --json");
  INFO(first.err);
  REQUIRE(first.code == 0);
  const json told = json::parse(first.out);
  CHECK(told["exact"] == false);
  const auto files = files_in(club.site);
  for (const json& name : told["files"]) CHECK(files.count(name.get<std::string>()) == 1);
  CHECK(has(first.err, "sitemap.xml"));
  const json spots = json_in(club.plan + "/spots.geojson")["features"];
  const json areas = json_in(club.site + "/lakes/lake-ossilby/areas.geojson")["features"];
  std::size_t counted = 0;
  for (const json& area : areas) counted += area["properties"]["spots"].get<std::size_t>();
  CHECK(counted == spots.size());
  // by plain search: no coordinate of a boat or target, to five decimals, stands outside the features' own lines
  for (const json& spot : spots) {
    for (const auto& [name, bytes] : files) CHECK_FALSE(has(bytes, spot["id"].get<std::string>()));
  }
  const json again = json::parse(club.publish(" --json --quiet").out);
  CHECK(again["written"].empty());
  CHECK(files_in(club.site) == files);
}

TEST_CASE("publish --exact marks every file and brings spots and passes") {
  const Club club;
  club.scout();
  REQUIRE(club.publish(" --exact --quiet").code == 0);
  for (const auto& [name, bytes] : files_in(club.site)) {
    INFO(name);
    if (bytes != "(folder)" && name != "castplan-site.txt") CHECK(has(bytes, "EXACT PLACES"));
  }
  // from exact to coarse: what was exact goes
  REQUIRE(club.publish(" --quiet").code == 0);
  for (const auto& [name, bytes] : files_in(club.site)) {
    INFO(name);
    CHECK_FALSE(has(bytes, "EXACT PLACES"));
    CHECK_FALSE(has(name, "spots.geojson"));
  }
}

TEST_CASE("publish shows a stop and refuses one that was set aside") {
  const Club club;
  club.scout(" --water-temp 82F --trend rising");
  REQUIRE(club.publish(" --quiet").code == 0);
  const std::string page = read(club.site + "/lakes/lake-ossilby.html");
  CHECK(has(page, "Stop: no spots are shown"));
  CHECK(has(page, "ook again"));
  const auto before = files_in(club.site);
  club.scout(" --water-temp 82F --trend rising --override-stop survey");
  for (const char* how : {"", " --exact"}) {
    const Run run = club.publish(how);
    CHECK(run.code == 3);
    CHECK(has(run.err, "--override-stop"));
  }
  CHECK(files_in(club.site) == before);
}

TEST_CASE("publish says what is wrong with the command line: exit 2") {
  const Club club;
  for (const auto& [options, part] : std::vector<std::pair<std::string, std::string>>{
           {" --coarsen 500", "--coarsen 500"},
           {" --coarsen 5m", "give 100 m to 50 km"},
           {" --coarsen 80km", "give 100 m to 50 km"},
           {" --coarsen 500m --exact", "leave one of the two out"},
           {" --base-url club.example", "give the whole address"},
           {" --base-url 'https://club.example/\"x'", "give the whole address"},
           {" --coarsn 500m", "did you mean --coarsen"}}) {
    const Run run = club.publish(options);
    INFO(options << "\n" << run.err);
    CHECK(run.code == 2);
    CHECK(has(run.err, part));
  }
  CHECK(run_castplan(club.scratch, "publish").code == 2);
  CHECK(run_castplan(club.scratch, "publish " + club.plan).code == 2);
}

TEST_CASE("publish says what is wrong with a folder: exit 3; with the site: exit 4") {
  const Club club;
  CHECK(club.publish().code == 3);
  club.scout();
  std::filesystem::remove(club.plan + "/contours.geojson");
  const Run missing = club.publish();
  CHECK(missing.code == 3);
  CHECK(has(missing.err, "contours.geojson: is missing"));
  CHECK(has(missing.err, "castplan scout"));
  club.scout();
  std::filesystem::create_directory(club.site);
  club.scratch.write("site/index.html", "my own");
  const Run strange = club.publish();
  CHECK(strange.code == 4);
  CHECK(has(strange.err, "was not written by castplan publish"));
  CHECK(files_in(club.site).size() == 1);
}

TEST_CASE("publish refuses a folder where exact files of a plan would go to the web with it: exit 2") {
  const Club club;
  club.scout();
  for (const std::string& site : {club.plan, club.plan + "/", club.scratch.path(), club.plan + "/../plan"}) {
    const Run run = run_castplan(club.scratch, "publish " + club.plan + " --site " + site);
    INFO(site << "\n" << run.err);
    CHECK(run.code == 2);
    CHECK(has(run.err, "exact files would be published too"));
  }
  std::filesystem::rename(club.plan, club.scratch.path("other"));
  club.scout();
  CHECK(run_castplan(club.scratch, "publish " + club.plan + " --site " + club.scratch.path("other")).code == 2);
  CHECK(run_castplan(club.scratch, "publish " + club.plan + " --quiet --site " + club.plan + "-site").code == 0);
}

TEST_CASE("publish takes its date from SOURCE_DATE_EPOCH, and refuses one that is no number") {
  const Club club;
  club.scout();
  const Result dated =
      run("SOURCE_DATE_EPOCH=1767225600 " CASTPLAN_PROGRAM " publish " + club.plan + " --quiet --site " + club.site);
  REQUIRE(dated.code == 0);
  CHECK(has(read(club.site + "/feed.atom"), "<updated>2026-01-01T00:00:00Z</updated>"));
  CHECK(run("SOURCE_DATE_EPOCH=soon " CASTPLAN_PROGRAM " publish " + club.plan + " --site " + club.site).code == 2);
}
