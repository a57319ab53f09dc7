// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cassert>

#include "castplan/write/text.hpp"
#include "castplan_page.hpp"
#include "write/html_text.hpp"
#include "write/map_page.hpp"

namespace castplan {
namespace {

std::string part(std::string_view name) {
  for (const castplan_page::File& file : castplan_page::files()) {
    if (file.name == name) return std::string(file.text);
  }
  assert(!"a part of the page is missing from src/write/page");
  return {};
}

/// What the map must show besides the water: boats, targets and launches near it.
Points also_shown(const Plan& plan) {
  Points places;
  for (std::size_t phase = 0; phase < plan.phases.size(); ++phase) {
    for (const Spot& spot : shown_spots(plan, phase)) places.insert(places.end(), {spot.boat, spot.target});
    for (const Pass& pass : shown_passes(plan, phase)) places.insert(places.end(), pass.lane.begin(), pass.lane.end());
  }
  const Frame& frame = plan.lake->depth.frame();
  for (const Feature& feature : plan.features) {
    if (feature.kind == Kind::launch && frame.holds(frame.cell_at(feature.anchor))) places.push_back(feature.anchor);
  }
  return places;
}

std::string svg_text(const MapPage& page) {
  const MapView& view = page.view;
  const double scale = view.pixel().value() * 1.5 / view.unit;  // patterns are drawn for a map about 930 pixels wide
  return filled(part("map.svg"),
                {{"width", fmt::format("{:.0f}", view.width() / view.unit)},
                 {"height", fmt::format("{:.0f}", view.height() / view.unit)},
                 {"patterns", filled(part("patterns.svg"), {{"prefix", "m"}, {"scale", fmt::format("{:.2f}", scale)}})},
                 {"picture", base64(depth_picture(*page.plan.lake, view))},
                 {"outline", outline_path(page)},
                 {"contours_m", contour_paths(page, Units::metric)},
                 {"contours_ft", contour_paths(page, Units::imperial)},
                 {"features", feature_layers(page)},
                 {"passes", pass_lines(page)},
                 {"casts", cast_lines(page)}});
}

std::string spoken_summary(const Plan& plan) {
  std::size_t spots = 0, passes = 0;
  for (std::size_t phase = 0; phase < plan.phases.size(); ++phase) {
    spots += shown_spots(plan, phase).size();
    passes += shown_passes(plan, phase).size();
  }
  return fmt::format(
      "Depth map of {} with {} features, {} spots and {} passes. The tables on this page say the same in words.",
      short_name(plan.lake_name), plan.features.size(), spots, passes);
}

}  // namespace

std::string map_html(const Plan& plan) {
  assert(plan.lake != nullptr);
  const MapPage page{plan, view_of(*plan.lake, also_shown(plan))};
  const std::string ratio = fmt::format("{:.4f}", page.view.width() / page.view.height());
  return filled(part("page.html"),
                {{"title", short_name(plan.lake_name)},
                 {"name", name_html(plan.lake_name)},
                 {"css", part("page.css")},
                 {"js", part("page.js") + part("buttons.js") + part("stops.js")},
                 {"symbols", part("symbols.svg")},
                 {"legend_patterns", filled(part("patterns.svg"), {{"prefix", "l"}, {"scale", "1"}})},
                 {"advisory", advisory_html(plan)},
                 {"facts", facts_html(plan)},
                 {"fixed", fixed_html(plan)},
                 {"cautions", cautions_html(plan)},
                 {"ratio", ratio},
                 {"summary", spoken_summary(plan)},
                 {"svg", svg_text(page)},
                 {"units", plan.units == Units::metric ? "m" : "ft"},
                 {"m_checked", plan.units == Units::metric ? " checked" : ""},
                 {"ft_checked", plan.units == Units::metric ? "" : " checked"},
                 {"labels", contour_labels(page, Units::metric) + contour_labels(page, Units::imperial)},
                 {"marks", feature_marks(page)},
                 {"passes", pass_marks(page)},
                 {"spots", spot_marks(page)},
                 {"north", north_html(page)},
                 {"scale", scale_html(page)},
                 {"legend", legend_html(page)},
                 {"phases", phases_html(page)},
                 {"features", features_html(page)},
                 {"downloads", downloads_html(plan)},
                 {"about", about_html(plan)},
                 {"data", script_data(page)}});
}

}  // namespace castplan
