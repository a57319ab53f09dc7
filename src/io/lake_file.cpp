// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/lake_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <filesystem>

#include "castplan/geo/error.hpp"
#include "io/depth_sources.hpp"
#include "io/gdal.hpp"
#include "io/lake_level.hpp"
#include "io/toml_table.hpp"

namespace castplan {
namespace {

constexpr std::array<std::string_view, 7> kStructure = {"wood", "rock", "weeds", "dock", "inflow", "cover", "hazard"};
constexpr std::array<std::string_view, 3> kWaters = {"lake", "reservoir", "river"};
constexpr std::array<std::string_view, 4> kClosures = {"no-entry", "no-fishing", "no-wake", "electric-only"};
constexpr std::array<std::string_view, 3> kBoats = {"motor", "canoe", "kayak"};
constexpr std::array<std::string_view, 3> kTakenAt = {"main", "bay", "ramp"};

std::optional<VectorOptions> vector_file(TomlTable& table, const Folder& folder) {
  VectorOptions out{folder.at(table.text("file")), table.text("layer"), table.text("crs")};
  if (out.path.empty()) return std::nullopt;
  return out;
}

VectorOptions needed_file(TomlTable& table, const Folder& folder) {
  const auto file = vector_file(table, folder);
  if (!file) table.fail("file", "is missing; expected the layer's file, as in file = \"shore.shp\"");
  return *file;
}

void read_depth(TomlTable& table, const Folder& folder, LakeFile& out) {
  const std::string raster = table.text("raster");
  out.raster.path = folder.at(raster);
  if (!raster.empty()) out.raster.shown = file_name(raster);
  if (const auto band = table.whole("band")) {
    if (*band < 1 || *band > 65536) table.fail("band", fmt::format("found {}, expected 1 or more", *band));
    out.raster.band = static_cast<int>(*band);
  }
  out.raster.nodata = table.number("nodata");
  out.raster.unit = read_unit(table);
  const auto sense = read_sense(table);
  out.raster.sense = sense.value_or(Sense::depth);
  out.raster.surface = table.length("surface");
  out.raster.crs = table.text("crs");
  out.source = table.text("source");
  out.licence = table.text("licence");
  out.surveyed = table.year_or_date("surveyed");
  out.depth_error = table.length("error");
  if (out.depth_error && !(out.depth_error->value() >= 0)) {
    table.fail("error", "is negative; expected the standard error of the depths");
  }
  read_depth_sources(table, folder, sense, out);
  if (raster.empty() && out.soundings.empty() && out.contours.empty()) {
    table.fail("raster",
               "is missing; expected a depth raster, raster = \"depth.tif\", or what to make one from: "
               "[[depth.soundings]] or [[depth.contours]] with file");
  }
}

void read_structure(TomlTable& table, const Folder& folder, LakeFile& out) {
  LakeFile::Structure one;
  one.file = needed_file(table, folder);
  one.kind = table.choice("kind", kStructure);
  one.attribute = table.text("attribute");
  table.table("map", [&](TomlTable& map) {
    for (const std::string& value : map.keys()) one.map[value] = map.choice(value, kStructure);
  });
  if (one.kind.empty() && (one.attribute.empty() || one.map.empty())) {
    table.fail("kind", fmt::format("is missing; expected one of {}, or attribute = \"FIELD\" with map = {{ VALUE = "
                                   "\"wood\" }}",
                                   listed(kStructure)));
  }
  if (!one.kind.empty() && !one.map.empty()) {
    table.fail("map", "stands beside kind; expected one of the two: kind for a whole layer, or attribute and map");
  }
  out.structure.push_back(std::move(one));
}

LonLat lonlat(TomlTable& table, std::string_view key, const toml::node& node) {
  const toml::array* pair = node.as_array();
  std::array<std::optional<double>, 2> at;
  if (pair != nullptr && pair->size() == 2) at = {pair->get(0)->value<double>(), pair->get(1)->value<double>()};
  if (!at[0] || !at[1]) table.fail(key, "expected [longitude, latitude], as in [-40.0123, 45.5123]");
  if (!(std::fabs(*at[0]) <= 180) || !(std::fabs(*at[1]) <= 90)) {
    table.fail(key, fmt::format("[{}, {}] is no place on the earth; expected [longitude, latitude] in degrees", *at[0],
                                *at[1]));
  }
  return {Longitude{*at[0]}, Latitude{*at[1]}};
}

void read_launch(TomlTable& table, const Folder& folder, LakeFile& out) {
  LakeFile::Launch one;
  one.name = table.text("name");
  if (const toml::node* at = table.raw("at")) one.at = lonlat(table, "at", *at);
  one.file = vector_file(table, folder);
  one.usable_above = table.length("usable_above");
  if (one.at.has_value() == one.file.has_value()) {
    table.fail("at", "expected one of the two: at = [longitude, latitude], or file = \"ramps.shp\"");
  }
  out.launches.push_back(std::move(one));
}

void read_closure(TomlTable& table, const Folder& folder, LakeFile& out) {
  LakeFile::Closure one;
  one.file = needed_file(table, folder);
  one.kind = table.choice("kind", kClosures);
  one.name = table.text("name");
  one.buffer = table.length("buffer");
  one.from = table.season_day("from");
  one.to = table.season_day("to");
  if (one.kind.empty()) table.fail("kind", fmt::format("is missing; expected one of {}", listed(kClosures)));
  if (one.from.empty() != one.to.empty()) table.fail(one.from.empty() ? "from" : "to", "is missing beside the other");
  if (one.buffer && !(one.buffer->value() >= 0)) table.fail("buffer", "is negative; expected a distance");
  out.closures.push_back(std::move(one));
}

void read_rules(TomlTable& table, LakeFile& out) {
  out.rules.text = table.text("text");
  out.rules.source = table.text("source");
  out.rules.checked = table.date("checked");
  const toml::node* open = table.raw("open");
  if (open == nullptr) return;
  const std::string expected = "expected pairs of days, as in open = [[\"05-25\", \"11-30\"]]";
  const toml::array* pairs = open->as_array();
  if (pairs == nullptr) table.fail("open", expected);
  for (const toml::node& item : *pairs) {
    const toml::array* pair = item.as_array();
    if (pair == nullptr || pair->size() != 2 || !pair->get(0)->is_string() || !pair->get(1)->is_string()) {
      table.fail("open", expected);
    }
    out.rules.open.emplace_back(table.checked_day(pair->get(0)->ref<std::string>(), "open"),
                                table.checked_day(pair->get(1)->ref<std::string>(), "open"));
  }
}

void read_boat(TomlTable& table, LakeFile& out) {
  const std::string type = table.choice("type", kBoats);
  if (!type.empty()) out.boat.type = type;
  if (const auto draft = table.length("draft")) out.boat.draft = *draft;
  if (!(out.boat.draft.value() >= 0)) table.fail("draft", "is negative; expected what the boat draws");
}

void read_conditions(TomlTable& table, const Folder& folder, LakeFile& out) {
  LakeFile::Conditions& to = out.conditions;
  to.secchi = table.length("secchi");
  to.weed_depth = table.length("weed_depth");
  to.plants = folder.at(table.text("plants"));
  to.water_temp = table.temperature("water_temp");
  const std::string at = table.choice("water_temp_at", kTakenAt);
  if (!at.empty()) to.water_temp_at = at;
  to.water_temp_taken = table.moment("water_temp_taken");
  to.water_temps = folder.at(table.text("water_temps"));
  to.air_temps = folder.at(table.text("air_temps"));
  to.profile = folder.at(table.text("profile"));
  to.wind = folder.at(table.text("wind"));
  to.forage = table.texts("forage");
  for (const auto& [key, value] : {std::pair{"secchi", to.secchi}, std::pair{"weed_depth", to.weed_depth}}) {
    if (value && !(value->value() > 0)) table.fail(key, "expected more than 0");
  }
}

void read_level(TomlTable& table, LakeFile& out) {
  out.level = {table.length("survey"), table.length("today"), table.length("offset"), table.length("yearly_range")};
  if (!out.level.survey && !out.raster.surface) out.level.survey = common_source_level(out);
  settle_level(out, [&](std::string_view key, const std::string& what) { table.fail(key, what); });
}

LakeFile read_all(TomlTable& root, const std::string& path) {
  const Folder folder(path);
  LakeFile out;
  out.path = path;
  out.name = root.text("name");
  const std::string water = root.choice("water", kWaters);
  if (!water.empty()) out.water = water;
  out.time_zone = root.text("time_zone");
  out.holds = root.texts("holds");
  root.table("depth", [&](TomlTable& table) { read_depth(table, folder, out); });
  root.table("level", [&](TomlTable& table) { read_level(table, out); });
  root.table("shoreline", [&](TomlTable& table) { out.shoreline = needed_file(table, folder); });
  root.tables("structure", [&](TomlTable& table) { read_structure(table, folder, out); });
  root.tables("launch", [&](TomlTable& table) { read_launch(table, folder, out); });
  root.tables("closure", [&](TomlTable& table) { read_closure(table, folder, out); });
  root.table("rules", [&](TomlTable& table) { read_rules(table, out); });
  root.table("boat", [&](TomlTable& table) { read_boat(table, out); });
  root.table("conditions", [&](TomlTable& table) { read_conditions(table, folder, out); });
  root.finish();
  if (out.name.empty()) root.fail("name", "is missing; expected the lake's name: name = \"...\"");
  const bool any_depth = !out.raster.path.empty() || !out.soundings.empty() || !out.contours.empty();
  if (!any_depth) root.fail("depth", "is missing; expected [depth] with raster = \"depth.tif\"");
  settle_source_levels(out, [&](std::string_view key, const std::string& what) { root.fail(key, what); });
  return out;
}

}  // namespace

std::span<const std::string_view> structure_kinds() { return kStructure; }

bool is_lake_file(const std::string& path) {
  std::string ending = std::filesystem::path(path).extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending == ".toml";
}

LakeFile read_lake_file(const std::string& path) {
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(path, ignored)) {
    throw InputError(fmt::format("{}: no such file; expected a lake file (TOML)", path));
  }
  const std::string shown = file_name(path);
  toml::table parsed;
  try {
    parsed = toml::parse_file(path);
  } catch (const toml::parse_error& error) {
    throw InputError(
        fmt::format("{}, line {}: is not TOML here: {}", shown, error.source().begin.line, error.description()));
  }
  TomlTable root(parsed, shown, "");
  return read_all(root, path);
}

}  // namespace castplan
