// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/geo/planar.hpp"
#include "features/basin.hpp"
#include "features/floor.hpp"
#include "features/made_apart.hpp"

namespace castplan {

namespace {

struct Candidate {
  const Summit* summit;
  float level;                ///< the pool is what lies deeper
  std::optional<float> sill;  ///< none for the deepest of a water body
};

Metres least_relief(const Summit& summit, const Lake& lake, const DetectOptions& options) {
  return over_noise(options.pool_relief, lake, lake.depth.frame().centre(lake.depth.cell_of(summit.cell)));
}

bool stands_alone(const Summit& summit, const Lake& lake, const DetectOptions& options) {
  if (summit.parent >= 0) {
    return summit.prominence() >= options.pool_relief.value() &&
           summit.prominence() >= least_relief(summit, lake, options).value();
  }
  const auto body = lake.body_of[summit.cell];
  return body >= 0 && lake.bodies[static_cast<std::size_t>(body)].area >= options.pool_body;
}

// The deepest pool of a body has no sill of its own: it ends where the next pool joins it, else at half its depth.
std::vector<Candidate> candidates(const std::vector<Summit>& summits, const Lake& lake, const DetectOptions& options) {
  std::vector<float> deepest_join(summits.size(), 0);
  for (const Summit& summit : summits) {
    if (summit.parent < 0 || !stands_alone(summit, lake, options)) continue;
    float& join = deepest_join[static_cast<std::size_t>(summit.parent)];
    join = std::max(join, summit.pass);
  }
  std::vector<Candidate> found;
  for (std::size_t i = 0; i < summits.size(); ++i) {
    const Summit& summit = summits[i];
    if (!stands_alone(summit, lake, options)) continue;
    if (summit.parent >= 0) {
      found.push_back({&summit, summit.pass, summit.pass});
    } else {
      found.push_back({&summit, deepest_join[i] > 0 ? deepest_join[i] : summit.height / 2, std::nullopt});
    }
  }
  std::sort(found.begin(), found.end(), [](const Candidate& a, const Candidate& b) {
    if (a.summit->height != b.summit->height) return a.summit->height > b.summit->height;
    return a.summit->cell < b.summit->cell;
  });
  return found;
}

CubicMetres volume_below(const Heights& depths, const Basin& basin, float level) {
  double sum = 0;
  for (const Run& run : basin.runs) {
    const std::size_t row = depths.field().index({run.row, 0});
    for (int col = run.first; col < run.last; ++col) {
      sum += static_cast<double>(depths[row + static_cast<std::size_t>(col)]) - level;
    }
  }
  return depths.frame().cell_area() * Metres(sum);
}

std::optional<Feature> pool_feature(const Heights& depths, Candidate pool, const Ground& ground, bool all_known,
                                    const DetectOptions& options) {
  const Lake& lake = ground.quiet();
  Basin basin = basin_above(depths, pool.summit->cell, pool.level);
  Metres relief(pool.sill ? pool.summit->prominence() : pool.summit->height);
  bool certain = true;
  if (const auto contact = all_known ? std::nullopt : highest_unknown_contact(depths, lake, basin.runs)) {
    // the floor may go on falling beyond the map: only what lies deeper than the contact is known to be closed
    certain = false;
    const bool was_deepest = !pool.sill;
    pool.sill.reset();
    const float seen = pool.summit->height - *contact;
    const Metres least = least_relief(*pool.summit, lake, options);
    if (!was_deepest && seen < least.value()) return std::nullopt;
    if (!was_deepest) relief = Metres(seen);
    if (seen >= least.value()) {
      pool.level = *contact;
      basin = basin_above(depths, pool.summit->cell, pool.level);
    }
  }
  const Metres deepest(pool.summit->height);
  Feature feature;
  feature.kind = Kind::pool;
  feature.anchor = depths.frame().centre(depths.field().cell_of(pool.summit->cell));
  feature.confidence =
      confidence_of({.relief = relief,
                     .asked = options.pool_relief,
                     .seen_wide = seen_wide(ground.floor.get(), feature.anchor, deepest - relief, deepest),
                     .certain = certain},
                    ground, feature.anchor);
  feature.details = Pool{Metres(pool.summit->height),
                         feature.anchor,
                         pool.sill ? std::optional<Metres>(Metres(*pool.sill)) : std::nullopt,
                         relief,
                         area(basin.outline),
                         volume_below(depths, basin, pool.level)};
  feature.geometry = simplified(basin.outline, depths.frame().cell * 0.1);
  return feature;
}

}  // namespace

std::vector<Feature> find_pools(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.quiet();
  const Heights depths(lake.depth, Heights::positive_only);
  const std::vector<Summit> summits = merge_tree(depths);
  const std::vector<Candidate> pools = candidates(summits, lake, options);
  const bool all_known = !may_touch_unknown(lake);
  return numbered(
      in_parallel(
          static_cast<int>(pools.size()),
          [&](int i) { return pool_feature(depths, pools[static_cast<std::size_t>(i)], ground, all_known, options); }),
      "Pool");
}

}  // namespace castplan
