// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/inspect.hpp"

#include <fmt/format.h>
#include <gdal.h>

#include <algorithm>
#include <cctype>
#include <filesystem>

#include "castplan/geo/error.hpp"
#include "castplan/io/lake_file.hpp"
#include "io/gdal.hpp"
#include "io/inspect_parts.hpp"

namespace castplan {
namespace {

bool is_table(const std::string& path) {
  std::string ending = std::filesystem::path(path).extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending == ".csv" || ending == ".gpx" || ending == ".xyz" || ending == ".txt";
}

/// A GeoPackage may hold either; rasters first, as depths are what is looked for.
bool is_vector(const std::string& path) {
  const GdalMessages quiet;
  const Dataset raster(GDALOpenEx(path.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, nullptr, nullptr, nullptr));
  if (raster && (GDALGetRasterCount(raster.get()) > 0 || GDALGetMetadata(raster.get(), "SUBDATASETS") != nullptr)) {
    return false;
  }
  const Dataset vector(GDALOpenEx(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, nullptr, nullptr, nullptr));
  return vector != nullptr;
}

bool is_anything(const std::string&) { return true; }

}  // namespace

std::span<const InspectKind> inspect_kinds() {
  static constexpr InspectKind kKinds[] = {
      {"lake-file", is_lake_file, inspect_lake_file},
      {"table", is_table, inspect_table_file},
      {"vector", is_vector, inspect_vector_file},
      {"raster", is_anything, inspect_raster_file},
  };
  return kKinds;
}

Inspection inspect(const InspectOptions& options) {
  std::error_code ignored;
  if (!is_gdal_name(options.path) && !std::filesystem::exists(options.path, ignored)) {
    throw InputError(fmt::format("{}: no such file; check the name and the folder", options.path));
  }
  Inspection out;
  for (const InspectKind& kind : inspect_kinds()) {
    if (!kind.is(options.path)) continue;
    kind.look(options, out);
    break;
  }
  std::stable_sort(out.findings.begin(), out.findings.end(),
                   [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
  return out;
}

}  // namespace castplan
