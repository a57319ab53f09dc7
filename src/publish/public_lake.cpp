// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/public_lake.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "castplan/geo/error.hpp"
#include "castplan/publish/site.hpp"
#include "castplan/season/profile.hpp"
#include "castplan/write/plain_text.hpp"

namespace castplan {
namespace {

// What may be said of a feature, in the order in which it is printed. All else of it stays behind: neighbours and what
// a saddle joins name other features, a source file is a name of the user's.
constexpr std::string_view kMayLeave[] = {
    "max_depth_m", "top_depth_m", "base_depth_m", "depth_m",        "mean_depth_m", "sill_depth_m", "contour_m",
    "relief_m",    "grade_pct",   "faces_deg",    "edge",           "density",      "length_m",     "width_m",
    "mouth_m",     "edge_m",      "area_m2",      "volume_m3",      "fetch_m",      "closure",      "from",
    "to",          "active",      "attribute",    "usable_above_m", "dry"};

// A name from a user's layer of wood or docks may be a secret; those of the lake's forms are ours or public.
bool keeps_name(Kind kind) {
  return kind != Kind::wood && kind != Kind::rock && kind != Kind::dock && kind != Kind::inflow;
}

PublicFeature public_feature(const Json& feature, Kind kind) {
  const Json& known = feature["properties"];
  PublicFeature out{kind,
                    text_in(known, "id"),
                    keeps_name(kind) ? one_line(text_in(known, "name")) : "",
                    {},
                    degrees_of(feature["geometry"]),
                    feature["geometry"].dump()};
  for (const std::string_view key : kMayLeave) {
    const auto found = known.find(key);
    if (found == known.end() || found->is_null()) continue;
    PublicFeature::Value value{std::string(key), std::nullopt, {}};
    if (found->is_number()) {
      value.number = found->get<double>();
    } else {
      value.text =
          found->is_boolean() ? (found->get<bool>() ? "yes" : "no") : one_line(text_in(known, value.key.c_str()));
    }
    out.values.push_back(std::move(value));
  }
  return out;
}

void take_features(const Scouted& scouted, bool exact, PublicLake& lake) {
  for (const KindRow& row : kinds()) {
    int counted = 0;
    for (const Json& feature : scouted.features["features"]) {
      if (kind_of(feature) != row.kind) continue;
      const Leaves how = leaves(feature, exact);
      if (how == Leaves::shape) lake.features.push_back(public_feature(feature, row.kind));
      if (how == Leaves::count) ++counted;
    }
    if (counted > 0) lake.counted.emplace_back(row.kind, counted);
  }
}

void take_depths(const Scouted& scouted, PublicLake& lake) {
  for (const Json& line : scouted.contours["features"]) {
    const Geometry shape = degrees_of(line["geometry"]);
    const std::string kind = text_in(line["properties"], "kind");
    const double depth = line["properties"].at("depth_m").get<double>();
    const std::string geometry = line["geometry"].dump();
    if (const auto* polygons = std::get_if<Polygons>(&shape)) {
      if (kind == "shoreline") lake.outline = *polygons;
      if (kind == "shoreline") lake.outline_geometry = geometry;
      if (kind == "depth-area") lake.depth_areas.push_back({depth, *polygons, geometry});
    } else if (const auto* lines = std::get_if<Lines>(&shape)) {
      lake.contours.push_back({depth, *lines, geometry});
    }
  }
  if (lake.outline.empty()) {
    throw InputError(
        fmt::format("{}/contours.geojson: holds no shoreline; run `castplan scout` again", scouted.folder));
  }
}

// The middle of the box about the lake; across 180 degrees longitudes are counted on.
LonLat middle_of(const Polygons& outline) {
  double west = 360.0, east = -360.0, low = 90.0, high = -90.0;
  bool across = false;
  const double first = outline.front().outer.front().x;
  for (int pass = 0; pass < 2; ++pass) {
    west = 360.0, east = -360.0;
    for (const XY at : vertices(outline)) {
      across = across || std::abs(at.x - first) > 180.0;
      const double x = across && at.x < 0.0 ? at.x + 360.0 : at.x;
      west = std::min(west, x), east = std::max(east, x);
      low = std::min(low, at.y), high = std::max(high, at.y);
    }
  }
  const double middle = (west + east) / 2.0;
  return {Longitude{middle >= 180.0 ? middle - 360.0 : middle}, Latitude{(low + high) / 2.0}};
}

const Profile* profile_of(const Scouted& scouted) {
  const std::string name = text_in(scouted.summary["conditions"], "species");
  const auto names = species_names();
  return std::find(names.begin(), names.end(), name) == names.end() ? nullptr : &species(name);
}

void take_season(const Scouted& scouted, PublicLake& lake) {
  const Json& conditions = scouted.summary["conditions"];
  const Profile* profile = profile_of(scouted);
  lake.date = text_in(conditions, "date");
  lake.species = profile ? profile->title : one_line(text_in(conditions, "species"));
  lake.temperatures = one_line(text_in(scouted.summary, "temperatures"));
  lake.level = text_in(scouted.summary["advisory"], "level");
  lake.reasons = texts_in(scouted.summary["advisory"], "reasons");
  const bool told = std::any_of(lake.reasons.begin(), lake.reasons.end(), [](const std::string& reason) {
    return reason.find("ook again") != std::string::npos;
  });
  for (const std::string& name : texts_in(conditions, "phases")) {
    const Phase* phase = profile ? phase_named(*profile, name) : nullptr;
    lake.phases.push_back(phase ? phase->title : one_line(name));
    if (lake.stopped() && !told && phase && !phase->look_again.empty()) {
      lake.reasons.push_back("Look again: " + phase->look_again);
    }
  }
  for (const std::string& caution : texts_in(scouted.summary, "cautions")) {
    const bool apart = caution.starts_with("Rules as the user noted them: ") || caution.starts_with("Stop: ");
    const bool said = std::find(lake.reasons.begin(), lake.reasons.end(), caution) != lake.reasons.end();
    if (!apart && !said) lake.cautions.push_back(caution);
  }
}

}  // namespace

int PublicLake::spots() const {
  int sum = 0;
  for (const CoarseArea& area : areas) sum += area.spots();
  return sum;
}

std::vector<std::string> spawning_words(const Scouted& scouted) {
  std::vector<std::string> out;
  const auto add = [&](const std::string& who, const std::string& deep, const std::string& when) {
    const std::string text = fmt::format(
        "Sheltered bays and shallows{} may be spawning ground of {}: leave them alone in {}. They are drawn on no map "
        "here.",
        deep, who, when);
    if (std::find(out.begin(), out.end(), text) == out.end()) out.push_back(text);
  };
  const auto title = [](const std::string& name) {
    const auto names = species_names();
    return std::find(names.begin(), names.end(), name) == names.end() ? one_line(name) : species(name).title;
  };
  const auto to_depth = [](const std::string& name) -> std::string {
    const auto names = species_names();
    if (std::find(names.begin(), names.end(), name) == names.end() || !species(name).spawning) return {};
    const Metres depth = species(name).spawning->habitat.depth.most;
    return fmt::format(" under {} ({})", length_text(depth, Units::metric), length_text(depth, Units::imperial));
  };
  for (const Json& feature : scouted.features["features"]) {
    if (kind_of(feature) != Kind::spawning_ground) continue;
    const std::string name = text_in(feature["properties"], "species");
    const std::string when = one_line(text_in(feature["properties"], "no_spots_in"));
    if (!when.empty()) add(title(name), to_depth(name), when);
  }
  const Profile* profile = profile_of(scouted);
  if (out.empty() && profile && profile->spawning) {
    add(profile->title, to_depth(profile->name), closed_ground_text(*profile));
  }
  return out;
}

PublicLake public_lake(const Scouted& scouted, const WorldGrid& grid, bool exact) {
  const Json& summary = scouted.summary;
  PublicLake lake;
  lake.name = one_line(text_in(summary["lake"], "name"));
  lake.area_m2 = number_in(summary["lake"], "area_m2").value();
  lake.max_depth_m = number_in(summary["lake"], "max_depth_m");
  lake.mean_depth_m = number_in(summary["lake"], "mean_depth_m");
  lake.shoreline_m = number_in(summary["lake"], "shoreline_m");
  lake.small = lake.area_m2 < kLeastLake.value();
  take_season(scouted, lake);
  lake.surface = one_line(text_in(summary, "surface"));
  lake.source = one_line(text_in(summary, "source"));
  lake.licence = one_line(text_in(summary, "licence"));
  lake.surveyed = one_line(text_in(summary, "surveyed"));
  if (const auto rules = summary.find("rules"); rules != summary.end() && rules->is_object()) {
    lake.rules = one_line(text_in(*rules, "text"));
    lake.rules_source = one_line(text_in(*rules, "source"));
    lake.rules_checked = one_line(text_in(*rules, "checked"));
  }
  for (const std::string& layer : texts_in(summary, "not_assessed")) {
    if (layer != "cover") lake.not_assessed.push_back(layer);  // not even that there is some
  }
  lake.leave_alone = spawning_words(scouted);
  take_depths(scouted, lake);
  lake.centre = middle_of(lake.outline);
  take_features(scouted, exact, lake);
  if (!exact && !lake.small && !scouted.stopped()) lake.areas = coarse_areas(scouted.spots, lake.outline, grid);
  return lake;
}

}  // namespace castplan
