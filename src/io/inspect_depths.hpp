// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <string>

#include "castplan/grid/grid.hpp"
#include "castplan/io/inspect.hpp"
#include "io/pixel_map.hpp"

namespace castplan {

/// Where the cells lie.
struct Placed {
  Projection projection;
  PixelMap map;
};

struct DepthQuestion {
  const RasterOptions& options;
  std::optional<Sense> sense;  ///< where somebody said it
  std::string unit_type;       ///< the band's own word
  std::string description;
  double scale;
  double shift;
};

/// What the values of a raster say: unit, sense, range, hypsography, and what looks wrong with them.
/// values: as stored, no data and fillers NaN, in the file's own order. Fills facts.raster.
void inspect_depths(Grid<Metres32> values, const DepthQuestion& question, const std::optional<Placed>& placed,
                    FileFacts& facts, Inspection& out);

/// "ft" or "m" where a name has such a word in it ("depth_ft.tif"); empty where it has none or both.
std::string unit_hint(const std::string& name);

/// What the words of inspect_flaws need to place a cell and to write a depth.
struct FlawWords {
  const std::optional<Placed>& placed;
  std::string unit;                        ///< "m", or "of the file's unit"
  bool depths;                             ///< false: only heights above the lowest cell, as the surface is not known
  std::function<double(float)> elevation;  ///< the file's value for a depth; empty unless it holds elevations
};
/// Blocks of 0, holes, terraces, spikes. depth: more than 0 is water.
void inspect_flaws(const Grid<Metres32>& depth, const FlawWords& words, FileFacts& facts, Inspection& out);

}  // namespace castplan
