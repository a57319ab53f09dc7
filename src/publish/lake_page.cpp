// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/write/html_text.hpp"
#include "castplan/write/plain_text.hpp"
#include "publish/lake_files.hpp"
#include "publish/lake_map.hpp"
#include "publish/site_text.hpp"

namespace castplan {
namespace {

constexpr std::size_t kMostRows = 40;

std::string fact(std::string_view name, const std::string& html) {
  return html.empty() ? std::string() : fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", name, html);
}

std::string facts_html(const PublicLake& lake) {
  std::string phases;
  for (const std::string& phase : lake.phases) phases += (phases.empty() ? "" : ", ") + phase;
  return fact("Area", area_text(lake.area_m2)) + fact("Deepest", depth_text(lake.max_depth_m)) +
         fact("Mean depth", depth_text(lake.mean_depth_m)) + fact("Species", escaped(lake.species)) +
         fact("Phase", escaped(phases)) + fact("Holds for", escaped(lake.temperatures)) +
         fact("Planned for", escaped(lake.date)) + fact("Water surface", escaped(lake.surface)) +
         fact("Depths from", escaped(source_text(lake)));
}

std::string advisory_html(const PublicLake& lake) {
  if (lake.level == "none" || lake.reasons.empty()) {
    // with no temperature the reasons are the lines to watch
    return lake.reasons.empty() ? std::string()
                                : "<section class=\"advisory care\" aria-labelledby=\"advisory\">\n<h2 "
                                  "id=\"advisory\">Watch the water</h2>\n" +
                                      list_html(lake.reasons) + "</section>\n";
  }
  return fmt::format(
      "<section class=\"advisory {}\" aria-labelledby=\"advisory\">\n<h2 id=\"advisory\">{}</h2>\n{}</section>\n",
      lake.stopped() ? "stop" : "care", lake.stopped() ? "Stop: no spots are shown" : "Caution",
      list_html(lake.reasons));
}

std::string rules_html(const PublicLake& lake) {
  if (lake.rules.empty()) {
    return "<p>None were noted. Local rules and closures come first: ask those who make them.</p>\n";
  }
  std::string out = fmt::format("<p>{}</p>\n<p class=\"small\">", escaped(lake.rules));
  out += "In the words of the person who made the plan.";
  if (!lake.rules_source.empty()) out += fmt::format(" Source: {}.", escaped(lake.rules_source));
  if (!lake.rules_checked.empty()) out += fmt::format(" Checked {}.", escaped(lake.rules_checked));
  return out + "</p>\n";
}

// "northwest part", by the square's middle seen from the lake's.
std::string part_of_lake(const PublicLake& lake, const CellEdges& cell, const MapPlane& plane) {
  const LonLat middle{Longitude{static_cast<double>(cell.west + cell.east) / 2e6},
                      Latitude{static_cast<double>(cell.south + cell.north) / 2e6}};
  const Geodesic way = geodesic(lake.centre, middle);
  if (way.distance.value() < 0.08 * MapPlane::kLongest * plane.metres_a_unit()) return "middle";
  return compass_words(way.bearing) + " part";
}

std::string areas_html(const PublicLake& lake, const MapPlane& plane, std::vector<std::string>& blocks) {
  std::string out;
  for (std::size_t at = 0; at < lake.areas.size(); ++at) {
    const CoarseArea& area = lake.areas[at];
    for (const CoarseCount& count : area.counts) {
      std::string row = fmt::format(
          "<tr><th scope=\"row\">{}</th><td>{}<br><span "
          "class=\"small\">{}{}</span></td><td>{}</td><td>{}</td><td>{}</td>"
          "</tr>\n",
          letters(at), part_of_lake(lake, area.cells[0], plane), edges_text(area.cells[0]),
          area.cells.size() > 1 ? ", and slivers of water beside it" : "", escaped(count.phase), count.spots,
          count.best_ten);
      out += row;
      blocks.push_back(std::move(row));
    }
  }
  return "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"Table of areas\"><table><thead><tr><th "
         "scope=\"col\">Area</th><th scope=\"col\">Where</th><th scope=\"col\">Phase</th><th "
         "scope=\"col\">Spots</th><th "
         "scope=\"col\">Of the best ten</th></tr></thead><tbody>\n" +
         out + "</tbody></table></div>\n";
}

std::string exact_rows(const ExactPlaces& exact, std::vector<std::string>& blocks) {
  std::string out;
  for (const ExactSpot& spot : exact.spots) {
    std::string row = fmt::format(
        "<tr><th scope=\"row\">{}</th><td>{}</td><td><span class=\"copy\">{}</span><br><span "
        "class=\"copy\">{}</span></td>"
        "<td>{}</td><td>{} ({:03.0f}° true), {}, into {}</td><td>{}</td><td>{}{}</td></tr>\n",
        spot.rank, escaped(spot.phase), decimal_degrees(spot.boat), degrees_minutes(spot.boat),
        depth_text(spot.boat_depth_m), compass_words(Degrees(spot.bearing_deg)), spot.bearing_deg,
        distance_text(Metres(spot.cast_m), Units::metric), depth_text(spot.target_depth_m), escaped(spot.lures),
        escaped(spot.reason), list_html(spot.cautions));
    out += row;
    blocks.push_back(std::move(row));
  }
  return out;
}

std::string exact_html(const ExactPlaces& exact, std::vector<std::string>& blocks) {
  const bool reasons =
      std::any_of(exact.spots.begin(), exact.spots.end(), [](const ExactSpot& spot) { return !spot.reason.empty(); });
  std::string out =
      "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"Table of spots\"><table "
      "class=\"spots\"><thead><tr><th "
      "scope=\"col\">Rank</th><th scope=\"col\">Phase</th><th scope=\"col\">Boat</th><th scope=\"col\">Sounder</th><th "
      "scope=\"col\">Cast</th><th scope=\"col\">Lures</th><th scope=\"col\">" +
      std::string(reasons ? "Why, and care" : "Care") + "</th></tr></thead><tbody>\n" + exact_rows(exact, blocks) +
      "</tbody></table></div>\n";
  if (!exact.passes.empty()) {
    out += fmt::format("<p>{} lanes for the boat stand on the map and in passes.geojson.</p>\n", exact.passes.size());
  }
  if (exact.left_out > 0) {
    out += "<p>What casts at places that never leave (placed cover, private layers) is left out.</p>\n";
  }
  return out;
}

std::string spots_html(const SiteLake& site, const MapPlane& plane, std::vector<std::string>& blocks) {
  const PublicLake& lake = site.lake;
  if (lake.stopped()) return "<p class=\"none\">None: see the stop above, and when to look again.</p>\n";
  if (lake.small) {
    return "<p class=\"none\">None: waters under 200 ha (494 acres) show their features and no spots, since in a small "
           "water even a rough place is an exact one.</p>\n";
  }
  if (site.exact) return exact_html(*site.exact, blocks);
  if (lake.areas.empty()) return "<p class=\"none\">None were found for these conditions.</p>\n";
  return areas_html(lake, plane, blocks);
}

std::string kind_html(const PublicLake& lake, const KindRow& row) {
  std::string rows;
  std::size_t count = 0;
  for (const PublicFeature& feature : lake.features) {
    if (feature.kind != row.kind || ++count > kMostRows) continue;
    rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n",
                        feature.name.empty() ? fmt::format("{} {}", row.label, count) : name_html(feature.name),
                        escaped(feature_words(feature)));
  }
  for (const auto& [kind, hidden] : lake.counted) {
    if (kind != row.kind) continue;
    return fmt::format(
        "<p class=\"counted\"><b>{}</b> ({}): {}. Mapped by the person who made the plan; the places do "
        "not leave.</p>\n",
        row.plural, hidden, escaped(row.what));
  }
  if (rows.empty()) return {};
  const std::string more =
      count > kMostRows
          ? fmt::format("<p>The first {} of {}; the rest stand in features.geojson.</p>\n", kMostRows, count)
          : std::string();
  return fmt::format(
      "<details><summary><b>{}</b> ({}): {}</summary>\n{}<div class=\"wide\" role=\"region\" tabindex=\"0\" "
      "aria-label=\"Table of {}\"><table><thead><tr><th scope=\"col\">Name</th><th scope=\"col\">What is "
      "known</th></tr>"
      "</thead><tbody>\n{}</tbody></table></div></details>\n",
      row.plural, count, escaped(row.what), more, row.plural, rows);
}

std::string features_html(const PublicLake& lake) {
  std::string out;
  for (const KindRow& row : kinds()) out += kind_html(lake, row);
  if (!lake.not_assessed.empty()) {
    std::string names;
    for (const std::string& name : lake.not_assessed) names += (names.empty() ? "" : ", ") + name;
    out += fmt::format("<p>Not assessed: {}. That does not mean there is none.</p>\n", escaped(names));
  }
  return out.empty() ? "<p>None were found.</p>\n" : out;
}

std::string downloads_html(const SiteLake& site) {
  std::vector<std::pair<std::string_view, std::string_view>> files = {
      {"features.geojson", "features, for any map viewer"}, {"contours.geojson", "shoreline and depth contours"}};
  if (site.exact) {
    files.insert(files.end(), {{"spots.geojson", "exact spots"},
                               {"passes.geojson", "exact passes"},
                               {"spots.csv", "exact spots, for a spreadsheet"}});
  } else {
    files.insert(files.end(),
                 {{"areas.geojson", "areas with their counts"}, {"areas.csv", "the same, for a spreadsheet"}});
  }
  std::string out;
  for (const auto& [name, what] : files) {
    out += fmt::format("<li><a href=\"{}/{}\">{}</a>: {}</li>\n", site.lake.slug, name, name, what);
  }
  return "<ul class=\"files\">\n" + out + "</ul>\n";
}

std::string protection_html(const SiteLake& site, const PublishOptions& options) {
  if (site.exact) return "<p>Nothing is rounded on this page: it shows exact places.</p>\n";
  return fmt::format(
      "<p>Places are rounded to squares of at least {}, fixed on the earth, before a page is made. Passes, bearings, "
      "reasons and names that tell a place do not leave; nor do placed cover, weeds that were seen, catch logs and "
      "likely spawning ground.</p>\n<p><strong>What that cannot protect:</strong> the depths are public, and an open "
      "tool finds the same edges in them that these pages draw. A place that must stay unknown is safe only with "
      "people "
      "who do not tell it.</p>\n",
      size_text(options.coarsen));
}

}  // namespace

void add_lake_page(SiteParts& parts, const SiteLake& site, const PublishOptions& options) {
  const PublicLake& lake = site.lake;
  const MapPlane plane(lake.centre, lake.outline);
  parts.maps.push_back({lake_page_name(lake), plane});
  const std::string alone = fmt::format(
      "Map of {} with its depth contours and {} features. The lists on this page say "
      "the same in words.",
      short_name(lake.name), lake.features.size());
  std::vector<std::string>& blocks = parts.blocks.by_file[lake_page_name(lake)];
  const std::string spots = spots_html(site, plane, blocks);
  const std::string page = filled(
      page_part("lake.html"),
      {{"policy", std::string(kPolicy)},
       {"title", short_name(lake.name)},
       {"css", page_part("site.css")},
       {"mark", site.exact ? fmt::format("<p class=\"mark exact\"><strong>{}</strong></p>\n", kExactMark)
                           : fmt::format("<p class=\"mark\"><strong>Coarse places.</strong> Spots stand as counts in "
                                         "squares of at least {}.</p>\n",
                                         size_text(options.coarsen))},
       {"name", name_html(lake.name)},
       {"advisory", advisory_html(lake)},
       {"facts", facts_html(lake)},
       {"cautions", list_html(lake.cautions)},
       {"leave_alone", list_html(lake.leave_alone)},
       {"width", fmt::format("{:.0f}", plane.width())},
       {"height", fmt::format("{:.0f}", plane.height())},
       {"words", alone},
       {"svg", lake_map_svg(lake, site.exact_or_none(), plane, blocks)},
       {"legend", lake_legend_html(lake, site.exact_or_none())},
       {"spots_title", site.exact ? "Spots, exact" : "Spots, as counts"},
       {"spots", spots},
       {"features", features_html(lake)},
       {"rules", rules_html(lake)},
       {"downloads", downloads_html(site)},
       {"protection", protection_html(site, options)},
       {"source", escaped(source_text(lake))},
       {"surface", escaped(sentence(lake.surface))},
       {"program", "castplan " + std::string(version())}});
  parts.files.push_back({lake_page_name(lake), page});
}

}  // namespace castplan
