// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/features/detect.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {

namespace {

// On a surface every pass either joins two rises or parts two holes, never both, so the merge trees of height and of
// depth together hold all passes (Edelsbrunner & Harer 2010, Computational Topology, VI.2 and VII.1).

/// A merge tree with the field that it was made from: height (depth with its sign turned) or depth.
struct FloorTree {
  Grid<Metres32> field;
  std::vector<Summit> summits;
  Joined what;  ///< what its summits are
};

/// Depth times sign; where only water is wanted, land is left out.
Grid<Metres32> turned(const Lake& lake, float sign, bool water_only) {
  Grid<Metres32> field(lake.depth.frame());
  sweep(field.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      const auto depth = lake.depth.row(row);
      const auto out = field.row(row);
      for (std::size_t col = 0; col < out.size(); ++col) {
        const bool kept = !water_only || depth[col].value() > 0;
        out[col] = kept ? depth[col] * sign : Metres32(std::numeric_limits<float>::quiet_NaN());
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

/// How far the floor falls away on both sides of a crest.
struct Flanks {
  Metres lower{0};   ///< on the side that falls further
  Metres higher{0};  ///< on the other
  bool certain = true;
};

constexpr int kTurns = 16;

/// Greatest fall along one line away from a pass, until the line climbs back over the height of the pass.
struct Flank {
  double fall = 0;
  bool certain = true;
};

Flank flank(const Ground& ground, XY pass, Metres depth, int turn, Metres window) {
  const double angle = 2 * M_PI * turn / kTurns;
  const XY ahead{std::cos(angle), std::sin(angle)};
  const double step = ground.lake.depth.frame().cell.value() / 2;
  const float start = bilinear(ground.smooth, pass);
  Flank found;
  for (int i = 1; i * step <= window.value(); ++i) {
    const XY at = pass + ahead * (i * step);
    const float here = bilinear(ground.smooth, at);
    if (std::isnan(here)) {
      found.certain = cover_at(ground.lake, at) != Cover::unknown;
      break;
    }
    if (here < start) break;
    found.fall = std::max(found.fall, here - depth.value());
  }
  return found;
}

// The two flanks lie across from each other, a sixteenth of a turn more or less: of all such pairs the one whose higher
// flank falls furthest. The floor is read smoothed, so that the survey's noise does not dig flanks.
Flanks flanks_of(const Ground& ground, XY pass, Metres depth, Metres window) {
  std::array<Flank, kTurns> all;
  for (int turn = 0; turn < kTurns; ++turn) all[turn] = flank(ground, pass, depth, turn, window);
  Flanks best;
  for (int turn = 0; turn < kTurns; ++turn) {
    for (int other = turn + kTurns / 2 - 1; other <= turn + kTurns / 2 + 1; ++other) {
      const Flank& a = all[turn];
      const Flank& b = all[other % kTurns];
      const Metres higher(std::min(a.fall, b.fall)), lower(std::max(a.fall, b.fall));
      if (higher > best.higher || (higher == best.higher && lower > best.lower)) best = {lower, higher, true};
    }
  }
  best.certain = std::all_of(all.begin(), all.end(), [](const Flank& each) { return each.certain; });
  return best;
}

Feature saddle_feature(const FloorTree& tree, int younger, const Flanks& flanks, const Ground& ground,
                       const DetectOptions& options) {
  const Summit& summit = tree.summits[younger];
  const Metres depth(std::abs(summit.pass));
  Feature feature;
  feature.kind = Kind::saddle;
  feature.anchor = tree.field.frame().centre(tree.field.cell_of(summit.pass_cell));
  feature.geometry = Points{feature.anchor};
  feature.details = Saddle{depth, flanks.lower, sides_of(tree, younger, options.saddle_relief)};
  // it must stand over its flanks, and what it joins over it
  const Metres relief = std::min(flanks.lower, Metres(summit.prominence()));
  feature.confidence =
      confidence_in(relief, options.saddle_relief, ground.lake, feature.anchor) * (flanks.certain ? 1.0 : 0.5);
  return feature;
}

void append_saddles(const FloorTree& tree, const Ground& ground, const DetectOptions& options,
                    std::vector<Feature>& found) {
  for (int i = 0; i < static_cast<int>(tree.summits.size()); ++i) {
    const Summit& summit = tree.summits[i];
    if (summit.parent < 0 || summit.prominence() < static_cast<float>(options.saddle_relief.value())) continue;
    const XY pass = tree.field.frame().centre(tree.field.cell_of(summit.pass_cell));
    const Flanks flanks = flanks_of(ground, pass, Metres(std::abs(summit.pass)), options.saddle_window);
    if (flanks.lower < options.saddle_relief || flanks.higher < options.saddle_relief / 2) continue;
    found.push_back(saddle_feature(tree, i, flanks, ground, options));
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
  std::vector<Feature> found;
  append_saddles(tree_of(turned(ground.lake, -1, false), Joined::hump), ground, options, found);
  append_saddles(tree_of(turned(ground.lake, 1, true), Joined::pool), ground, options, found);
  found = each_bridge_once(std::move(found), std::max(options.neighbour_reach, ground.lake.depth.frame().cell * 2));
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) {
    return std::get<Saddle>(a.details).depth < std::get<Saddle>(b.details).depth;
  });
  for (std::size_t i = 0; i < found.size(); ++i) found[i].name = fmt::format("Saddle {}", i + 1);
  return found;
}

}  // namespace castplan
