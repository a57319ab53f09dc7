// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// Invented waters as whole stories: made from formulas, taken through the program as a person would, and read back
// from the files that the person gets.

#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <string>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/season/date.hpp"
#include "cli/spots_in_files.hpp"

namespace castplan::story {

using namespace castplan::programs;
using nlohmann::json;

/// UTM zone 24N, where ascii_grid puts its rasters; far out at sea.
inline const Projection& utm() {
  static const Projection plane = Projection::from_text("EPSG:32624");
  return plane;
}

inline XY place_of(const json& lonlat) {
  return utm().from_lonlat({{lonlat[0].get<double>()}, {lonlat[1].get<double>()}});
}

struct Story {
  Scratch scratch;
  std::string folder = scratch.path("plan");

  Run castplan(const std::string& arguments, int code = 0) const {
    const Run run = run_castplan(scratch, arguments, scratch.path());
    INFO(arguments << "\n" << run.out << run.err);
    REQUIRE(run.code == code);
    return run;
  }
  [[nodiscard]] json summary() const { return json_in(folder + "/summary.json"); }
  [[nodiscard]] json spots() const { return json_in(folder + "/spots.geojson")["features"]; }
  [[nodiscard]] json passes() const { return json_in(folder + "/passes.geojson")["features"]; }
  [[nodiscard]] json features(const std::string& kind) const { return features_of_kind(folder, kind); }
  /// Every file that words fit into carries them, as a person reads it.
  void everywhere(const std::string& words) const {
    for (const auto& [name, bytes] : files_in(folder)) {
      INFO(name << " carries \"" << words << "\"");
      if (name != "spots.csv" && name != "log.csv")
        CHECK(said_in(folder, name, bytes).find(words) != std::string::npos);
    }
  }
  /// Daily water temperatures, the last of them on the day.
  void series(const std::string& last, const std::vector<double>& celsius) const {
    auto day = std::chrono::sys_days(parse_date(last)) - std::chrono::days(celsius.size() - 1);
    std::string rows = "date,temp_c\n";
    for (const double t : celsius) {
      rows += date_text(Date(day)) + "," + std::to_string(t) + "\n";
      day += std::chrono::days(1);
    }
    scratch.write("temps.csv", rows);
  }
};

}  // namespace castplan::story
