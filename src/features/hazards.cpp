// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <limits>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/features/from_land.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/groups.hpp"
#include "castplan/grid/isoline.hpp"
#include "features/flood.hpp"
#include "features/made_apart.hpp"
#include "features/near_together.hpp"

namespace castplan {

namespace {

/// The strip along the shore is no hazard; what is left of a shoal begins this far from land.
struct CutFromShore {
  const FromLand* from_land;
  float beyond;
};

using Shoal = std::vector<Run>;  ///< by row, then column

bool beside_land(const Lake& lake, const Run& run) {
  const int first = std::max(run.first - 1, 0);
  const auto count = static_cast<std::size_t>(std::min(run.last + 1, lake.cover.cols()) - first);
  for (int row = std::max(run.row - 1, 0); row <= std::min(run.row + 1, lake.cover.rows() - 1); ++row) {
    const auto cells = lake.cover.row(row).subspan(static_cast<std::size_t>(first), count);
    if (std::find(cells.begin(), cells.end(), Cover::land) != cells.end()) return true;
  }
  return false;
}

std::vector<bool> joined_to_shore(const Lake& lake, const Groups& groups) {
  std::vector<bool> joined(static_cast<std::size_t>(groups.count()));
  for (int row = 0; row < lake.cover.rows(); ++row) {
    for (const GroupRun& run : groups.row(row)) {
      const auto group = static_cast<std::size_t>(run.group);
      if (!joined[group]) joined[group] = beside_land(lake, {row, run.first, run.last});
    }
  }
  return joined;
}

// The groups that are not left out, in order.
std::vector<Shoal> shoals(const Groups& groups, const std::vector<bool>& left_out) {
  std::vector<Shoal> found(static_cast<std::size_t>(groups.count()));
  for (int row = 0; row < groups.frame().rows; ++row) {
    for (const GroupRun& run : groups.row(row)) {
      const auto group = static_cast<std::size_t>(run.group);
      if (!left_out[group]) found[group].push_back({row, run.first, run.last});
    }
  }
  std::erase_if(found, [](const Shoal& shoal) { return shoal.empty(); });
  return found;
}

// How far inside the shoal's edge a place lies, in metres of height: positive where shallower than the limit and, for a
// part that was cut from the strip along the shore, further from land than allowed. Distance counts as if it rose by
// one in twenty, about as a shoal's own flank does, so that neither edge pulls at the other between cells.
constexpr float kRise = 0.05F;
float inside_by(float depth, float limit, float from_land, const CutFromShore* cut) {
  const float under = limit - depth;
  return cut == nullptr ? under : std::min(under, kRise * (from_land - cut->beyond));
}

// The part of the lake around a shoal, with a margin of one cell that may lie off the map.
Frame window_around(const Lake& lake, const Shoal& shoal, Cell& corner) {
  Frame frame = lake.depth.frame();
  Cell low{shoal.front().row, shoal.front().first};
  Cell high = low;
  for (const Run& run : shoal) {
    low = {std::min(low.row, run.row), std::min(low.col, run.first)};
    high = {std::max(high.row, run.row), std::max(high.col, run.last - 1)};
  }
  corner = {low.row - 1, low.col - 1};
  const double side = frame.cell.value();
  frame.corner = frame.corner + XY{corner.col * side, -corner.row * side};
  frame.rows = high.row - low.row + 3;
  frame.cols = high.col - low.col + 3;
  return frame;
}

// Outline of a group of cells where the depth passes the limit, or at the distance from land where it was cut.
Polygons outline(const Lake& lake, const Shoal& shoal, float limit, const CutFromShore* cut) {
  Cell corner;
  Grid<Metres32> height(window_around(lake, shoal, corner), Metres32(-limit));
  Grid<Metres32> from_land;
  if (cut != nullptr) from_land = cut->from_land->around(corner, height.rows(), height.cols());
  const auto inside = [&](Cell at) {
    const Cell here{at.row + corner.row, at.col + corner.col};
    return inside_by(lake.depth[here].value(), limit, cut == nullptr ? 0.0F : from_land[at].value(), cut);
  };
  for (int row = 0; row < height.rows(); ++row) {
    for (int col = 0; col < height.cols(); ++col) {
      if (!lake.depth.holds({row + corner.row, col + corner.col})) continue;
      // not of another group, which is as far inside as this one
      const float value = inside({row, col});
      if (value <= 0) height[Cell{row, col}] = Metres32(value);
    }
  }
  for (const Run& run : shoal) {
    for (int col = run.first; col < run.last; ++col) {
      const Cell at{run.row - corner.row, col - corner.col};
      height[at] = Metres32(inside(at));
    }
  }
  return area_above(height, std::numeric_limits<float>::min());
}

// The shallowest cell, the first of equals.
Cell top_of(const Lake& lake, const Shoal& shoal) {
  Cell top{shoal.front().row, shoal.front().first};
  for (const Run& run : shoal) {
    for (int col = run.first; col < run.last; ++col) {
      if (lake.depth[Cell{run.row, col}] < lake.depth[top]) top = {run.row, col};
    }
  }
  return top;
}

Feature hazard_feature(const Lake& lake, const Shoal& shoal, Metres limit, const CutFromShore* cut) {
  const Cell top = top_of(lake, shoal);
  Feature feature;
  feature.kind = Kind::hazard;
  feature.anchor = lake.depth.frame().centre(top);
  feature.confidence = confidence_of_shoal(limit - lake.depth_error - Metres(lake.depth[top]), lake, feature.anchor);
  feature.details = Structure{Metres(lake.depth[top]), "", "shoal"};
  feature.geometry = outline(lake, shoal, static_cast<float>(limit.value()), cut);
  return feature;
}

std::vector<Feature> hazard_features(const Lake& lake, const std::vector<Shoal>& shoals, Metres limit,
                                     const CutFromShore* cut) {
  return in_parallel(static_cast<int>(shoals.size()), [&](int i) {
    return std::optional(hazard_feature(lake, shoals[static_cast<std::size_t>(i)], limit, cut));
  });
}

// A limit has two sides: what rises over it by less than half the depths' error, and over less than one cell, is how
// the survey erred at that cell.
bool is_speck(const Feature& shoal, const Lake& lake, Metres limit) {
  const Metres over = limit - *std::get<Structure>(shoal.details).depth;
  return over < lake.depth_error / 2 && area(std::get<Polygons>(shoal.geometry)) < lake.depth.frame().cell_area();
}

// No boat passes at speed between shoals that are near to one another, from side to side of their
// cells: they are one, marked where it is shallowest.
std::vector<Feature> joined_where_near(std::vector<Feature> found, const std::vector<Shoal>& shoals, double reach) {
  std::vector<Feature> joined;
  for (const std::vector<int>& group : near_together(shoals, reach)) {
    const auto depth = [&](int i) { return *std::get<Structure>(found[static_cast<std::size_t>(i)].details).depth; };
    const int top = *std::min_element(group.begin(), group.end(), [&](int a, int b) { return depth(a) < depth(b); });
    Polygons whole;
    for (const int i : group) {
      const auto& part = std::get<Polygons>(found[static_cast<std::size_t>(i)].geometry);
      whole.insert(whole.end(), part.begin(), part.end());
    }
    joined.push_back(std::move(found[static_cast<std::size_t>(top)]));
    joined.back().geometry = std::move(whole);
  }
  return joined;
}

}  // namespace

std::vector<Feature> find_hazards(const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.quiet();
  const Metres limit = floating_depth(lake, options.draft, options.margin);
  const Groups shallow = groups_of(lake.depth.frame(), [&](int row, int first, std::span<std::uint8_t> out) {
    const auto depth = lake.depth.row(row).subspan(static_cast<std::size_t>(first), out.size());
    std::transform(depth.begin(), depth.end(), lake.cover.row(row).begin() + first, out.begin(),
                   [most = Metres32(limit)](Metres32 here, Cover cover) {
                     return static_cast<std::uint8_t>(cover == Cover::water && here < most);
                   });
  });
  const std::vector<bool> strip = joined_to_shore(lake, shallow);
  std::vector<Shoal> all = shoals(shallow, strip);
  std::vector<Feature> found = hazard_features(lake, all, limit, nullptr);
  // bars and shelves that run out from the shore: the part beyond where people expect them
  const Metres beyond = options.hazard_from_land;
  const FromLand from_land(lake, beyond + Metres(limit.value() / static_cast<double>(kRise)));
  const Groups far = cells_beyond(shallow, strip, from_land, beyond);
  const CutFromShore cut{&from_land, static_cast<float>(beyond.value())};
  const std::vector<Shoal> bars = shoals(far, std::vector<bool>(static_cast<std::size_t>(far.count())));
  for (Feature& bar : hazard_features(lake, bars, limit, &cut)) found.push_back(std::move(bar));
  all.insert(all.end(), bars.begin(), bars.end());
  found = joined_where_near(std::move(found), all, options.hazards_apart / lake.depth.frame().cell + 1);
  std::erase_if(found, [&](const Feature& shoal) { return is_speck(shoal, lake, limit); });
  return numbered(std::move(found), "Shoal");
}

}  // namespace castplan
