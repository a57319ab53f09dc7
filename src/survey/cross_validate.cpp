// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/cross_validate.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include "castplan/grid/inside.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "survey/error_curve.hpp"

namespace castplan::survey {
namespace {

constexpr int kFolds = 5;
constexpr double kSmallEnough = 200'000.0;  // cells: no need for a coarser grid
constexpr double kShareOfCells = 0.1;       // of the surface's cells, for each of the folds

Frame coarser(const Frame& frame) {
  const double cells = static_cast<double>(frame.rows) * static_cast<double>(frame.cols);
  const double most = std::max(kSmallEnough, kShareOfCells * cells);
  const int factor = std::max(1, static_cast<int>(std::ceil(std::sqrt(cells / most))));
  return {.corner = frame.corner,
          .cell = frame.cell * factor,
          .rows = (frame.rows + factor - 1) / factor,
          .cols = (frame.cols + factor - 1) / factor};
}

/// Mixes a number thoroughly. Source: Steele, Lea & Flood (2014), OOPSLA, doi:10.1145/2660193.2660195 (SplitMix).
std::uint64_t mixed(std::uint64_t value) {
  value += 0x9E3779B97F4A7C15ULL;
  value = (value ^ (value >> 30)) * 0xBF58476D1CE4E5B9ULL;
  value = (value ^ (value >> 27)) * 0x94D049BB133111EBULL;
  return value ^ (value >> 31);
}

/// Sides of the squares, in gaps: so wide that held-back data lie as far from the rest as water does on the real map.
/// A missing piece of contour leaves a strip of twice the width; of a track it leaves its neighbours, which may run
/// along a ridge and see nothing of it.
constexpr double kSoundingBlock = 3.0;
constexpr double kContourBlock = 1.5;

struct Blocks {
  XY corner;
  Metres sounding_side;
  Metres contour_side;

  /// kind: 0 for soundings, else a number for the contour's depth.
  [[nodiscard]] int fold_of(XY place, std::int64_t kind) const {
    const Metres side = kind == 0 ? sounding_side : contour_side;
    const auto east = static_cast<std::int64_t>(std::floor((place.x - corner.x) / side.value()));
    const auto south = static_cast<std::int64_t>(std::floor((corner.y - place.y) / side.value()));
    const std::uint64_t key = mixed(static_cast<std::uint64_t>(east) ^
                                    mixed(static_cast<std::uint64_t>(south) ^ mixed(static_cast<std::uint64_t>(kind))));
    return static_cast<int>(key % kFolds);
  }
};

std::int64_t kind_of(const DepthContour& contour) { return 1 + std::llround(100.0 * contour.depth.value()); }

struct HeldOut {
  XY place;
  double depth;
};

/// The sources without one fold, and that fold's data.
struct Split {
  Sources rest;
  std::vector<HeldOut> held;
};

void split_contour(const DepthContour& contour, Metres step, const Blocks& blocks, int fold, Split& split) {
  if (contour.line.size() < 2) return;
  Line kept;
  const auto finish = [&] {
    if (kept.size() > 1) split.rest.contours.push_back({.line = kept, .depth = contour.depth});
    kept.clear();
  };
  for (const XY point : resampled(contour.line, step)) {
    if (blocks.fold_of(point, kind_of(contour)) == fold) {
      split.held.push_back({.place = point, .depth = contour.depth.value()});
      finish();
    } else {
      kept.push_back(point);
    }
  }
  finish();
}

Split split_off(const Sources& sources, const Grid<std::uint8_t>& water, const Blocks& blocks, int fold) {
  Split split;
  split.rest.water = water;
  split.rest.shore = sources.shore;
  for (const Sounding& sounding : sources.soundings) {
    if (blocks.fold_of(sounding.at, 0) == fold) {
      split.held.push_back({.place = sounding.at, .depth = static_cast<double>(sounding.depth.value())});
    } else {
      split.rest.soundings.push_back(sounding);
    }
  }
  for (const DepthContour& contour : sources.contours) {
    split_contour(contour, water.frame().cell * 0.5, blocks, fold, split);
  }
  return split;
}

std::vector<Residual> residuals_of(const Split& split, Metres tension_gap, const SurfaceOptions& options) {
  std::vector<Residual> residuals;
  if (split.held.empty()) return residuals;
  const Grid<std::uint8_t>& water = split.rest.water;
  const Grid<Metres32> depth = fit_plate(split.rest, tension_gap, options);
  const Grid<Metres32> distance = distance_to_data(split.rest);
  for (const HeldOut& held : split.held) {
    const Cell at = water.frame().cell_at(held.place);
    const float read = bilinear(depth, held.place);
    if (!water.holds(at) || !water[at] || !std::isfinite(read)) continue;
    residuals.push_back({.distance = static_cast<double>(distance[at].value()),
                         .depth = held.depth,
                         .error = std::max(static_cast<double>(read), options.least_depth.value()) - held.depth});
  }
  return residuals;
}

}  // namespace

CrossValidation cross_validate(const Sources& sources, const Polygons& shoreline, Metres gap, Metres tension_gap,
                               const SurfaceOptions& options) {
  const Frame frame = coarser(sources.water.frame());
  const Grid<std::uint8_t> water = cells_inside(shoreline, frame);
  const Metres least_side = 6.0 * frame.cell;
  const Blocks blocks{.corner = frame.corner,
                      .sounding_side = std::max(kSoundingBlock * gap, least_side),
                      .contour_side = std::max(kContourBlock * gap, least_side)};
  std::vector<std::vector<Residual>> of_fold(kFolds);
  each(kFolds, [&](int fold) {
    of_fold[static_cast<std::size_t>(fold)] =
        residuals_of(split_off(sources, water, blocks, fold), tension_gap, options);
  });
  std::vector<Residual> residuals;
  for (const auto& fold : of_fold) residuals.insert(residuals.end(), fold.begin(), fold.end());
  CrossValidation result = summary_of(residuals);
  result.folds = kFolds;
  result.block = sources.soundings.empty() ? blocks.contour_side : blocks.sounding_side;
  result.cell = frame.cell;
  Metres least = options.contour_error;
  if (!sources.soundings.empty()) least = options.sounding_error;
  result.curve = curve_of(std::move(residuals), least);
  return result;
}

}  // namespace castplan::survey
