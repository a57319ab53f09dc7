// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "io/csv_table.hpp"
#include "io/gdal.hpp"
#include "io/iso_date.hpp"
#include "io/layers.hpp"

namespace castplan {

void load_plants(const LakeFile& file, LoadedLake& out) {
  if (file.conditions.plants.empty()) return;
  const CsvTable table(file.conditions.plants, file_name(file.conditions.plants));
  table.need("depth_m");
  const bool by_cover = !table.has("present");
  if (by_cover) table.need("cover_pct");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double depth = table.number(row, "depth_m");
    if (depth < 0) table.fail(row, "depth_m", "metres below the surface, 0 or more");
    const double value = table.number(row, by_cover ? "cover_pct" : "present");
    if (by_cover && !(value >= 0 && value <= 100)) table.fail(row, "cover_pct", "0 to 100");
    if (!by_cover && value != 0 && value != 1) table.fail(row, "present", "0 or 1");
    out.plants.push_back({Metres(depth) + file.raster.level_offset, value > 0});
  }
}

void load_water_temps(const LakeFile& file, LoadedLake& out) {
  if (file.conditions.water_temps.empty()) return;
  const CsvTable table(file.conditions.water_temps, file_name(file.conditions.water_temps));
  table.need("date");
  table.need("temp_c");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string date = table.text(row, "date");
    if (!is_iso_date(date)) table.fail(row, "date", "a date, as in 2026-06-10");
    const double celsius = table.number(row, "temp_c");
    if (!(celsius >= -2 && celsius <= 45)) table.fail(row, "temp_c", "degrees Celsius of water, -2 to 45");
    out.water_temps.push_back({date, Celsius(celsius)});
  }
  std::stable_sort(out.water_temps.begin(), out.water_temps.end(),
                   [](const DatedTemperature& a, const DatedTemperature& b) { return a.date < b.date; });
}

}  // namespace castplan
