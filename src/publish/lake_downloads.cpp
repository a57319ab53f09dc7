// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "castplan/write/html_text.hpp"
#include "castplan/write/plain_text.hpp"
#include "castplan/write/text.hpp"
#include "publish/lake_files.hpp"
#include "publish/site_text.hpp"

namespace castplan {
namespace {

void text_or_null(JsonText& json, std::string_view key, const std::string& text) {
  json.key(key);
  text.empty() ? json.null() : json.text(text);
}

void texts(JsonText& json, std::string_view key, const std::vector<std::string>& all) {
  json.key(key).begin_array();
  for (const std::string& text : all) json.text(text);
  json.end_array();
}

std::string places_note(const SiteLake& lake, const PublishOptions& options) {
  if (lake.exact) return std::string("EXACT PLACES: this file shows where to cast.");
  return fmt::format("Places are rounded to fixed squares of at least {}; spots stand as counts.",
                     size_text(options.coarsen));
}

// What every file of the lake carries: nothing of inputs, options or the plan's own metadata.
std::string metadata(const SiteLake& site, const PublishOptions& options) {
  const PublicLake& lake = site.lake;
  JsonText json(JsonText::Lines::one);
  json.begin_object().key("lake").text(lake.name).key("places").text(places_note(site, options));
  json.key("exact").boolean(site.exact.has_value());
  if (!site.exact) json.key("coarsen_m").number(options.coarsen.value(), 0);
  text_or_null(json, "date", lake.date);
  text_or_null(json, "species", lake.species);
  text_or_null(json, "temperatures", lake.temperatures);
  json.key("advisory").begin_object().key("level").text(lake.level);
  texts(json, "reasons", lake.reasons);
  json.end_object();
  texts(json, "cautions", lake.cautions);
  texts(json, "leave_alone", lake.leave_alone);
  text_or_null(json, "surface", lake.surface);
  text_or_null(json, "source", lake.source);
  text_or_null(json, "licence", lake.licence);
  text_or_null(json, "surveyed", lake.surveyed);
  text_or_null(json, "rules", lake.rules);
  json.key("program").text("castplan " + std::string(version())).end_object();
  return json.str();
}

std::string collection(const std::string& head, const std::vector<std::string>& features) {
  std::string out = "{\n  \"type\": \"FeatureCollection\",\n  \"metadata\": " + head + ",\n  \"features\": [";
  for (std::size_t at = 0; at < features.size(); ++at) out += (at == 0 ? "\n    " : ",\n    ") + features[at];
  return out + "\n  ]\n}\n";
}

std::string opened(const std::string& id, const std::string& geometry) {
  JsonText json(JsonText::Lines::one);
  json.begin_object().key("type").text("Feature").key("id").text(id).key("geometry").raw(geometry);
  return json.str();
}

std::string feature_json(const PublicFeature& feature) {
  JsonText json(JsonText::Lines::one);
  json.begin_object().key("id").text(feature.id).key("kind").text(name_of(feature.kind));
  if (!feature.name.empty()) json.key("name").text(feature.name);
  for (const PublicFeature::Value& value : feature.values) {
    json.key(value.key);
    value.number ? json.number(*value.number, 2) : json.text(value.text);
  }
  json.end_object();
  return opened(feature.id, feature.geometry) + ", \"properties\": " + json.str() + "}";
}

std::string line_json(const std::string& id, std::string_view kind, double depth_m, const std::string& geometry) {
  JsonText json(JsonText::Lines::one);
  json.begin_object().key("id").text(id).key("kind").text(kind).key("depth_m").number(depth_m, 2).end_object();
  return opened(id, geometry) + ", \"properties\": " + json.str() + "}";
}

std::string degrees_of(long long micro) {
  std::string out = fixed(static_cast<double>(micro) / 1e6, 5);
  while (out.ends_with('0') && out[out.size() - 4] != '.') out.pop_back();
  return out;
}

std::string square_json(const CoarseArea& area) {
  std::string out = "{\"type\": \"MultiPolygon\", \"coordinates\": [";
  for (std::size_t at = 0; at < area.cells.size(); ++at) {
    const CellEdges& cell = area.cells[at];
    const std::string west = degrees_of(cell.west), east = degrees_of(cell.east);
    const std::string south = degrees_of(cell.south), north = degrees_of(cell.north);
    out += fmt::format("{}[[[{}, {}], [{}, {}], [{}, {}], [{}, {}], [{}, {}]]]", at == 0 ? "" : ", ", west, south, east,
                       south, east, north, west, north, west, south);
  }
  return out + "]}";
}

std::string area_json(const CoarseArea& area, const std::string& name) {
  JsonText json(JsonText::Lines::one);
  json.begin_object().key("id").text(area.id).key("kind").text("area").key("name").text(name);
  json.key("spots").integer(area.spots()).key("of_the_best_ten").integer(area.best_ten());
  json.key("phases").begin_array();
  for (const CoarseCount& count : area.counts) {
    json.begin_object().key("phase").text(count.phase).key("spots").integer(count.spots);
    json.key("of_the_best_ten").integer(count.best_ten).end_object();
  }
  json.end_array().end_object();
  return opened(area.id, square_json(area)) + ", \"properties\": " + json.str() + "}";
}

// A text that a spreadsheet would run gets an apostrophe; quotes as RFC 4180, section 2, has them.
std::string cell(const std::string& text) {
  std::string out = one_line(text);
  if (!out.empty() && std::string_view("=+-@").find(out.front()) != std::string_view::npos) out.insert(0, "'");
  if (out.find_first_of(",\"") == std::string::npos) return out;
  std::string quoted = "\"";
  for (const char letter : out) quoted += letter == '"' ? "\"\"" : std::string(1, letter);
  return quoted + "\"";
}

std::string common_cells(const SiteLake& site, const PublishOptions& options) {
  const PublicLake& lake = site.lake;
  std::string cautions;
  for (const std::string& caution : lake.cautions) cautions += (cautions.empty() ? "" : " ") + sentence(caution);
  std::string out;
  for (const std::string& text :
       {lake.name, lake.temperatures, lake.surface, source_text(lake), places_note(site, options), cautions}) {
    out += "," + cell(text);
  }
  return out + "," + cell("castplan " + std::string(version())) + "\r\n";
}
constexpr std::string_view kCommonHead = ",lake,temperatures,surface,depth_source,places,cautions,program\r\n";

std::string areas_csv(const SiteLake& site, const PublishOptions& options, PublicBlocks& blocks) {
  std::string out = "area,phase,south,west,north,east,spots,of_the_best_ten";
  out += kCommonHead;
  for (std::size_t at = 0; at < site.lake.areas.size(); ++at) {
    const CoarseArea& area = site.lake.areas[at];
    const CellEdges& own = area.cells[0];
    for (const CoarseCount& count : area.counts) {
      const std::string row =
          fmt::format("{},{},{},{},{},{},{},{}", letters(at), cell(count.phase), degrees_of(own.south),
                      degrees_of(own.west), degrees_of(own.north), degrees_of(own.east), count.spots, count.best_ten);
      blocks.add(lake_file_name(site.lake, "areas.csv"), row + ",");
      out += row + common_cells(site, options);
    }
  }
  return out;
}

std::string spots_csv(const SiteLake& site, const PublishOptions& options, PublicBlocks& blocks) {
  std::string out =
      "phase,rank,lat,lon,boat_depth_m,hold,target_lat,target_lon,bearing_deg,cast_m,target_depth_m,lures";
  out += kCommonHead;
  for (const ExactSpot& spot : site.exact->spots) {
    const std::string row =
        fmt::format("{},{},{},{},{},{},{},{},{},{},{},{}", cell(spot.phase), spot.rank, fixed(spot.boat.lat.degrees, 6),
                    fixed(spot.boat.lon.degrees, 6), fixed(spot.boat_depth_m, 2), cell(spot.hold),
                    fixed(spot.target.lat.degrees, 6), fixed(spot.target.lon.degrees, 6), fixed(spot.bearing_deg, 1),
                    fixed(spot.cast_m, 2), fixed(spot.target_depth_m, 2), cell(spot.lures));
    blocks.add(lake_file_name(site.lake, "spots.csv"), row + ",");
    out += row + common_cells(site, options);
  }
  return out;
}

}  // namespace

void add_downloads(SiteParts& parts, const SiteLake& site, const PublishOptions& options) {
  const PublicLake& lake = site.lake;
  const std::string head = metadata(site, options);
  const auto add_collection = [&](std::string_view name, const std::vector<std::string>& features) {
    parts.files.push_back({lake_file_name(lake, name), collection(head, features)});
    for (const std::string& feature : features) parts.blocks.add(lake_file_name(lake, name), feature);
  };
  std::vector<std::string> features, lines{line_json("shoreline", "shoreline", 0.0, lake.outline_geometry)};
  for (const PublicFeature& feature : lake.features) features.push_back(feature_json(feature));
  for (const DepthArea& part : lake.depth_areas) {
    lines.push_back(
        line_json(fmt::format("depth-area-{:g}m", part.depth_m), "depth-area", part.depth_m, part.geometry));
  }
  for (const DepthLine& line : lake.contours) {
    lines.push_back(line_json(fmt::format("contour-{:g}m", line.depth_m), "contour", line.depth_m, line.geometry));
  }
  add_collection("features.geojson", features);
  add_collection("contours.geojson", lines);
  if (site.exact) {
    std::vector<std::string> spots, passes;
    for (const ExactSpot& spot : site.exact->spots) spots.push_back(spot.json);
    for (const ExactPass& pass : site.exact->passes) passes.push_back(pass.json);
    add_collection("spots.geojson", spots);
    add_collection("passes.geojson", passes);
    parts.files.push_back({lake_file_name(lake, "spots.csv"), spots_csv(site, options, parts.blocks)});
    return;
  }
  std::vector<std::string> areas;
  for (std::size_t at = 0; at < lake.areas.size(); ++at) areas.push_back(area_json(lake.areas[at], letters(at)));
  add_collection("areas.geojson", areas);
  parts.files.push_back({lake_file_name(lake, "areas.csv"), areas_csv(site, options, parts.blocks)});
}

}  // namespace castplan
