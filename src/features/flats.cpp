// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/components.hpp"
#include "castplan/grid/distance.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/terrain/smooth.hpp"
#include "features/floor.hpp"

namespace castplan {

namespace {

// Smoothing bends the floor for two sigma inside the true edge of a flat; a flat is grown back over water that lies
// within this much of its own plane. Design choice: the usual error of a depth.
constexpr double kOffPlane = 0.3;

// Parts and holes smaller than this are the survey's noise, 20 m a side.
constexpr SquareMetres kSmallest(400);

Grid<std::uint8_t> gentle_cells(const Floor& floor, double grade_pct) {
  Grid<std::uint8_t> gentle(floor.smooth.frame(), 0);
  sweep(gentle.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < gentle.cols(); ++col) {
        if (std::isnan(floor.smooth[Cell{row, col}].value())) continue;
        const XY rise = rise_at(floor.smooth, {row, col});
        gentle[Cell{row, col}] = 1e4 * dot(rise, rise) <= grade_pct * grade_pct ? 1 : 0;
      }
    }
  });
  return gentle;
}

using Mask = Grid<std::uint8_t>;

/// Steps to the cells whose centres lie within a distance.
std::vector<Cell> steps_within(Metres distance, Metres cell) {
  std::vector<Cell> steps;
  const int reach = static_cast<int>(distance / cell + 1e-9);
  for (int row = -reach; row <= reach; ++row) {
    for (int col = -reach; col <= reach; ++col) {
      if (cell * std::hypot(row, col) <= distance + Metres(1e-9)) steps.push_back({row, col});
    }
  }
  return steps;
}

// Cells of a mask for which all cells within reach (any, when dilating) are set; `only` limits which are asked.
Mask morphed(const Mask& mask, const Mask& only, const std::vector<Cell>& steps, bool dilate) {
  Mask out(mask.frame(), 0);
  sweep(mask.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < mask.cols(); ++col) {
        if (only[Cell{row, col}] == 0) continue;
        const auto set = [&](Cell step) {
          const Cell at{row + step.row, col + step.col};
          return mask.holds(at) && mask[at] != 0;
        };
        out[Cell{row, col}] = dilate ? std::any_of(steps.begin(), steps.end(), set) ? 1 : 0
                              : std::all_of(steps.begin(), steps.end(), set) ? 1
                                                                             : 0;
      }
    }
  });
  return out;
}

// What is left of the gentle floor where a disc fits in (a morphological opening): as wide as the narrowest flat, less
// what smoothing takes from its edges.
Components wide_parts(const Floor& floor, const DetectOptions& options) {
  const Frame& frame = floor.smooth.frame();
  const Mask gentle = gentle_cells(floor, options.flat_grade_pct);
  const auto steps = steps_within(std::max(options.flat_width / 2 - floor.scale, frame.cell), frame.cell);
  const Mask wide = morphed(morphed(gentle, gentle, steps, false), gentle, steps, true);
  return components(frame, [&](Cell at) { return wide[at] != 0; });
}

std::vector<std::vector<Cell>> cells_by_group(const Components& groups) {
  std::vector<std::vector<Cell>> cells(static_cast<std::size_t>(groups.count));
  for (std::size_t at = 0; at < groups.label.size(); ++at) {
    if (groups.label[at] >= 0) cells[static_cast<std::size_t>(groups.label[at])].push_back(groups.label.cell_of(at));
  }
  return cells;
}

/// A part of the floor's frame around one flat.
struct Window {
  Frame frame;
  Cell first;  ///< of the frame, as a cell of the floor

  [[nodiscard]] Cell inner(Cell at) const { return {at.row - first.row, at.col - first.col}; }
  [[nodiscard]] Cell outer(Cell at) const { return {at.row + first.row, at.col + first.col}; }
};

Window window_around(const std::vector<Cell>& cells, const Frame& whole, int margin) {
  Cell low = cells.front(), high = cells.front();
  for (const Cell at : cells) {
    low = {std::min(low.row, at.row), std::min(low.col, at.col)};
    high = {std::max(high.row, at.row), std::max(high.col, at.col)};
  }
  low = {low.row - margin, low.col - margin};
  const double side = whole.cell.value();
  return {{{whole.corner.x + low.col * side, whole.corner.y - low.row * side},
           whole.cell,
           high.row + margin - low.row + 1,
           high.col + margin - low.col + 1},
          low};
}

/// One flat on its window: 1 where it lies.
struct Shelf {
  Window window;
  Grid<Metres32> part;
};

template <class Visit>
void within(const Grid<Metres32>& grid, Cell middle, int reach, const Visit& visit) {
  for (int row = std::max(0, middle.row - reach); row <= std::min(grid.rows() - 1, middle.row + reach); ++row) {
    for (int col = std::max(0, middle.col - reach); col <= std::min(grid.cols() - 1, middle.col + reach); ++col) {
      visit(Cell{row, col});
    }
  }
}

/// Weighted sums for the plane depth = a + b x + c y about a place.
struct PlaneSums {
  double w = 0, x = 0, y = 0, z = 0, xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;

  void add(double weight, XY away, double depth) {
    w += weight;
    x += weight * away.x;
    y += weight * away.y;
    z += weight * depth;
    xx += weight * away.x * away.x;
    xy += weight * away.x * away.y;
    yy += weight * away.y * away.y;
    xz += weight * away.x * depth;
    yz += weight * away.y * depth;
  }
  /// Depth of the plane of least squares at the place, by Cramer's rule. Its slope is drawn to zero as if 0.015 were
  /// its usual size and 0.15 m the noise of a cell (ridge regression), so that a sliver of cells gives no wild plane.
  [[nodiscard]] double at_place() const {
    constexpr double kRidge = 100;  // square metres: (0.15 / 0.015)^2
    const double sxx = xx + kRidge, syy = yy + kRidge;
    const double whole = w * (sxx * syy - xy * xy) - x * (x * syy - xy * y) + y * (x * xy - sxx * y);
    const double first = z * (sxx * syy - xy * xy) - x * (xz * syy - xy * yz) + y * (xz * xy - sxx * yz);
    return first / whole;
  }
};

/// Gaussian weights of the cells around one, by how many rows and columns they are away.
class Weights {
 public:
  explicit Weights(const Floor& floor)
      : reach_(static_cast<int>(std::ceil(floor.scale * 3 / floor.level.frame().cell))) {
    const double steps = floor.scale / floor.level.frame().cell;
    for (int i = 0; i <= reach_; ++i) weight_.push_back(std::exp(-i * i / (2 * steps * steps)));
  }
  [[nodiscard]] int reach() const { return reach_; }
  [[nodiscard]] int step() const { return reach_ < 6 ? 1 : 2; }
  [[nodiscard]] double at(int rows, int cols) const { return weight_[std::abs(rows)] * weight_[std::abs(cols)]; }

 private:
  int reach_;
  std::vector<double> weight_;
};

// How far a cell's depth lies from the plane of the flat's cells around it; infinite where none is near. The flat's
// cells lie inside its true edge and their own depths, not smoothed, know nothing of the slope beyond.
double off_plane(const Floor& floor, const Shelf& shelf, Cell at, const Weights& weights) {
  const double cell = floor.level.frame().cell.value();
  const Cell here = shelf.window.outer(at);
  PlaneSums sums;
  // every other row and column is enough for three numbers
  for (int row = -weights.reach(); row <= weights.reach(); row += weights.step()) {
    for (int col = -weights.reach(); col <= weights.reach(); col += weights.step()) {
      const Cell near{at.row + row, at.col + col};
      if (!shelf.part.holds(near) || shelf.part[near].value() == 0) continue;
      const float depth = floor.level[shelf.window.outer(near)].value();
      if (!std::isnan(depth)) sums.add(weights.at(row, col), {col * cell, -row * cell}, depth);
    }
  }
  if (sums.w == 0) return std::numeric_limits<double>::infinity();
  return std::abs(static_cast<double>(floor.level[here].value()) - sums.at_place());
}

// The cells of a group that touch others. The outermost blocks of the floor are unknown, so that all cells around a
// group's are on it.
std::vector<Cell> rim_cells(const std::vector<Cell>& cells, const Components& groups) {
  std::vector<Cell> rim;
  for (const Cell at : cells) {
    const std::int32_t own = groups.label[at];
    bool inside = true;
    for (int row = at.row - 1; row <= at.row + 1 && inside; ++row) {
      for (int col = at.col - 1; col <= at.col + 1; ++col) inside = inside && groups.label[Cell{row, col}] == own;
    }
    if (!inside) rim.push_back(at);
  }
  return rim;
}

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

// Grows a flat back to its true edge, cell by cell from its own ones as long as the floor lies on their plane.
Shelf grown(const std::vector<Cell>& cells, const std::vector<Cell>& rim, const Floor& floor,
            const Components& groups) {
  const int reach = static_cast<int>(std::ceil(floor.scale * 2 / floor.smooth.frame().cell));
  const Window window = window_around(cells, floor.smooth.frame(), reach + 3);
  const Weights weights(floor);
  Shelf shelf{window, Grid<Metres32>(window.frame, Metres32(0))};
  for (const Cell at : cells) shelf.part[window.inner(at)] = Metres32(1);
  std::vector<Cell> last, added;
  for (const Cell at : rim) last.push_back(window.inner(at));
  std::vector<bool> tried(shelf.part.size());
  for (int layer = 0; layer < reach && !last.empty(); ++layer) {
    std::vector<Cell> next;
    for (const Cell from : last) {
      within(shelf.part, from, 1, [&](Cell near) {
        // corners count in every other layer, so that growth is about as far in all directions
        if (layer % 2 == 1 && near.row != from.row && near.col != from.col) return;
        const std::size_t index = shelf.part.index(near);
        if (tried[index] || shelf.part[near].value() > 0) return;
        tried[index] = true;
        // another flat's cells are taken
        const Cell at = window.outer(near);
        if (!floor.level.holds(at) || groups.label[at] >= 0 || std::isnan(floor.level[at].value())) return;
        if (off_plane(floor, shelf, near, weights) <= kOffPlane) next.push_back(near);
      });
    }
    added.insert(added.end(), next.begin(), next.end());
    last = std::move(next);
  }
  for (const Cell at : added) shelf.part[at] = Metres32(1);
  return shelf;
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

std::optional<Feature> flat_feature(const std::vector<Cell>& cells, const Floor& floor, const Lake& lake,
                                    const Components& groups, const DetectOptions& options) {
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
  feature.confidence = confidence_in(Metres(*usual), options.flat_fall, lake, feature.anchor);
  feature.geometry = simplified(outline, floor.smooth.frame().cell * 0.1);
  return feature;
}

}  // namespace

std::vector<Feature> find_flats(const Ground& ground, const DetectOptions& options) {
  const Floor floor = floor_of(ground.lake, kFloorScale);
  std::vector<Feature> flats;
  const Components groups = wide_parts(floor, options);
  for (const std::vector<Cell>& cells : cells_by_group(groups)) {
    // growing back cannot make a small one large: it adds at most two sigma all round
    if (floor.smooth.frame().cell_area() * static_cast<double>(cells.size()) < options.flat_area / 4) continue;
    if (auto feature = flat_feature(cells, floor, ground.lake, groups, options)) flats.push_back(std::move(*feature));
  }
  std::stable_sort(flats.begin(), flats.end(), [](const Feature& a, const Feature& b) {
    return std::get<Flat>(a.details).area > std::get<Flat>(b.details).area;
  });
  for (std::size_t i = 0; i < flats.size(); ++i) flats[i].name = fmt::format("Flat {}", i + 1);
  return flats;
}

}  // namespace castplan
