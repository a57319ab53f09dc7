// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Lake Sunapee, New Hampshire: profiles of the Lake Sunapee Protective Association (ODbL). The raw files are not
// checked by the association.
#include "real/measured_profile.hpp"

using namespace castplan;
using namespace castplan::real;

// Outside: the temperatures themselves, station by station.
TEST_CASE("Lake Sunapee: measured profiles of the deep stations") {
  const auto data = folder("lake-sunapee-nh", {"do_temp_2019.csv"});
  if (!data) return;
  const auto rows = table(*data + "/do_temp_2019.csv");
  std::map<std::string, std::vector<std::map<std::string, std::string>>> stations;
  for (auto row : rows) {
    const std::string key = row.at("Date") + " " + row.at("Site");
    row["visit"] = row.at("Date");
    stations[key].push_back(row);
  }
  int layered = 0;
  for (const auto& [key, visit] : stations) {
    const auto measured = profiles(visit, {"visit", "DEP m",
                                           "\xB0"
                                           "C",
                                           "DO mg/L"});
    if (measured.empty()) continue;
    const auto& levels = measured.begin()->second;
    // a probe let down with a gap of metres in the middle tells no depth
    Metres gap(0);
    for (std::size_t i = 1; i < levels.size(); ++i) gap = std::max(gap, levels[i].depth - levels[i - 1].depth);
    if (levels.size() < 12 || levels.back().depth < Metres(15) || gap > Metres(3)) continue;
    const auto depth = thermocline_in(column(levels), {Step::steepest});
    const auto seasonal = thermocline_in(column(levels));
    note("Lake Sunapee {}: {} levels, {:.1f} to {:.1f} C, steepest step {}, seasonal {}", key, levels.size(),
         levels.front().temperature.value(), levels.back().temperature.value(),
         depth ? fmt::format("{:.2f} m", depth->value()) : "none",
         seasonal ? fmt::format("{:.2f} m", seasonal->value()) : "none");
    if (levels.front().temperature - levels.back().temperature < CelsiusStep(8)) continue;
    ++layered;
    INFO(key);
    REQUIRE(depth);
    CHECK(*seasonal >= *depth);
    // the fall across the depth found is that of a thermocline: half of the whole range within 6 m on either side
    double warm = -99, cold = 99;
    for (const ProfileReading& level : levels) {
      if (std::abs((level.depth - *depth).value()) > 6) continue;
      warm = std::max(warm, level.temperature.value());
      cold = std::min(cold, level.temperature.value());
    }
    CHECK(warm - cold > 0.5 * (levels.front().temperature - levels.back().temperature).value());
  }
  CHECK(layered >= 4);
}
