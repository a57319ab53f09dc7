// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/soundings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

#include "io/gdal.hpp"
#include "io/number_text.hpp"
#include "io/sounding_readers.hpp"

namespace castplan {
namespace {

constexpr auto kTables = std::to_array<std::string_view>({".csv", ".tsv", ".txt", ".xyz", ".dat"});

bool is_table(const std::string& path) {
  const std::string ending = lower(std::filesystem::path(path).extension().string());
  return !is_gdal_name(path) && std::find(kTables.begin(), kTables.end(), ending) != kTables.end();
}

bool is_gpx(const std::string& path) {
  return !is_gdal_name(path) && lower(std::filesystem::path(path).extension().string()) == ".gpx";
}

/// Options that this kind of file has no use for are not dropped in silence.
void note_unused(const SoundingOptions& options, const std::string& shown, DepthSource& source) {
  std::string unused;
  const auto add = [&](bool given, const char* name) {
    if (given) unused += (unused.empty() ? "" : ", ") + std::string(name);
  };
  const bool table = is_table(options.path);
  const bool gpx = is_gpx(options.path);
  add((table || gpx) && !options.layer.empty(), "layer");
  add(gpx && !options.crs.empty(), "crs");
  add(gpx && !options.field.empty(), "field");
  add(!table && !(options.columns.x + options.columns.y + options.columns.track).empty(), "columns");
  add(!table && options.separator != 0, "separator");
  add(!table && options.decimal != 0, "decimal");
  if (!unused.empty()) source.notes.push_back(fmt::format("{}: not used for such a file: {}", shown, unused));
}

SoundingsRead read_any(const SoundingOptions& options, const Projection& target, Numbers numbers,
                       const std::string& shown) {
  if (is_table(options.path)) return read_table(options, target, numbers, shown);
  return is_gpx(options.path) ? read_gpx(options, target, numbers, shown) : read_layer(options, target, numbers, shown);
}

}  // namespace

bool is_read_as_text(const std::string& path) { return is_table(path) || is_gpx(path); }

SoundingsRead read_soundings(const SoundingOptions& options, const Projection& target, int file, int first_track) {
  const std::string shown = options.shown.empty() ? file_name(options.path) : options.shown;
  SoundingsRead out = read_any(options, target, {file, first_track}, shown);
  note_unused(options, shown, out.source);
  return out;
}

}  // namespace castplan
