// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/grid/sweep.hpp"
#include "features/flanks.hpp"
#include "features/floor.hpp"
#include "features/made_apart.hpp"

namespace castplan {

namespace {

// On a surface every pass either joins two rises or parts two holes, never both, so the merge trees of height and of
// depth together hold all passes (Edelsbrunner & Harer 2010, Computational Topology, VI.2 and VII.1).

// The sigma of the smoothing, or 1.25 blocks: half a bar's width, while noise of 0.15 m from cell to cell falls to 0.03
// m.
constexpr Metres kScale(8);

// What smoothing leaves at least of a prominence that counts: of a bump as narrow as 10 m sigma, 100 / (100 + 64).
constexpr double kSmoothedShare = 0.6;

/// A merge tree with the field that it was made from: height (depth with its sign turned) or depth.
struct FloorTree {
  Grid<Metres32> field;
  std::vector<Summit> summits;
  Joined what;  ///< what its summits are
};

bool beside_water(const Grid<Metres32>& depth, int row, int col) {
  for (int r = std::max(0, row - 1); r <= std::min(depth.rows() - 1, row + 1); ++r) {
    for (int c = std::max(0, col - 1); c <= std::min(depth.cols() - 1, col + 1); ++c) {
      if (!std::isnan(depth[Cell{r, c}].value())) return true;
    }
  }
  return false;
}

/// Height of the floor: depth with its sign turned, and 0 where land stands beside water, so that the shore is a rise.
Grid<Metres32> heights(const Lake& lake, const Grid<Metres32>& depth) {
  Grid<Metres32> field(depth.frame(), Metres32(std::numeric_limits<float>::quiet_NaN()));
  sweep(field.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < field.cols(); ++col) {
        const Cell at{row, col};
        if (!std::isnan(depth[at].value())) {
          field[at] = -depth[at];
        } else if (beside_water(depth, row, col) && cover_at(lake, field.frame().centre(at)) == Cover::land) {
          field[at] = Metres32(0);
        }
      }
    }
  });
  return field;
}

FloorTree tree_of(Grid<Metres32> field, Joined what) {
  std::vector<Summit> summits = merge_tree(field);
  return {std::move(field), std::move(summits), what};
}

/// The cells around one and itself, those that are known.
template <class Visit>
void around(const Grid<Metres32>& field, Cell at, const Visit& visit) {
  for (int row = std::max(0, at.row - 1); row <= std::min(field.rows() - 1, at.row + 1); ++row) {
    for (int col = std::max(0, at.col - 1); col <= std::min(field.cols() - 1, at.col + 1); ++col) {
      const std::size_t cell = field.index({row, col});
      if (!std::isnan(field[cell].value())) visit(cell);
    }
  }
}

// Steepest ascent, by the rule of the merge tree: the highest neighbour, the first of equals.
std::size_t climbed(const Grid<Metres32>& field, std::size_t from) {
  while (true) {
    std::size_t best = from;
    around(field, field.cell_of(from), [&](std::size_t cell) {
      if (field[cell] > field[best] || (field[cell] == field[best] && cell < best)) best = cell;
    });
    if (best == from) return from;
    from = best;
  }
}

int summit_at(const FloorTree& tree, std::size_t cell) {
  const auto found = std::lower_bound(tree.summits.begin(), tree.summits.end(), cell,
                                      [](const Summit& summit, std::size_t at) { return summit.cell < at; });
  return static_cast<int>(found - tree.summits.begin());
}

// A small summit belongs to the one that it joins.
int standing(const FloorTree& tree, int summit, Metres least) {
  while (tree.summits[summit].parent >= 0 && tree.summits[summit].prominence() < static_cast<float>(least.value())) {
    summit = tree.summits[summit].parent;
  }
  return summit;
}

// Whether a summit is part of what `younger` gathered above its own pass.
bool gathered_by(const FloorTree& tree, int summit, int younger) {
  const float pass = tree.summits[younger].pass;
  while (summit != younger && tree.summits[summit].parent >= 0 && tree.summits[summit].pass >= pass) {
    summit = tree.summits[summit].parent;
  }
  return summit == younger;
}

SaddleSide side_of(const FloorTree& tree, int summit) {
  const Summit& top = tree.summits[summit];
  // a height of 0 is land
  const bool shore = tree.what == Joined::hump && top.height >= 0;
  return {shore ? Joined::shore : tree.what, tree.field.frame().centre(tree.field.cell_of(top.cell)), {}};
}

// The nearest rises (or holes) on both sides of a pass that matter by relief, found by climbing from the pass.
std::array<SaddleSide, 2> sides_of(const FloorTree& tree, int younger, Metres least) {
  std::array<int, 2> sides{younger, tree.summits[younger].parent};
  std::array<std::size_t, 2> first{};  // the highest cell that each side was climbed from
  std::array<bool, 2> found{};
  const Cell pass = tree.field.cell_of(tree.summits[younger].pass_cell);
  around(tree.field, pass, [&](std::size_t cell) {
    if (tree.field[cell].value() < tree.summits[younger].pass) return;
    const std::size_t top = climbed(tree.field, cell);
    const int local = summit_at(tree, top);
    const std::size_t which = gathered_by(tree, local, younger) ? 0 : 1;
    if (found[which] && tree.field[first[which]] >= tree.field[cell]) return;
    found[which] = true;
    first[which] = cell;
    sides[which] = standing(tree, local, least);
  });
  return {side_of(tree, sides[0]), side_of(tree, sides[1])};
}

// Where the floor is level within the cells around a pass: Newton's step on the quadratic through them, no
// further than a cell.
XY refined(const Grid<Metres32>& field, Cell cell) {
  const XY middle = field.frame().centre(cell);
  const auto value = [&](int row, int col) {
    const Cell at{cell.row + row, cell.col + col};
    return field.holds(at) ? static_cast<double>(field[at].value()) : std::nan("");
  };
  const double gx = (value(0, 1) - value(0, -1)) / 2, gy = (value(-1, 0) - value(1, 0)) / 2;
  const double xx = value(0, 1) - 2 * value(0, 0) + value(0, -1);
  const double yy = value(-1, 0) - 2 * value(0, 0) + value(1, 0);
  const double xy = (value(-1, 1) - value(-1, -1) - value(1, 1) + value(1, -1)) / 4;
  const double whole = xx * yy - xy * xy;
  const XY step{(xy * gy - yy * gx) / whole, (xy * gx - xx * gy) / whole};
  // beside the unknown, and where the quadratic is no saddle, the cell itself must do
  if (!(whole < 0) || !(std::abs(step.x) <= 1) || !(std::abs(step.y) <= 1)) return middle;
  return middle + step * field.frame().cell.value();
}

/// What all saddles are found from.
struct Scene {
  const Ground& ground;
  const Lake& lake;
  Floor floor;
  const DetectOptions& options;
};

// Smoothing takes from rises and from passes, so both are read as they were before it.
Metres depth_of(const Scene& scene, std::size_t cell) {
  return unsmoothed_at(scene.floor, scene.floor.smooth.cell_of(cell), scene.lake.depth.frame().cell);
}

// How far the lower of the two sides stands over the pass, or its hole lies below it.
Metres prominence_of(const FloorTree& tree, const Summit& summit, const Scene& scene) {
  const bool shore = tree.what == Joined::hump && summit.height >= 0;
  const Metres depth = shore ? Metres(0) : depth_of(scene, summit.cell);
  const Metres pass = depth_of(scene, summit.pass_cell);
  return tree.what == Joined::hump ? pass - depth : depth - pass;
}

// Rises must stand over their pass by the full relief. Which of two passes joins a rise and which closes a ring with it
// may hang on a hand's breadth; the second then parts two holes, and those need only half of it.
Metres least_prominence(const FloorTree& tree, Metres relief) {
  return tree.what == Joined::hump ? relief : relief / 2;
}

std::optional<Feature> saddle_at(const FloorTree& tree, int younger, const Scene& scene) {
  const Summit& summit = tree.summits[younger];
  const DetectOptions& options = scene.options;
  const XY pass = refined(tree.field, tree.field.cell_of(summit.pass_cell));
  const Metres depth = depth_of(scene, summit.pass_cell);
  const Flanks flanks = flanks_of(scene.lake, scene.floor, pass, depth, options.saddle_window);
  const Metres prominence = prominence_of(tree, summit, scene);
  const Metres least = over_noise(options.saddle_relief, scene.lake, pass);
  if (prominence < least_prominence(tree, least) || flanks.lower < least || flanks.higher < least) return std::nullopt;
  Feature feature;
  feature.kind = Kind::saddle;
  feature.anchor = pass;
  feature.geometry = Points{pass};
  feature.details = Saddle{depth, flanks.lower, sides_of(tree, younger, options.saddle_relief * kSmoothedShare)};
  // it must stand over its flanks, and what it joins over it
  const Metres relief = tree.what == Joined::hump ? std::min(flanks.higher, prominence) : flanks.higher;
  feature.confidence = confidence_of({.relief = relief, .asked = options.saddle_relief, .certain = flanks.certain},
                                     scene.ground, feature.anchor);
  return feature;
}

void append_saddles(const FloorTree& tree, const Scene& scene, std::vector<Feature>& found) {
  for (int i = 0; i < static_cast<int>(tree.summits.size()); ++i) {
    const Summit& summit = tree.summits[i];
    const Metres least = least_prominence(tree, scene.options.saddle_relief) * kSmoothedShare;
    if (summit.parent < 0 || summit.prominence() < static_cast<float>(least.value())) continue;
    if (auto saddle = saddle_at(tree, i, scene)) found.push_back(std::move(*saddle));
  }
}

// Passes of one bridge: on cells that touch at their corners both trees may see it, and noise may part one.
std::vector<Feature> each_bridge_once(std::vector<Feature> all, Metres apart) {
  std::sort(all.begin(), all.end(), [](const Feature& a, const Feature& b) {
    const auto& p = std::get<Saddle>(a.details);
    const auto& q = std::get<Saddle>(b.details);
    if (p.relief != q.relief) return p.relief > q.relief;
    return a.anchor.y != b.anchor.y ? a.anchor.y > b.anchor.y : a.anchor.x < b.anchor.x;
  });
  std::vector<Feature> kept;
  for (Feature& feature : all) {
    const bool fresh = std::none_of(
        kept.begin(), kept.end(), [&](const Feature& other) { return distance(feature.anchor, other.anchor) < apart; });
    if (fresh) kept.push_back(std::move(feature));
  }
  return kept;
}

}  // namespace

std::vector<Feature> find_saddles(const Ground& ground, const DetectOptions& options) {
  const Scene scene{ground, ground.lake, smoothed_at(ground.floor->level, kScale), options};
  std::vector<Feature> found;
  append_saddles(tree_of(heights(scene.lake, scene.floor.smooth), Joined::hump), scene, found);
  append_saddles(tree_of(scene.floor.smooth, Joined::pool), scene, found);
  found = each_bridge_once(std::move(found), std::max(options.saddles_apart, ground.lake.depth.frame().cell * 2));
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) {
    return std::get<Saddle>(a.details).depth < std::get<Saddle>(b.details).depth;
  });
  return numbered(std::move(found), "Saddle");
}

}  // namespace castplan
