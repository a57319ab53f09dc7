// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "castplan/geo/coordinate.hpp"
#include "io/csv_table.hpp"
#include "io/gdal.hpp"
#include "io/iso_date.hpp"
#include "io/layers.hpp"
#include "io/series_limits.hpp"

namespace castplan {
namespace {

std::string date_of(const CsvTable& table, std::size_t row) {
  std::string date = table.text(row, "date");
  if (!is_iso_date(date)) table.fail(row, "date", "a date, as in 2026-06-10");
  return date;
}

// date, temp_c
std::vector<DatedTemperature> dated_temperatures(const std::string& path, Range range, std::string_view of_what) {
  std::vector<DatedTemperature> out;
  if (path.empty()) return out;
  const CsvTable table(path, file_name(path));
  table.need("date");
  table.need("temp_c");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string date = date_of(table, row);
    const double celsius = table.number(row, "temp_c");
    if (!range.holds(celsius)) {
      table.fail(row, "temp_c", fmt::format("degrees Celsius of {}, {:g} to {:g}", of_what, range.least, range.most));
    }
    out.push_back({date, Celsius(celsius)});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const DatedTemperature& a, const DatedTemperature& b) { return a.date < b.date; });
  return out;
}

double within(const CsvTable& table, std::size_t row, std::string_view column, Range range, const std::string& what) {
  const double value = table.number(row, column);
  if (!range.holds(value)) table.fail(row, column, what);
  return value;
}

ProfileReading profile_level(const CsvTable& table, std::size_t row) {
  ProfileReading level;
  level.date = date_of(table, row);
  level.depth = Metres(within(table, row, "depth_m", kProfileDepth, "metres below the surface, 0 or more"));
  const double celsius = table.number(row, "temp_c");
  if (!kWaterRange.holds(celsius)) table.fail(row, "temp_c", "degrees Celsius of water, -2 to 45");
  level.temperature = Celsius(celsius);
  if (!table.text(row, "oxygen_mg_l").empty()) {
    level.oxygen_mg_l = within(table, row, "oxygen_mg_l", kOxygenRange, "milligrams a litre, 0 to 40, or nothing");
  }
  return level;
}

WindReading wind_hour(const CsvTable& table, std::size_t row) {
  WindReading hour;
  const auto time = utc_moment(table.text(row, "time"));
  if (!time) table.fail(row, "time", "a time of UTC, as in 2026-06-10T07:00Z");
  hour.time = *time;
  const std::string speed_words = "metres a second, 0 to 75";
  hour.wind.speed = MetresPerSecond(within(table, row, "speed_mps", kSpeedRange, speed_words));
  hour.wind.gust = hour.wind.speed;
  if (!table.text(row, "gust_mps").empty()) {
    const MetresPerSecond gust(within(table, row, "gust_mps", kSpeedRange, speed_words + ", or nothing"));
    hour.wind.gust = std::max(gust, hour.wind.speed);
  }
  const double from = within(table, row, "from_deg", kFromRange, "degrees clockwise from true north, 0 to 360");
  hour.wind.from = wrap_bearing(Degrees(from));
  return hour;
}

}  // namespace

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
  out.water_temps = dated_temperatures(file.conditions.water_temps, kWaterRange, "water");
}

void load_air_temps(const LakeFile& file, LoadedLake& out) {
  out.air_temps = dated_temperatures(file.conditions.air_temps, kAirRange, "air");
}

void load_profile(const LakeFile& file, LoadedLake& out) {
  if (file.conditions.profile.empty()) return;
  const CsvTable table(file.conditions.profile, file_name(file.conditions.profile));
  for (const char* column : {"date", "depth_m", "temp_c"}) table.need(column);
  std::set<std::pair<std::string, double>> seen;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const ProfileReading level = profile_level(table, row);
    if (!seen.insert({level.date, level.depth.value()}).second) {
      table.fail(row, "depth_m",
                 fmt::format("each depth once a date; {} has it already (one place a profile)", level.date));
    }
    out.profile.push_back(level);
  }
  std::sort(out.profile.begin(), out.profile.end(), [](const ProfileReading& a, const ProfileReading& b) {
    return std::tie(a.date, a.depth) < std::tie(b.date, b.depth);
  });
}

void load_wind(const LakeFile& file, LoadedLake& out) {
  if (file.conditions.wind.empty()) return;
  const CsvTable table(file.conditions.wind, file_name(file.conditions.wind));
  for (const char* column : {"time", "speed_mps", "from_deg"}) table.need(column);
  std::set<std::chrono::sys_seconds> seen;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const WindReading hour = wind_hour(table, row);
    if (!seen.insert(hour.time).second) table.fail(row, "time", "each time once");
    out.wind.push_back(hour);
  }
  std::sort(out.wind.begin(), out.wind.end(),
            [](const WindReading& a, const WindReading& b) { return a.time < b.time; });
}

}  // namespace castplan
