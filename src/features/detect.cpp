// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/detect.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <limits>

#include "castplan/grid/sweep.hpp"
#include "castplan/terrain/noise.hpp"
#include "castplan/terrain/smooth.hpp"
#include "features/bends.hpp"
#include "features/floor.hpp"

namespace castplan {

namespace {

constexpr std::array kDetectors{
    Detector{"pools", "closed holes by their height over the sill", false, find_pools},
    Detector{"drop-offs", "lines of steepest floor, with top and base", true, find_drop_offs},
    Detector{"weed-lines", "edges of rooted plants, mapped or expected", true, find_weed_lines},
    Detector{"humps", "rises that stay under water", false, find_humps},
    Detector{"saddles", "low bridges between rises, and bars between holes", false, find_saddles},
    Detector{"flats", "wide shelves beside deeper water", false, find_flats},
    Detector{"channels", "beds of old creeks and rivers", false, find_channels},
    Detector{"points", "bars that run out under water, and the notches beside them", false, find_points},
    Detector{"narrows", "waists of the water between two basins", false, find_narrows},
    Detector{"bays", "pockets of the shore behind a mouth", false, find_bays},
    Detector{"hazards", "shoals away from the shore, and mapped dangers", false, find_hazards},
    Detector{"spawning-grounds", "likely spawning ground, to be left alone", false, find_spawning_ground},
    Detector{"mapped", "wood, rock, docks, inflows, closures and launches as given", false, mapped_features},
};

// Land counts as depth 0 however far from water, so that the shore itself is no end of the data for the smoothing.
FieldRows with_land_at_zero(const Lake& lake) {
  return {lake.depth.frame(), [&lake](int row, std::vector<Metres32>& room) {
            const auto depth = lake.depth.row(row);
            std::transform(depth.begin(), depth.end(), lake.cover.row(row).begin(), room.begin(),
                           [](Metres32 value, Cover cover) { return cover == Cover::land ? Metres32(0) : value; });
            return static_cast<const Metres32*>(room.data());
          }};
}

constexpr double kMostCells = 1.5;  // of smoothing against noise: more would round what is there

// The smoothing that leaves kQuiet of the noise: a Gaussian mean of sigma s leaves noise * cell / (2 sqrt(pi) s)
// (closed form).
Metres steadying(Metres noise, Metres cell) {
  return cell * std::min(kMostCells, noise / kQuiet / (2 * std::sqrt(M_PI)));
}

Grid<Metres32> steadied(const Lake& lake, Metres sigma) {
  Grid<Metres32> depth = smoothed(lake.depth, sigma);
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (lake.cover[i] != Cover::water) depth[i] = lake.depth[i];
  }
  return depth;
}

}  // namespace

std::span<const Detector> detectors() { return kDetectors; }

std::vector<Feature> find_features(Ground ground, const DetectOptions& options, Scales* used) {
  // never more noise than the survey may have
  ground.noise = std::min(cell_noise(ground.lake.depth), ground.lake.depth_error);
  std::optional<Lake> quiet;
  if (ground.noise > kQuiet) {
    quiet = ground.lake;
    quiet->depth = steadied(ground.lake, steadying(ground.noise, ground.lake.depth.frame().cell));
    ground.without_noise = &*quiet;
  }
  if (std::any_of(kDetectors.begin(), kDetectors.end(), [](const Detector& each) { return each.needs_smooth; })) {
    ground.scale = std::max(options.break_scale, ground.lake.depth.frame().cell * 1.25);
    ground.smooth = smoothed(with_land_at_zero(ground.lake), ground.scale);
  }
  ground.floor = std::make_shared<const Floor>(floor_of(ground.lake, kFloorScale));
  if (used != nullptr) {
    const bool quieted = ground.without_noise != nullptr;
    *used = {.breaks = ground.scale,
             .forms = ground.floor->scale,
             .bends = bend_scale(ground.lake),
             .noise = ground.noise,
             .quiet = quieted ? steadying(ground.noise, ground.lake.depth.frame().cell) : Metres(0)};
  }
  // detectors look at the same ground and share nothing else
  std::vector<std::vector<Feature>> found(kDetectors.size());
  each(static_cast<int>(kDetectors.size()), [&](int i) { found[i] = kDetectors[i].find(ground, options); });
  std::vector<Feature> all;
  for (std::vector<Feature>& part : found) std::move(part.begin(), part.end(), std::back_inserter(all));
  assign_ids(all, ground.lake.projection);
  relate(all, options.neighbour_reach);
  return all;
}

std::string in_words(const Scales& scales) {
  std::string words = fmt::format(
      "Scales of the search (sigma of a Gaussian mean): drop-offs {:.1f} m, flats and "
      "channels {:.1f} m, points and inside turns {:.1f} m",
      scales.breaks.value(), scales.forms.value(), scales.bends.value());
  if (scales.quiet > Metres(0)) {
    return words + fmt::format(
                       "; the depths differ by {:.2f} m from cell to cell without pattern, so pools, humps, "
                       "shoals and weed edges are read after smoothing over {:.1f} m.",
                       scales.noise.value(), scales.quiet.value());
  }
  return words + "; pools, humps, shoals and weed edges are read from the cells as they are.";
}

Metres floating_depth(const Lake& lake, Metres draft, Metres margin) { return draft + margin + lake.depth_error; }

}  // namespace castplan
