// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/regions.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "castplan/grid/components.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan::survey {
namespace {

constexpr float kSameLevel = 0.01F;      // metres
constexpr float kLessThanStep = 0.95F;   // of a step: how far a hole or a hump may go on
constexpr float kBeyondSounding = 0.1F;  // of a step: how far it may pass the deepest sounding in it
constexpr float kBetween = 0.1F;         // of a step: how far water between two contours may stray from them
constexpr float kInfinite = std::numeric_limits<float>::infinity();

/// Depths of the contours that cross a cell.
struct Crossed {
  float low = kInfinite;
  float high = -kInfinite;
  void add(float depth) {
    low = std::min(low, depth);
    high = std::max(high, depth);
  }
  [[nodiscard]] bool any() const { return low <= high; }
};

using Barrier = std::vector<std::pair<std::size_t, Crossed>>;  // by index of the cell

/// Calls touch(cell) for all cells that a line passes through, so that even diagonal neighbours are parted by it.
template <class Touch>
void each_cell_on(const Frame& frame, XY from, XY to, const Touch& touch) {
  const double size = frame.cell.value();
  const XY a{(from.x - frame.corner.x) / size, (frame.corner.y - from.y) / size};
  const XY b{(to.x - frame.corner.x) / size, (frame.corner.y - to.y) / size};
  std::vector<double> cuts{0.0, 1.0};
  const auto cut = [&](double start, double end) {
    for (double line = std::ceil(std::min(start, end)); line <= std::max(start, end); line += 1.0) {
      if (start != end) cuts.push_back((line - start) / (end - start));
    }
  };
  cut(a.x, b.x);
  cut(a.y, b.y);
  std::sort(cuts.begin(), cuts.end());
  const auto visit = [&](double x, double y) {
    const Cell at{static_cast<int>(std::floor(y)), static_cast<int>(std::floor(x))};
    if (frame.holds(at)) touch(at);
  };
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const double t = i + 1 < cuts.size() ? (cuts[i] + cuts[i + 1]) / 2.0 : cuts[i];
    visit(a.x + t * (b.x - a.x), a.y + t * (b.y - a.y));
  }
}

Barrier barrier_of(const Grid<std::uint8_t>& water, std::span<const DepthContour> contours) {
  std::vector<std::pair<std::size_t, float>> crossings;
  for (const DepthContour& contour : contours) {
    const auto depth = static_cast<float>(contour.depth.value());
    for (std::size_t i = 1; i < contour.line.size(); ++i) {
      each_cell_on(water.frame(), contour.line[i - 1], contour.line[i], [&](Cell at) {
        const std::pair<std::size_t, float> crossing{water.index(at), depth};
        if (water[at] && (crossings.empty() || crossings.back() != crossing)) crossings.push_back(crossing);
      });
    }
  }
  std::sort(crossings.begin(), crossings.end());
  Barrier barrier;
  for (const auto& [index, depth] : crossings) {
    if (barrier.empty() || barrier.back().first != index) barrier.push_back({index, {}});
    barrier.back().second.add(depth);
  }
  return barrier;
}

/// What stands at the edges of each region: contours' cells beside its own, and the shore as depth 0.
std::vector<Crossed> edges_of(const Grid<std::uint8_t>& water, const Grid<std::int32_t>& of_cell, int count,
                              const Barrier& barrier) {
  std::vector<Crossed> edges(static_cast<std::size_t>(count));
  const auto each_neighbour = [&](Cell at, const auto& visit) {
    for (int row = at.row - 1; row <= at.row + 1; ++row) {
      for (int col = at.col - 1; col <= at.col + 1; ++col) {
        if (water.holds({row, col})) visit(Cell{row, col});
      }
    }
  };
  for (const auto& [index, crossed] : barrier) {
    each_neighbour(water.cell_of(index), [&](Cell beside) {
      if (of_cell[beside] < 0) return;
      edges[static_cast<std::size_t>(of_cell[beside])].add(crossed.low);
      edges[static_cast<std::size_t>(of_cell[beside])].add(crossed.high);
    });
  }
  for (std::size_t i = 0; i < water.size(); ++i) {
    if (of_cell[i] < 0) continue;
    each_neighbour(water.cell_of(i), [&](Cell beside) {
      if (!water[beside]) edges[static_cast<std::size_t>(of_cell[i])].add(0.0F);
    });
  }
  return edges;
}

/// The steps from a level to the next deeper and the next shallower one; at the ends the last step is repeated.
struct Steps {
  float down;
  float up;
};

Steps steps_at(const std::vector<float>& levels, float level) {
  const auto here = static_cast<std::size_t>(
      std::min_element(levels.begin(), levels.end(),
                       [&](float a, float b) { return std::abs(a - level) < std::abs(b - level); }) -
      levels.begin());
  const float up = here > 0 ? levels[here] - levels[here - 1] : 0.0F;
  const float down = here + 1 < levels.size() ? levels[here + 1] - levels[here] : up;
  return {.down = down, .up = up};
}

Region region_of(const Crossed& edges, const Crossed& spots, const std::vector<float>& levels) {
  Region region{.low = -kInfinite, .high = kInfinite, .edge_low = edges.low, .edge_high = edges.high, .ends = false};
  if (!edges.any()) return region;
  region.ends = edges.high - edges.low < kSameLevel;
  const Steps shallow = steps_at(levels, edges.low);
  const Steps deep = steps_at(levels, edges.high);
  if (region.ends) {
    region.low = edges.low - kLessThanStep * shallow.up;
    region.high = edges.high + kLessThanStep * deep.down;
    // a sounding in the hole says how far it goes
    if (spots.any() && spots.high > edges.high) {
      region.high = std::min(region.high, spots.high + kBeyondSounding * deep.down);
    }
    if (spots.any() && spots.low < edges.low) {
      region.low = std::max(region.low, spots.low - kBeyondSounding * shallow.up);
    }
  } else {
    region.low = edges.low - kBetween * shallow.up;
    region.high = edges.high + kBetween * deep.down;
  }
  if (edges.low < kSameLevel) region.low = -kInfinite;  // the shore's own rule
  if (spots.any()) {
    if (spots.high > region.high) region.high = spots.high + kBeyondSounding * deep.down;
    if (spots.low < region.low) region.low = spots.low - kBeyondSounding * shallow.up;
  }
  return region;
}

/// What is left of `over` when the longest is to be `most`: the mean of a part that follows the slope at the edge and
/// bends towards `most`, and of the whole made smaller, which keeps the floor from ending flat.
float eased(float over, float longest, float most) {
  if (longest <= most) return over;
  if (!(most > 0.0F)) return 0.0F;
  const float kept = most / 2.0F;
  const float rest = std::max(over - kept, 0.0F);
  const float bend = 1.0F / (most - kept) - 1.0F / (longest - kept);
  const float followed = over <= kept ? over : kept + rest / (1.0F + bend * rest);
  return (followed + over * most / longest) / 2.0F;
}

}  // namespace

std::vector<float> contour_levels(std::span<const DepthContour> contours) {
  std::vector<float> levels{0.0F};
  for (const DepthContour& contour : contours) levels.push_back(static_cast<float>(contour.depth.value()));
  std::sort(levels.begin(), levels.end());
  levels.erase(std::unique(levels.begin(), levels.end(), [](float a, float b) { return b - a < kSameLevel; }),
               levels.end());
  return levels;
}

float contour_interval(const std::vector<float>& levels) {
  std::map<long, int> counts;  // by whole centimetres
  for (std::size_t i = 1; i < levels.size(); ++i) ++counts[std::lround(100.0F * (levels[i] - levels[i - 1]))];
  long best = 0;
  int most = 0;
  for (const auto& [step, count] : counts) {
    if (count > most) {
      best = step;
      most = count;
    }
  }
  return static_cast<float>(best) / 100.0F;
}

Regions find_regions(const Grid<std::uint8_t>& water, std::span<const DepthContour> contours,
                     std::span<const Sounding> soundings) {
  Regions result;
  if (contours.empty()) return result;
  const Barrier barrier = barrier_of(water, contours);
  Grid<std::uint8_t> open = water;
  for (const auto& [index, crossed] : barrier) open[index] = 0;
  Components groups = components(water.frame(), [&](Cell at) { return open[at] != 0; });
  const std::vector<Crossed> edges = edges_of(water, groups.label, groups.count, barrier);
  std::vector<Crossed> spots(edges.size());
  for (const Sounding& sounding : soundings) {
    const Cell at = water.frame().cell_at(sounding.at);
    if (water.holds(at) && groups.label[at] >= 0) {
      spots[static_cast<std::size_t>(groups.label[at])].add(sounding.depth.value());
    }
  }
  const std::vector<float> levels = contour_levels(contours);
  for (std::size_t i = 0; i < edges.size(); ++i) result.regions.push_back(region_of(edges[i], spots[i], levels));
  result.of_cell = std::move(groups.label);
  return result;
}

void keep_within(const Regions& regions, Grid<Metres32>& depth) {
  std::vector<Crossed> reached(regions.regions.size());
  for (std::size_t i = 0; i < depth.size() && !regions.regions.empty(); ++i) {
    if (regions.of_cell[i] >= 0) reached[static_cast<std::size_t>(regions.of_cell[i])].add(depth[i].value());
  }
  if (regions.regions.empty()) return;
  sweep(depth.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < depth.cols(); ++col) {
        const std::int32_t number = regions.of_cell[{row, col}];
        if (number < 0) continue;
        const Region& region = regions.regions[static_cast<std::size_t>(number)];
        const Crossed& range = reached[static_cast<std::size_t>(number)];
        float value = depth[{row, col}].value();
        if (value > region.edge_high) {
          value = region.edge_high +
                  eased(value - region.edge_high, range.high - region.edge_high, region.high - region.edge_high);
        } else if (value < region.edge_low) {
          value = region.edge_low -
                  eased(region.edge_low - value, region.edge_low - range.low, region.edge_low - region.low);
        }
        depth[{row, col}] = Metres32(value);
      }
    }
  });
}

}  // namespace castplan::survey
