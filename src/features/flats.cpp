// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/distance.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/terrain/smooth.hpp"
#include "features/floor.hpp"
#include "features/made_apart.hpp"
#include "features/shelf.hpp"
#include "features/wide_floor.hpp"

namespace castplan {

namespace {

// Parts and holes smaller than this are the survey's noise, 20 m a side.
constexpr SquareMetres kSmallest(400);

// A first look, before any work on it: whether enough cells of a group have much deeper water about as near as its true
// edge may lie from the group's.
bool may_break(const std::vector<Cell>& rim, const Floor& floor, const Components& groups,
               const DetectOptions& options) {
  const double cell = floor.smooth.frame().cell.value();
  const int far = static_cast<int>(std::ceil((options.flat_fall_within + floor.scale * 2).value() / cell));
  const auto deeper = [&](Cell from, int rows, int cols) {
    for (const int steps : {far, (far + 1) / 2}) {
      const Cell at{from.row + rows * steps, from.col + cols * steps};
      if (!floor.smooth.holds(at)) continue;
      if (floor.smooth[at] - floor.smooth[from] >= Metres32(options.flat_fall)) return true;
    }
    return false;
  };
  int count = 0;
  for (const Cell at : rim) {
    const std::int32_t own = groups.label[at];
    for (const auto& [rows, cols] : {std::pair(0, 1), std::pair(1, 0), std::pair(0, -1), std::pair(-1, 0),
                                     std::pair(1, 1), std::pair(1, -1), std::pair(-1, 1), std::pair(-1, -1)}) {
      if (groups.label[Cell{at.row + rows, at.col + cols}] == own || !deeper(at, rows, cols)) continue;
      ++count;
      break;
    }
  }
  return count * cell >= options.flat_edge.value() / 2;
}

// The line half-way up the flat's own cells, smoothed over one block so that it does not follow their sides.
Polygons outline_of(const Shelf& shelf) {
  Polygons outline = area_above(smoothed(shelf.part, shelf.window.frame.cell), 0.5F);
  std::erase_if(outline, [](const Polygon& part) { return area(part) < kSmallest; });
  for (Polygon& part : outline) {
    std::erase_if(part.holes, [](const Ring& hole) { return -signed_area(hole) < kSmallest; });
  }
  return outline;
}

Metres median_depth(const Shelf& shelf, const Floor& floor) {
  std::vector<float> depths;
  for (std::size_t at = 0; at < shelf.part.size(); ++at) {
    if (shelf.part[at].value() == 0) continue;
    depths.push_back(floor.level[shelf.window.outer(shelf.part.cell_of(at))].value());
  }
  const auto middle = depths.begin() + static_cast<std::ptrdiff_t>(depths.size() / 2);
  std::nth_element(depths.begin(), middle, depths.end());
  return Metres(*middle);
}

/// What lies along the outline of a flat.
struct Rim {
  Metres falling{0};  ///< length that breaks to deeper water
  Metres water{0};    ///< length that is no shore
  std::vector<double> falls;
};

// Reads the floor on lines straight out of the outline, one for each of its sides, which are no longer than a block;
// interiors lie on the left of all rings.
void add_rim(const Ring& ring, const Floor& floor, const DetectOptions& options, Rim& rim) {
  const double cell = floor.smooth.frame().cell.value();
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const XY along = ring[i] - ring[i - 1];
    const double step = std::hypot(along.x, along.y);
    if (step == 0) continue;
    const XY out{along.y / step, -along.x / step};
    const XY middle = (ring[i] + ring[i - 1]) * 0.5;
    float here = bilinear(floor.smooth, middle - out * cell);
    if (std::isnan(here)) here = bilinear(floor.smooth, middle);
    if (std::isnan(bilinear(floor.smooth, middle + out * cell)) || std::isnan(here)) continue;
    rim.water += Metres(step);
    float deepest = here;
    for (double away = cell; away <= options.flat_fall_within.value() + cell; away += cell) {
      const float there = bilinear(floor.smooth, middle + out * away);
      if (std::isnan(there)) break;
      deepest = std::max(deepest, there);
    }
    if (deepest - here < options.flat_fall.value()) continue;
    rim.falling += Metres(step);
    rim.falls.push_back(deepest - here);
  }
}

Rim rim_of(const Polygons& outline, const Floor& floor, const DetectOptions& options) {
  Rim rim;
  for (const Polygon& part : outline) {
    add_rim(part.outer, floor, options, rim);
    for (const Ring& hole : part.holes) add_rim(hole, floor, options, rim);
  }
  return rim;
}

// The middle of the flat's cell that lies furthest from its outline: on the flat, whatever its shape. Of equals the one
// nearest to the centre of gravity, which does not depend on how the lake lies.
struct Middle {
  XY at;
  Metres from_edge;
};

Middle middle_of(const Shelf& shelf) {
  const Frame& frame = shelf.window.frame;
  const Grid<Metres32> inside = distance_to(frame, [&](Cell at) { return shelf.part[at].value() == 0; });
  const auto furthest = *std::max_element(inside.cells().begin(), inside.cells().end());
  XY centre{};
  double count = 0;
  Points middles;
  for (std::size_t at = 0; at < inside.size(); ++at) {
    if (shelf.part[at].value() == 0) continue;
    const XY place = frame.centre(inside.cell_of(at));
    centre = centre + (place - frame.corner);
    ++count;
    if (inside[at] == furthest) middles.push_back(place);
  }
  centre = frame.corner + centre * (1 / count);
  const XY middle = *std::min_element(middles.begin(), middles.end(),
                                      [&](XY a, XY b) { return distance(a, centre) < distance(b, centre); });
  return {middle, Metres(furthest) - frame.cell / 2};
}

std::optional<Feature> flat_feature(const std::vector<Cell>& cells, const Ground& ground, const Components& groups,
                                    const DetectOptions& options) {
  const Floor& floor = *ground.floor;
  const std::vector<Cell> edge = rim_cells(cells, groups);
  if (!may_break(edge, floor, groups, options)) return std::nullopt;
  const Shelf shelf = grown(cells, edge, floor, groups);
  const Polygons outline = outline_of(shelf);
  const SquareMetres size = area(outline);
  const Metres depth = median_depth(shelf, floor);
  if (size < options.flat_area || depth < options.flat_shallowest) return std::nullopt;
  Rim rim = rim_of(outline, floor, options);
  if (rim.falling < options.flat_edge || rim.falling < rim.water * options.flat_edge_share) return std::nullopt;
  const Middle middle = middle_of(shelf);
  if (middle.from_edge * 2 < options.flat_width) return std::nullopt;
  const auto usual = rim.falls.begin() + static_cast<std::ptrdiff_t>(rim.falls.size() / 2);
  std::nth_element(rim.falls.begin(), usual, rim.falls.end());
  Feature feature;
  feature.kind = Kind::flat;
  feature.anchor = middle.at;
  feature.details = Flat{depth, size, rim.falling};
  feature.confidence =
      confidence_of({.relief = Metres(*usual), .asked = options.flat_fall, .looks = looks_along(rim.falling)}, ground,
                    feature.anchor);
  feature.geometry = simplified(outline, floor.smooth.frame().cell * 0.1);
  return feature;
}

}  // namespace

std::vector<Feature> find_flats(const Ground& ground, const DetectOptions& options) {
  const Floor& floor = *ground.floor;
  std::vector<Feature> flats;
  const Components groups = wide_floor(floor, options);
  for (const std::vector<Cell>& cells : cells_by_group(groups)) {
    // growing back cannot make a small one large: it adds at most two sigma all round
    if (floor.smooth.frame().cell_area() * static_cast<double>(cells.size()) < options.flat_area / 4) continue;
    if (auto feature = flat_feature(cells, ground, groups, options)) flats.push_back(std::move(*feature));
  }
  std::stable_sort(flats.begin(), flats.end(), [](const Feature& a, const Feature& b) {
    return std::get<Flat>(a.details).area > std::get<Flat>(b.details).area;
  });
  return numbered(std::move(flats), "Flat");
}

}  // namespace castplan
