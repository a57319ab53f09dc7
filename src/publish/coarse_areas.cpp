// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "castplan/write/plain_text.hpp"
#include "publish/public_lake.hpp"

namespace castplan {
namespace {

constexpr double kRadians = 3.14159265358979323846 / 180.0;
constexpr double kDegree = 111320.0;  // metres, near enough to tell a sliver
constexpr int kBest = 10;

// One side of the clipping of Sutherland and Hodgman (1974): what of a ring lies at or below `limit` of a coordinate.
Ring below(const Ring& ring, bool by_x, double limit, double sign) {
  Ring out;
  const auto over = [&](XY at) { return sign * ((by_x ? at.x : at.y) - limit); };
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const XY a = ring[i];
    const XY b = ring[(i + 1) % ring.size()];
    if (over(a) <= 0.0) out.push_back(a);
    if ((over(a) <= 0.0) != (over(b) <= 0.0)) out.push_back(a + (b - a) * (over(a) / (over(a) - over(b))));
  }
  return out;
}

// Edges along the box that run out and back hold no area, so that the sum is right for any ring.
double area_inside(const Ring& ring, const CellEdges& box) {
  Ring part = below(ring, true, static_cast<double>(box.east) / 1e6, 1.0);
  part = below(part, true, static_cast<double>(box.west) / 1e6, -1.0);
  part = below(part, false, static_cast<double>(box.north) / 1e6, 1.0);
  part = below(part, false, static_cast<double>(box.south) / 1e6, -1.0);
  if (part.size() < 3) return 0.0;
  part.push_back(part.front());
  return std::abs(signed_area(part).value());
}

/// Which square a place is told as.
class Areas {
 public:
  Areas(const Polygons& outline, const WorldGrid& grid)
      : outline_(outline), grid_(grid), enough_(grid.least().value() * grid.least().value() / 4.0) {}

  [[nodiscard]] WorldCell root(WorldCell cell) {
    for (WorldCell next = toward(cell); next != cell; next = toward(cell)) cell = next;
    return cell;
  }
  /// The root first, then the slivers that are told as it.
  [[nodiscard]] std::vector<WorldCell> members(WorldCell root) {
    std::set<WorldCell> all{root};
    std::vector<WorldCell> out{root};
    for (std::size_t at = 0; at < out.size(); ++at) {
      for (const WorldCell beside : grid_.neighbours(out[at])) {
        if (water(beside) > 0.0 && !all.contains(beside) && all.contains(toward(beside))) {
          all.insert(beside);
          out.push_back(beside);
        }
      }
    }
    std::sort(out.begin() + 1, out.end());
    return out;
  }

 private:
  double water(WorldCell cell) {
    const auto known = water_.find(cell);
    if (known != water_.end()) return known->second;
    const CellEdges box = grid_.edges(cell);
    double degrees = 0.0;
    for (const Polygon& polygon : outline_) {
      degrees += area_inside(polygon.outer, box);
      for (const Ring& hole : polygon.holes) degrees -= area_inside(hole, box);
    }
    const double middle = static_cast<double>(box.south + box.north) / 2e6;
    return water_[cell] = degrees * kDegree * kDegree * std::cos(middle * kRadians);
  }
  // Water only grows on the way, so that it ends.
  WorldCell toward(WorldCell cell) {
    if (water(cell) >= enough_) return cell;
    WorldCell best = cell;
    for (const WorldCell beside : grid_.neighbours(cell)) {
      if (water(beside) > water(best)) best = beside;
    }
    return best;
  }
  const Polygons& outline_;
  const WorldGrid& grid_;
  double enough_;
  std::map<WorldCell, double> water_;
};

std::string axis(long long micro, char positive, char negative) {
  std::string digits = fixed(static_cast<double>(std::llabs(micro)) / 1e6, 5);
  while (digits.ends_with('0') && !digits.ends_with(".000")) digits.pop_back();
  return digits + (micro < 0 ? negative : positive);
}

}  // namespace

int CoarseArea::spots() const {
  int sum = 0;
  for (const CoarseCount& count : counts) sum += count.spots;
  return sum;
}

int CoarseArea::best_ten() const {
  int sum = 0;
  for (const CoarseCount& count : counts) sum += count.best_ten;
  return sum;
}

std::vector<CoarseArea> coarse_areas(const Json& spots, const Polygons& outline, const WorldGrid& grid) {
  Areas areas(outline, grid);
  std::map<WorldCell, std::vector<CoarseCount>> found;
  for (const Json& spot : spots.at("features")) {
    const Json& known = spot.at("properties");
    const LonLat boat = place_of(spot.at("geometry").at("coordinates"));
    std::vector<CoarseCount>& counts = found[areas.root(grid.cell_of(boat))];
    const std::string phase = known.at("phase").get<std::string>();
    auto count = std::find_if(counts.begin(), counts.end(), [&](const CoarseCount& one) { return one.phase == phase; });
    if (count == counts.end()) count = counts.insert(counts.end(), {phase, 0, 0});
    ++count->spots;
    if (known.at("rank").get<int>() <= kBest) ++count->best_ten;
  }
  std::vector<CoarseArea> out;
  for (auto& [cell, counts] : found) {
    CoarseArea area;
    for (const WorldCell member : areas.members(cell)) area.cells.push_back(grid.edges(member));
    area.id = fmt::format("area-{}-{}", axis(area.cells[0].south, 'N', 'S'), axis(area.cells[0].west, 'E', 'W'));
    // by name, so that the order of the spots tells nothing
    std::sort(counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.phase < b.phase; });
    area.counts = std::move(counts);
    out.push_back(std::move(area));
  }
  std::stable_sort(out.begin(), out.end(), [](const CoarseArea& a, const CoarseArea& b) {
    return a.cells[0].south != b.cells[0].south ? a.cells[0].south > b.cells[0].south
                                                : a.cells[0].west < b.cells[0].west;
  });
  return out;
}

}  // namespace castplan
