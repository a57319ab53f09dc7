// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <cstdio>

#include "cli/printed_page.hpp"
#include "support/csv.hpp"

namespace castplan::printed {

inline const std::string kSummer = "--water-temp 66F --trend rising --date 2026-06-20 ";
inline const std::string kWarmest = "--water-temp 76F ";

/// The sample lake with the pages for teaching.
struct Evening {
  Scratch scratch;
  std::string folder = scratch.path("plan");

  explicit Evening(const std::string& options, const std::string& lake = kSample) {
    const Run made = run_castplan(
        scratch, "scout " + lake + " --quiet --formats teaching,geojson,json --out " + folder + " " + options);
    INFO(made.err);
    REQUIRE(made.code == 0);
  }
  [[nodiscard]] std::string path(const std::string& name) const { return folder + "/" + name; }
  [[nodiscard]] std::string text(const std::string& name) const { return pdf::text_of(path(name)); }
  [[nodiscard]] nlohmann::json features(const std::string& name) const { return json_in(path(name))["features"]; }
  [[nodiscard]] csv::Records checks() const { return csv::parse(read(path("to-check.csv"))); }
};

// Degrees and decimal minutes by their definition: a minute is a sixtieth of a degree.
inline std::string minutes_of(double degrees, int digits, char positive, char negative) {
  const double all = std::abs(degrees);
  const int whole = static_cast<int>(all);
  char text[40];
  std::snprintf(text, sizeof text, "%0*d\xC2\xB0 %06.3f' %c", digits, whole, (all - whole) * 60.0,
                degrees < 0 ? negative : positive);
  return text;
}
inline std::string minutes_of(const nlohmann::json& place) {
  return minutes_of(place[1].get<double>(), 2, 'N', 'S') + ", " + minutes_of(place[0].get<double>(), 3, 'E', 'W');
}

}  // namespace castplan::printed
