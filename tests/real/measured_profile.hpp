// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <vector>

#include "castplan/season/layers.hpp"
#include "real/real_lakes.hpp"

namespace castplan::real {

/// Profiles out of a table: by date, then depth; of a depth measured twice the first reading.
struct ProfileColumns {
  std::string date, depth, celsius, oxygen;
};
inline std::map<std::string, std::vector<ProfileReading>> profiles(
    const std::vector<std::map<std::string, std::string>>& rows, const ProfileColumns& columns) {
  std::map<std::string, std::map<double, ProfileReading>> sorted;
  for (const auto& row : rows) {
    const std::string date = row.at(columns.date).substr(0, 10);
    if (row.at(columns.depth).empty() || row.at(columns.celsius).empty()) continue;
    const double depth = std::stod(row.at(columns.depth));
    ProfileReading reading{date, Metres(depth), Celsius(std::stod(row.at(columns.celsius))), std::nullopt};
    if (!columns.oxygen.empty() && !row.at(columns.oxygen).empty()) {
      reading.oxygen_mg_l = std::stod(row.at(columns.oxygen));
    }
    sorted[date].emplace(depth, reading);
  }
  std::map<std::string, std::vector<ProfileReading>> out;
  for (const auto& [date, levels] : sorted) {
    for (const auto& [depth, reading] : levels) out[date].push_back(reading);
  }
  return out;
}

inline std::vector<TemperatureAtDepth> column(const std::vector<ProfileReading>& levels) {
  std::vector<TemperatureAtDepth> out;
  for (const ProfileReading& level : levels) out.push_back({level.depth, level.temperature});
  return out;
}

/// A cone of this area and depth: all that is known of the shape of a lake without a survey.
inline std::vector<AreaAtDepth> cone(double area_m2, double deep) {
  std::vector<AreaAtDepth> out;
  for (int i = 0; i <= 40; ++i) {
    const double share = 1 - i / 40.0;
    out.push_back({Metres(deep * (1 - share)), SquareMetres(area_m2 * share * share)});
  }
  return out;
}

}  // namespace castplan::real
