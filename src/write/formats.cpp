// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/write/text.hpp"
#include "write/teaching.hpp"

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
      {"teaching",
       "contours.pdf and its key, glossary.pdf, to-check.pdf and to-check.csv, for an evening before the season",
       [](const Plan& plan) {
         return Files{{"contours.pdf", contours_pdf(plan)},
                      {"contours-key.pdf", contours_key_pdf(plan)},
                      {"glossary.pdf", glossary_pdf(plan)},
                      {"to-check.pdf", to_check_pdf(plan)},
                      {"to-check.csv", to_check_csv(plan)}};
       }},
      {"json", "summary.json, the lake's figures, conditions, counts and provenance",
       [](const Plan& plan) {
         return Files{{"summary.json", summary_json(plan)}};
       }},
      {"kml", "places.kml, for globes and map viewers",
       [](const Plan& plan) {
         return Files{{"places.kml", places_kml(plan)}};
       },
       false},
      {"gpkg", "castplan.gpkg, a GeoPackage with a table a kind, for a GIS",
       [](const Plan& plan) {
         return Files{{"castplan.gpkg", castplan_gpkg(plan)}};
       },
       false},
      {"png", "map.png, a still map as a picture",
       [](const Plan& plan) {
         return Files{{"map.png", map_png(plan)}};
       },
       false},
      {"svg", "map.svg, the same map as a drawing that can be enlarged",
       [](const Plan& plan) {
         return Files{{"map.svg", map_svg(plan)}};
       },
       false},
      {"fragment", "fragment.html, tables without script and style, for sites that strip both",
       [](const Plan& plan) {
         return Files{{"fragment.html", fragment_html(plan)}};
       },
       false},
  };
  return kFormats;
}

}  // namespace castplan
