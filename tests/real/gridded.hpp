// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/castplan_run.hpp"
#include "real/real_lakes.hpp"

namespace castplan::real {

/// Outside figures of a lake; 0: not known.
struct PublishedLake {
  std::string name;
  double area_ha, volume_mm3, mean_m, max_m;
  double area_pct, volume_pct, mean_pct, max_pct;  ///< how far the grid may be off
};

/// Grids a survey with the program and holds it to the outside figures; all differences are printed.
inline nlohmann::json check_gridded(const std::string& files, const PublishedLake& lake) {
  const programs::Scratch scratch;
  const auto run = programs::run_castplan(scratch, "grid " + files + " --json --out " + scratch.path("depth.tif"));
  INFO(files << "\n" << run.err);
  REQUIRE(run.code == 0);
  nlohmann::json told = nlohmann::json::parse(run.out);
  const auto hold = [&](const char* what, const char* key, double outside, double scale, double most,
                        const char* unit) {
    if (outside == 0) return;
    CHECK(std::abs(percent_off(lake.name + " gridded: " + what, outside, told[key].get<double>() / scale, unit)) <=
          most);
  };
  hold("area", "area_m2", lake.area_ha, 1e4, lake.area_pct, "ha");
  hold("volume", "volume_m3", lake.volume_mm3, 1e6, lake.volume_pct, "Mm3");
  hold("mean depth", "mean_depth_m", lake.mean_m, 1, lake.mean_pct, "m");
  hold("deepest", "max_depth_m", lake.max_m, 1, lake.max_pct, "m");
  note("{} gridded: held-back data within {} m (root mean square), flat {}", lake.name,
       told["cross_validation"]["rmse_m"].dump(), told["flat_share"].dump());
  return told;
}

}  // namespace castplan::real
