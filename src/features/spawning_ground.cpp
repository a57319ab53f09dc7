// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/components.hpp"
#include "castplan/grid/distance.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/terrain/fetch.hpp"
#include "castplan/terrain/position.hpp"
#include "features/coarse.hpp"
#include "features/floor.hpp"
#include "features/made_apart.hpp"
#include "features/weed_beds.hpp"
#include "features/wide_floor.hpp"

namespace castplan {

namespace {

constexpr Metres kBlock(15);          // widest block
constexpr Metres kFetchEvery(40);     // the shelter of a place is that of its neighbours
constexpr Metres kFormReach(40);      // half the width of what makes a bed hollow or a nose
constexpr Degrees kLevel(0.5);        // of a way: gentler counts as level
constexpr double kLikely = 0.35;      // confidence of the form alone, design
constexpr double kSurer = 0.1;        // more for a hollow bed, and for plants
constexpr int kFirstLook = 12;        // directions in which plainly open water is told
constexpr double kPlainlyOpen = 1.6;  // times the limit, over three of them

using Mask = Grid<std::uint8_t>;

/// What is the same for all species.
struct Blocks {
  Grid<Metres32> depth;  ///< means of blocks, land as 0, so that a shore is a slope; NaN where it is not known
  WindFetch fetch;
  Polygons plants;  ///< mapped
};

Mask marked(const Frame& frame, const std::function<bool(Cell)>& test) {
  Mask mask(frame, 0);
  sweep(mask.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < mask.cols(); ++col) mask[Cell{row, col}] = test({row, col}) ? 1 : 0;
    }
  });
  return mask;
}

Mask of_depth_and_grade(const Blocks& blocks, const Habitat& habitat) {
  return marked(blocks.depth.frame(), [&](Cell at) {
    const double depth = static_cast<double>(blocks.depth[at].value());
    if (!(depth >= habitat.depth.least.value() && depth <= habitat.depth.most.value())) return false;
    const XY rise = rise_at(blocks.depth, at);
    const double grade = 100 * std::hypot(rise.x, rise.y);
    return grade >= habitat.grade_pct.least && grade <= habitat.grade_pct.most;
  });
}

// Without the shallows in which a square of the largest area has room: what lies within half its side of a place that
// is so far from the edge of them.
void drop_large_flats(Mask& mask, SquareMetres most) {
  const Metres half(std::sqrt(most.value()) / 2);
  const Frame& frame = mask.frame();
  const Grid<Metres32> from_edge = distance_to(frame, [&](Cell at) { return mask[at] == 0; });
  const auto deep_inside = [&](Cell at) { return Metres(from_edge[at]) > half && mask[at] != 0; };
  const bool any = std::any_of(from_edge.cells().begin(), from_edge.cells().end(),
                               [&](Metres32 away) { return std::isfinite(away.value()) && Metres(away) > half; });
  if (!any) return;
  const Grid<Metres32> from_core = distance_to(frame, deep_inside);
  for (std::size_t at = 0; at < mask.size(); ++at) {
    if (Metres(from_core[at]) <= half) mask[at] = 0;
  }
}

// Few radials tell open water; all of them are looked along only where those do not.
bool plainly_open(const WindFetch& fetch, XY at, Metres most) {
  std::array<double, kFirstLook + 2> water{};
  for (int i = 0; i < kFirstLook; ++i) {
    const double angle = i * 2 * M_PI / kFirstLook;
    water[static_cast<std::size_t>(i)] = fetch.radial(at, {std::cos(angle), std::sin(angle)}).value_or(0);
  }
  water[kFirstLook] = water[0];
  water[kFirstLook + 1] = water[1];
  for (std::size_t i = 0; i < kFirstLook; ++i) {
    const double least = std::min({water[i], water[i + 1], water[i + 2]});
    if (least > kPlainlyOpen * most.value()) return true;
  }
  return false;
}

// The fetch of each tile at the first marked block of it; those of open tiles and of unknown ones are unmarked.
Grid<Metres32> drop_exposed(Mask& mask, const WindFetch& fetch, Metres most) {
  const Frame& frame = mask.frame();
  const int tile = std::max(1, static_cast<int>(kFetchEvery / frame.cell));
  const int rows = (frame.rows + tile - 1) / tile, cols = (frame.cols + tile - 1) / tile;
  Grid<Metres32> found(Frame{frame.corner, frame.cell * tile, rows, cols},
                       Metres32(std::numeric_limits<float>::quiet_NaN()));
  each(rows, [&](int row) {
    for (int col = 0; col < cols; ++col) {
      std::optional<XY> at;
      const int south = std::min((row + 1) * tile, frame.rows), east = std::min((col + 1) * tile, frame.cols);
      for (int r = row * tile; r < south; ++r) {
        for (int c = col * tile; c < east; ++c) {
          if (mask[Cell{r, c}] != 0 && !at) at = frame.centre({r, c});
        }
      }
      if (!at) continue;
      std::optional<Metres> longest;
      if (!plainly_open(fetch, *at, most)) longest = fetch.greatest(*at);
      if (longest && *longest <= most) {
        found[Cell{row, col}] = Metres32(*longest);
        continue;
      }
      for (int r = row * tile; r < south; ++r) {
        for (int c = col * tile; c < east; ++c) mask[Cell{r, c}] = 0;
      }
    }
  });
  return found;
}

bool stands_out(Form form) {
  return form == Form::peak || form == Form::ridge || form == Form::spur || form == Form::shoulder;
}
bool is_hollow(Form form) {
  return form == Form::pit || form == Form::valley || form == Form::hollow || form == Form::footslope;
}

/// All that one piece of ground is made from.
struct Piece {
  const std::vector<Cell>& cells;
  const Blocks& blocks;
  const Grid<Metres32>& fetch;
  const Ground& ground;
  const GroundWanted& wanted;
};

Polygons outline_of(const Piece& piece) {
  Cell low = piece.cells.front(), high = low;
  for (const Cell at : piece.cells) {
    low = {std::min(low.row, at.row), std::min(low.col, at.col)};
    high = {std::max(high.row, at.row), std::max(high.col, at.col)};
  }
  const Frame& whole = piece.blocks.depth.frame();
  Frame frame = whole;
  frame.corner = whole.corner + XY{(low.col - 1) * whole.cell.value(), -(low.row - 1) * whole.cell.value()};
  frame.rows = high.row - low.row + 3;
  frame.cols = high.col - low.col + 3;
  Grid<Metres32> part(frame, Metres32(0));
  for (const Cell at : piece.cells) part[Cell{at.row - low.row + 1, at.col - low.col + 1}] = Metres32(1);
  return simplified(area_above(part, 0.5F), whole.cell * 0.1);
}

bool has_plants(const Piece& piece, Cell at) {
  const auto& known = piece.ground.weeds;
  if (known && Metres(piece.blocks.depth[at]) <= known->depth) return true;
  return !piece.blocks.plants.empty() && contains(piece.blocks.plants, piece.blocks.depth.frame().centre(at));
}

Feature feature_of(const Piece& piece) {
  const Frame& frame = piece.blocks.depth.frame();
  LikelyGround details;
  details.species = piece.wanted.species;
  details.reason = piece.wanted.reason;
  details.waters = piece.wanted.waters;
  double depth = 0;
  std::size_t hollow = 0, plants = 0;
  XY middle{};
  for (const Cell at : piece.cells) {
    depth += static_cast<double>(piece.blocks.depth[at].value());
    middle = middle + (frame.centre(at) - frame.corner);
    hollow += is_hollow(form_at(piece.blocks.depth, at, kFormReach, kLevel)) ? 1 : 0;
    plants += has_plants(piece, at) ? 1 : 0;
    const float fetch = piece.fetch[piece.fetch.frame().cell_at(frame.centre(at))].value();
    if (!std::isnan(fetch)) details.fetch = std::max(details.fetch.value_or(Metres(0)), Metres(fetch));
  }
  const auto count = static_cast<double>(piece.cells.size());
  details.depth = Metres(depth / count);
  details.area = frame.cell_area() * count;
  details.hollow = 2 * hollow > piece.cells.size();
  details.plants = 2 * plants > piece.cells.size();
  middle = frame.corner + middle * (1 / count);
  Feature feature;
  feature.kind = Kind::spawning_ground;
  feature.anchor = frame.centre(*std::min_element(piece.cells.begin(), piece.cells.end(), [&](Cell a, Cell b) {
    return distance(frame.centre(a), middle) < distance(frame.centre(b), middle);
  }));
  const Habitat& habitat = piece.wanted.habitat;
  feature.confidence =
      kLikely + (habitat.concave && details.hollow ? kSurer : 0.0) + (habitat.plants && details.plants ? kSurer : 0.0);
  feature.geometry = outline_of(piece);
  feature.details = std::move(details);
  return feature;
}

std::vector<Feature> ground_of(const GroundWanted& wanted, const Blocks& blocks, const Ground& ground) {
  Mask mask = of_depth_and_grade(blocks, wanted.habitat);
  drop_large_flats(mask, wanted.habitat.area.most);
  const Grid<Metres32> fetch = drop_exposed(mask, blocks.fetch, wanted.habitat.fetch_most);
  if (wanted.habitat.concave) {
    mask = marked(mask.frame(),
                  [&](Cell at) { return mask[at] != 0 && !stands_out(form_at(blocks.depth, at, kFormReach, kLevel)); });
  }
  const Components groups = components(mask.frame(), [&](Cell at) { return mask[at] != 0; });
  const auto cells = cells_by_group(groups);
  std::vector<Feature> found = in_parallel(groups.count, [&](int i) -> std::optional<Feature> {
    const auto& own = cells[static_cast<std::size_t>(i)];
    if (mask.frame().cell_area() * static_cast<double>(own.size()) < wanted.habitat.area.least) return std::nullopt;
    return feature_of({own, blocks, fetch, ground, wanted});
  });
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) {
    return std::get<LikelyGround>(a.details).area > std::get<LikelyGround>(b.details).area;
  });
  return numbered(std::move(found), wanted.title + ", likely spawning ground");
}

}  // namespace

std::vector<Feature> find_spawning_ground(const Ground& ground, const DetectOptions&) {
  std::vector<Feature> found;
  if (ground.wanted.empty()) return found;
  const Blocks blocks{coarse_depth(ground.quiet(), coarse_step(ground.lake.depth.frame().cell, kBlock)),
                      WindFetch(ground.lake), areas_of(ground, "weeds")};
  for (const GroundWanted& wanted : ground.wanted) {
    for (Feature& each : ground_of(wanted, blocks, ground)) found.push_back(std::move(each));
  }
  return found;
}

}  // namespace castplan
