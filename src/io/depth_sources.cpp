// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/depth_sources.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "io/gdal.hpp"
#include "io/lake_level.hpp"

namespace castplan {
namespace {

constexpr std::array<std::string_view, 3> kSenses = {"depth", "height", "elevation"};
constexpr std::array<std::string_view, 4> kSeparators = {"comma", "semicolon", "tab", "spaces"};
constexpr std::array<std::string_view, 2> kDecimals = {"point", "comma"};

/// What an entry has from [depth] where it says nothing itself.
struct Defaults {
  std::optional<DepthUnit> unit;
  std::optional<Sense> sense;
  std::string crs;
};

/// level = "1021.4 ft", the water's surface when this file was surveyed; or level = { offset = "-0.3 m" }, that surface
/// above (below: negative) the one that all depths are reduced to.
void read_own_level(TomlTable& table, DepthSourceOptions& out) {
  const toml::node* level = table.raw("level");
  if (level == nullptr) return;
  if (!level->is_table()) {
    out.surface = table.length("level");
    return;
  }
  table.table("level", [&](TomlTable& inner) {
    out.surface = inner.length("survey");
    const auto offset = inner.length("offset");
    if (out.surface.has_value() == offset.has_value()) {
      inner.fail(out.surface ? "offset" : "survey",
                 "expected one of the two: survey = \"312.4 m\" (the water's surface when surveyed), or offset = "
                 "\"-0.3 m\" (how far it stood above the surface that all depths are reduced to)");
    }
    if (offset) out.level_offset = -*offset;
  });
}

void read_source(TomlTable& table, const Folder& folder, const Defaults& defaults, DepthSourceOptions& out) {
  const std::string file = table.text("file");
  if (file.empty()) table.fail("file", "is missing; expected the file's name, as in file = \"run1.csv\"");
  out.path = folder.at(file);
  out.shown = file_name(file);
  out.layer = table.text("layer");
  out.field = table.text("field");
  out.crs = table.text("crs");
  if (out.crs.empty()) out.crs = defaults.crs;
  out.unit = read_unit(table);
  if (!out.unit) out.unit = defaults.unit;
  out.sense = read_sense(table);
  if (!out.sense) out.sense = defaults.sense;
  read_own_level(table, out);
}

/// A column by its name, or by its number from 1.
std::string column(TomlTable& table, std::string_view key) {
  const toml::node* node = table.raw(key);
  if (node == nullptr || !node->is_integer()) return table.text(key);
  const auto number = table.whole(key);
  if (*number < 1) table.fail(key, fmt::format("found {}, expected a column's name, or its number from 1", *number));
  return fmt::format("{}", *number);
}

void read_table_layout(TomlTable& table, SoundingOptions& out) {
  table.table("columns", [&](TomlTable& columns) {
    out.columns = {column(columns, "x"), column(columns, "y"), column(columns, "depth"), column(columns, "track")};
  });
  const std::string separator = table.text("separator");
  const auto named = std::find(kSeparators.begin(), kSeparators.end(), separator);
  if (separator.size() == 1) {
    out.separator = separator.front();
  } else if (named != kSeparators.end()) {
    out.separator = ",;\t "[named - kSeparators.begin()];
  } else if (!separator.empty()) {
    table.fail("separator",
               fmt::format("found \"{}\", expected one character, or one of {}", separator, listed(kSeparators)));
  }
  const std::string decimal = table.text("decimal");
  if (decimal == "," || decimal == ".") {
    out.decimal = decimal.front();
  } else if (!decimal.empty()) {
    out.decimal = table.choice("decimal", kDecimals) == "comma" ? ',' : '.';
  }
  if (out.separator == ',' && out.decimal == ',') {
    table.fail("decimal", "is the comma that parts the columns too; one of the two must be another");
  }
}

void read_one_soundings(TomlTable& table, const Folder& folder, const Defaults& defaults, LakeFile& out) {
  SoundingOptions one;
  read_source(table, folder, defaults, one);
  read_table_layout(table, one);
  if (!one.field.empty() && !one.columns.depth.empty() && one.field != one.columns.depth) {
    table.fail("field", "names another depth than columns.depth; give one of them");
  }
  if (const auto below = table.length("transducer")) one.transducer = *below;
  if (!(one.transducer.value() >= 0)) {
    table.fail("transducer", "is negative; expected how deep below the surface the instrument measured from");
  }
  out.soundings.push_back(std::move(one));
}

void check_beside_raster(TomlTable& depth, const LakeFile& out) {
  const bool points = !out.soundings.empty() || !out.contours.empty();
  if (points && !out.raster.path.empty()) {
    depth.fail("raster", "stands beside soundings or contours; expected one of the two");
  }
  for (const std::string_view key : {"band", "nodata"}) {
    if (points && depth.has(key)) depth.fail(key, "belongs to a raster, but depths come from soundings or contours");
  }
  if (out.cell && !points) {
    depth.fail("cell",
               "is the cell of a depth grid made from soundings or contours, but there are none; a raster has "
               "its own cells");
  }
}

/// Levels given in feet and in metres agree when they are this close.
bool differ(Metres a, Metres b) { return std::fabs((a - b).value()) > 0.005; }

/// All sources of the file, soundings first.
std::vector<DepthSourceOptions*> sources_of(LakeFile& file) {
  std::vector<DepthSourceOptions*> out;
  for (auto& one : file.soundings) out.push_back(&one);
  for (auto& one : file.contours) out.push_back(&one);
  return out;
}

}  // namespace

std::string Folder::at(const std::string& written) const {
  if (written.empty() || is_gdal_name(written) || std::filesystem::path(written).is_absolute()) return written;
  return (folder_ / written).string();
}

std::optional<DepthUnit> read_unit(TomlTable& table) {
  const std::string unit = table.text("unit");
  if (unit.empty()) return std::nullopt;
  try {
    return parse_depth_unit(unit);
  } catch (const InputError& error) {
    table.fail("unit", error.what());
  }
}

std::optional<Sense> read_sense(TomlTable& table) {
  const std::string name = table.choice("sense", kSenses);
  if (name.empty()) return std::nullopt;
  if (name == "height") return Sense::height;
  return name == "elevation" ? Sense::elevation : Sense::depth;
}

void read_depth_sources(TomlTable& depth, const Folder& folder, std::optional<Sense> sense, LakeFile& out) {
  const Defaults defaults{out.raster.unit, sense, out.raster.crs};
  depth.tables("soundings", [&](TomlTable& table) { read_one_soundings(table, folder, defaults, out); });
  depth.tables("contours", [&](TomlTable& table) {
    ContourOptions one;
    read_source(table, folder, defaults, one);
    out.contours.push_back(std::move(one));
  });
  out.cell = depth.length("cell");
  if (out.cell && !(out.cell->value() > 0)) depth.fail("cell", "expected more than 0");
  check_beside_raster(depth, out);
}

std::optional<Metres> common_source_level(const LakeFile& file) {
  std::optional<Metres> common;
  LakeFile copy = file;
  for (const DepthSourceOptions* one : sources_of(copy)) {
    if (!one->surface) continue;
    if (common && differ(*common, *one->surface)) return std::nullopt;
    common = one->surface;
  }
  return common;
}

void settle_source_levels(LakeFile& file, const std::function<void(std::string_view, const std::string&)>& fail) {
  const auto sources = sources_of(file);
  std::optional<Metres> reference = file.raster.survey_surface ? file.raster.survey_surface : file.raster.surface;
  for (const DepthSourceOptions* one : sources) {
    if (!one->surface) continue;
    if (!reference) reference = one->surface;
    if (differ(*one->surface, *reference) && !file.raster.survey_surface && !file.raster.surface) {
      fail("depth", fmt::format("has files surveyed at different levels ({:.2f} m and {:.2f} m); say which surface "
                                "depths are to be reduced to: survey = \"... m\" under [level]",
                                reference->value(), one->surface->value()));
    }
  }
  for (DepthSourceOptions* one : sources) {
    if (one->surface) one->level_offset = *reference - *one->surface;
    one->surface = reference;
  }
  if (sources.empty() || file.raster.survey_surface || !reference) return;
  file.raster.survey_surface = reference;
  if (!file.raster.surface) file.raster.surface = *reference + file.raster.level_offset;
}

}  // namespace castplan
