// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "inspecting.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

namespace {

/// A sound lake whose file names one table of its conditions.
struct Table {
  programs::Scratch scratch;
  Inspection of(const std::string& key, const std::string& text) {
    changed_lake(scratch, "d.tif", as_it_is);
    scratch.write("t.csv", text);
    return inspect(rasters::of(scratch.write(
        "lake.toml",
        "name = \"Invented\"\n[depth]\nraster = \"d.tif\"\nunit = \"m\"\n[conditions]\n" + key + " = \"t.csv\"\n")));
  }
};

int errors(const Inspection& in) {
  return static_cast<int>(std::count_if(in.findings.begin(), in.findings.end(),
                                        [](const Finding& one) { return one.severity == Severity::error; }));
}

}  // namespace

TEST_CASE("a sound series is told by its span and its range, and by nothing else") {
  Table table;
  const Inspection in =
      table.of("water_temps", "date,temp_c\n2026-05-01,8\n2026-05-02,8.5\n2026-05-02,9.5\n2026-05-03,9.25\n");
  CHECK(errors(in) == 0);
  CHECK_THAT(found(in, "series-span").text, Contains("4 rows, 2026-05-01 to 2026-05-03"));
  for (const char* code : {"series-gap", "series-unsorted", "series-jump", "series-value", "series-date"}) {
    CHECK(count(in, code) == 0);
  }
  const auto file = std::find_if(in.files.begin(), in.files.end(),
                                 [](const FileFacts& one) { return one.key == "conditions.water_temps"; });
  REQUIRE(file != in.files.end());
  CHECK(file->kind == "table");
  CHECK(file->layers.front().records == 4);
  CHECK(*file->layers.front().fields.front().low == 8);
  CHECK(*file->layers.front().fields.front().high == 9.5);
}

TEST_CASE("gaps, order and jumps of a series are found") {
  Table table;
  const Inspection in =
      table.of("water_temps", "date,temp_c\n2026-05-01,8\n2026-05-05,9\n2026-05-04,9\n2026-05-06,16\n2026-05-09,17\n");
  CHECK(errors(in) == 0);
  CHECK_THAT(found(in, "series-gap").text, Contains("2 gaps, first: 2 days after 2026-05-01"));
  CHECK_THAT(found(in, "series-unsorted").text, Contains("1 row out of order, first: 2026-05-04 after a later one"));
  CHECK_THAT(found(in, "series-jump").text, Contains("+7.0 C to 2026-05-06"));
}

TEST_CASE("every row that cannot be right is counted, not only the first") {
  Table table;
  const Inspection in =
      table.of("water_temps",
               "date,temp_c\n2026-05-01,61\n2026-05-02,62\n2026-02-30,8\n3 May,9\n2026-05-04,warm\n2026-05-05,\n");
  CHECK_THAT(found(in, "series-value").text,
             Contains("4 values of temp_c that cannot be right, first: 61 on 2026-05-01"));
  CHECK_THAT(found(in, "series-value").mend, Contains("-2 to 45"));
  CHECK_THAT(found(in, "series-date").text, Contains("2 dates that cannot be read"));
  CHECK(found(in, "series-value").severity == Severity::error);
  // air may be colder
  CHECK(errors(table.of("air_temps", "date,temp_c\n2026-01-01,-35\n2026-01-02,-20\n")) == 0);
  CHECK(errors(table.of("air_temps", "date,temp_c\n2026-01-01,-75\n")) == 1);
  CHECK(errors(table.of("water_temps", "day,temp_c\n2026-01-01,5\n")) == 1);  // no such column
  CHECK(count(table.of("water_temps", "date,temp_c\n"), "series-empty") == 1);
}

TEST_CASE("a profile is held against what water does") {
  Table table;
  const Inspection sound = table.of(
      "profile", "date,depth_m,temp_c,oxygen_mg_l\n2026-07-01,0,22,9\n2026-07-01,3,21.8,9\n2026-07-01,6,12,6\n");
  CHECK(errors(sound) == 0);
  for (const char* code :
       {"profile-inversion", "profile-few", "profile-no-surface", "profile-no-oxygen", "series-gap"}) {
    CHECK(count(sound, code) == 0);
  }
  const Inspection odd = table.of(
      "profile",
      "date,depth_m,temp_c\n2026-07-01,2,14\n2026-07-01,4,19\n2026-07-01,6,12\n2026-07-20,2,20\n2026-07-20,5,19\n");
  CHECK_THAT(found(odd, "profile-inversion").text, Contains("4 m on 2026-07-01, by 5.0 C"));
  CHECK_THAT(found(odd, "profile-few").text, Contains("2026-07-20"));
  CHECK_THAT(found(odd, "profile-no-surface").text, Contains("2 dates"));
  CHECK(count(odd, "profile-no-oxygen") == 1);
  // under ice the warmer water lies below: 4 C is the densest
  CHECK(count(table.of("profile", "date,depth_m,temp_c\n2026-02-01,0,0.5\n2026-02-01,2,2.5\n2026-02-01,5,4\n"),
              "profile-inversion") == 0);
  const Inspection wrong = table.of(
      "profile", "date,depth_m,temp_c,oxygen_mg_l\n2026-07-01,0,22,9\n2026-07-01,0,21,90\n2026-07-01,-3,12,\n");
  CHECK(count(wrong, "profile-twice") == 1);
  CHECK(count(wrong, "series-value") == 2);  // of depth and of oxygen
}

TEST_CASE("wind: hours of UTC, each once, gusts no weaker than the wind") {
  Table table;
  const Inspection sound = table.of("wind",
                                    "time,speed_mps,gust_mps,from_deg\n2026-07-01T06:00Z,3,5,270\n"
                                    "2026-07-01T07:00Z,4,,280\n2026-07-01T08:00Z,4,6,290\n");
  CHECK(errors(sound) == 0);
  CHECK(count(sound, "series-gap") == 0);
  const Inspection odd = table.of("wind",
                                  "time,speed_mps,gust_mps,from_deg\n2026-07-01T06:00Z,6,5,270\n"
                                  "2026-07-01T10:00Z,4,9,400\n2026-07-01T10:00Z,4,9,40\n2026-07-01,4,9,40\n");
  CHECK_THAT(found(odd, "series-gap").text, Contains("3 hours after 2026-07-01 06:00 UTC"));
  CHECK(count(odd, "wind-gust") == 1);
  CHECK(count(odd, "series-twice") == 1);
  CHECK_THAT(found(odd, "series-value").text, Contains("400 on 2026-07-01T10:00Z"));
  CHECK(count(odd, "series-date") == 1);
}
