// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/write/text.hpp"

namespace castplan {

std::span<const Format> formats() {
  using Files = std::vector<OutputFile>;
  static constexpr Format kFormats[] = {
      {"geojson", "features, spots, passes and contours.geojson, for maps and other programs",
       [](const Plan& plan) {
         return Files{{"features.geojson", features_geojson(plan)},
                      {"spots.geojson", spots_geojson(plan)},
                      {"passes.geojson", passes_geojson(plan)},
                      {"contours.geojson", contours_geojson(plan)}};
       }},
      {"gpx", "waypoints.gpx, or one file a phase, for a chart plotter or a phone", waypoint_files},
      {"csv", "spots.csv, for a spreadsheet",
       [](const Plan& plan) {
         return Files{{"spots.csv", spots_csv(plan)}};
       }},
      {"log", "log.csv, a catch log to fill in, a row a spot; never written over notes",
       [](const Plan& plan) {
         return Files{{"log.csv", log_csv(plan)}};
       }},
      {"html", "map.html, a page with map and list that opens with no network",
       [](const Plan& plan) {
         return Files{{"map.html", map_html(plan)}};
       }},
      {"pdf", "sheet.pdf, one printed page for the boat",
       [](const Plan& plan) {
         return Files{{"sheet.pdf", sheet_pdf(plan)}};
       }},
      {"json", "summary.json, the lake's figures, conditions, counts and provenance",
       [](const Plan& plan) {
         return Files{{"summary.json", summary_json(plan)}};
       }},
  };
  return kFormats;
}

}  // namespace castplan
