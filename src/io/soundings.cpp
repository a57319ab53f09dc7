// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/soundings.hpp"

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

}  // namespace

bool is_read_as_text(const std::string& path) { return is_table(path) || is_gpx(path); }

SoundingsRead read_soundings(const SoundingOptions& options, const Projection& target, int file, int first_track) {
  const std::string shown = options.shown.empty() ? file_name(options.path) : options.shown;
  const Numbers numbers{file, first_track};
  if (is_table(options.path)) return read_table(options, target, numbers, shown);
  return is_gpx(options.path) ? read_gpx(options, target, numbers, shown) : read_layer(options, target, numbers, shown);
}

}  // namespace castplan
