// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/series_limits.hpp"

#include <algorithm>
#include <array>

namespace castplan {
namespace {

constexpr std::array kWaterColumns{SeriesColumn{"temp_c", "degrees Celsius of water", kWaterRange}};
constexpr std::array kAirColumns{SeriesColumn{"temp_c", "degrees Celsius of air", kAirRange}};
constexpr std::array kProfileColumns{SeriesColumn{"depth_m", "metres below the surface", kProfileDepth},
                                     SeriesColumn{"temp_c", "degrees Celsius of water", kWaterRange},
                                     SeriesColumn{"oxygen_mg_l", "milligrams a litre", kOxygenRange, true}};
constexpr std::array kWindColumns{SeriesColumn{"speed_mps", "metres a second", kSpeedRange},
                                  SeriesColumn{"gust_mps", "metres a second", kSpeedRange, true},
                                  SeriesColumn{"from_deg", "degrees clockwise from true north", kFromRange}};
constexpr std::array kTables{SeriesTable{SeriesKind::water, "date", false, true, false, kWaterColumns},
                             SeriesTable{SeriesKind::air, "date", false, true, false, kAirColumns},
                             SeriesTable{SeriesKind::profile, "date", false, false, false, kProfileColumns},
                             SeriesTable{SeriesKind::wind, "time", true, true, true, kWindColumns}};

}  // namespace

const SeriesTable& series_table(SeriesKind kind) {
  return *std::find_if(kTables.begin(), kTables.end(), [kind](const SeriesTable& table) { return table.kind == kind; });
}

}  // namespace castplan
