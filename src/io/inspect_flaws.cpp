// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "io/inspect_cells.hpp"
#include "io/inspect_depths.hpp"
#include "io/inspect_parts.hpp"

namespace castplan {
namespace {

// Limits of this file are design choices: a smaller flaw is not worth a line.
constexpr double kDeepShare = 0.15;   ///< of the deepest: an island's shore is shallower than that
constexpr double kFlat = 0.05;        ///< of the water; a smooth floor has next to none
constexpr double kTerraceStep = 0.3;  ///< metres: a quarter of the least drop-off
constexpr std::size_t kFewLevels = 40;
constexpr double kFlatSurface = 0.02;      ///< of the cells at one and the same elevation
constexpr double kLeastSpike = 1.0;        ///< metres
constexpr double kLeastSpikeShare = 0.05;  ///< of the range, where the unit is not known

std::string where_text(const FlawWords& words, Cell at) {
  if (!words.placed) return fmt::format("column {}, row {}", at.col + 1, at.row + 1);
  const Projection& projection = words.placed->projection;
  const XY own = words.placed->map.to_plane({at.col + 0.5, at.row + 0.5});
  return place_text(projection.to_lonlat(own * projection.metres_per_unit()));
}

struct Gaps {
  std::size_t blocks = 0;
  std::size_t cells = 0;
  const Block* largest = nullptr;
};

Gaps deep_ones(const std::vector<Block>& blocks, double deepest) {
  Gaps out;
  for (const Block& block : blocks) {
    if (block.around < kDeepShare * deepest) continue;
    ++out.blocks;
    out.cells += block.cells;
    if (out.largest == nullptr || block.cells > out.largest->cells) out.largest = &block;
  }
  return out;
}

std::string gap_text(const Gaps& gaps, const FlawWords& words) {
  return fmt::format("{} {} ({} {} in all), the largest at {}, where the water around is {:.1f} {} deep", gaps.blocks,
                     gaps.blocks == 1 ? "block" : "blocks", gaps.cells, gaps.cells == 1 ? "cell" : "cells",
                     where_text(words, gaps.largest->at), gaps.largest->around, words.unit);
}

void find_gaps(const Grid<Metres32>& depth, double deepest, const FlawWords& words, const FileFacts& facts,
               Inspection& out) {
  const auto zeros = shut_in(depth, BlockKind::zero);
  if (const Gaps gaps = deep_ones(zeros, deepest); gaps.blocks > 0) {
    out.findings.push_back({Severity::warning, "zero-blocks",
                            fmt::format("{}: cells of exactly 0 shut in by deep water: {}; gaps in the survey look "
                                        "like that, islands do not, and they are read as land",
                                        facts.name, gap_text(gaps, words)),
                            "nodata = 0 under [depth], where the file declares no other; else write them as no data"});
  }
  const auto holes = shut_in(depth, BlockKind::no_data);
  if (const Gaps gaps = deep_ones(holes, deepest); gaps.blocks > 0) {
    out.findings.push_back({Severity::warning, "holes",
                            fmt::format("{}: no data shut in by deep water: {}; nothing is said of what lies there",
                                        facts.name, gap_text(gaps, words)),
                            "a [shoreline] tells islands from gaps; gdal_fillnodata.py fills small gaps"});
  }
}

/// Flat ground at a few levels far apart is made by gridding from contours; at many close ones, by rounding.
void judge_flats(const Flats& flat, const FlawWords& words, const FileFacts& facts, Inspection& out) {
  const std::string shown =
      fmt::format("{}: {} of the water is flat (cells equal to all 8 neighbours), at {} {}", facts.name,
                  share_text(flat.share), flat.levels, flat.levels == 1 ? "level" : "levels");
  if (flat.levels > 1 && flat.step < kTerraceStep) {
    out.findings.push_back(
        {Severity::note, "rounded",
         fmt::format("{} about {:.2f} {} apart: the depths are rounded", shown, flat.step, words.unit),
         "error = \"...\" under [depth]: at least half a step"});
    return;
  }
  if (flat.levels == 1) {
    out.findings.push_back(
        {Severity::warning, "terraces",
         shown + "; a floor is not flat to the last digit, so it may be a lake's surface or a filled gap",
         "a raster gridded from the contours or soundings themselves"});
    return;
  }
  const std::string apart = fmt::format(" about {:.1f} {} apart", flat.step, words.unit);
  out.findings.push_back({Severity::warning, "terraces",
                          fmt::format("{}{}; a floor has no such terraces, and the steps between them would pass for "
                                      "drop-offs",
                                      shown, apart),
                          "a raster gridded from the contours or soundings themselves"});
}

void find_flats(const Grid<Metres32>& depth, const FlawWords& words, FileFacts& facts, Inspection& out) {
  RasterFacts& raster = *facts.raster;
  const Levels found = levels(depth);
  raster.levels = found.count;
  const Flats flat = flats(depth);
  raster.flat_share = flat.share;
  if (words.elevation && found.commonest_share > kFlatSurface && flat.share > kFlatSurface / 2) {
    out.findings.push_back(
        {Severity::warning, "flat-surface",
         fmt::format("{}: {} of the {} are at one elevation, {:.2f}; if that is the lake, the file shows its "
                     "surface, as terrain models do, and not its floor",
                     facts.name, share_text(found.commonest_share),
                     words.depths ? "cells below the water's surface" : "cells", words.elevation(found.commonest)),
         "find a raster of the floor, or soundings or contours"});
  } else if (flat.share > kFlat) {
    judge_flats(flat, words, facts, out);
  } else if (found.count < kFewLevels && depth.size() > 100 * kFewLevels) {
    out.findings.push_back(
        {Severity::note, "few-levels",
         fmt::format("{}: the depths take {} values only: they are rounded", facts.name, found.count),
         "error = \"...\" under [depth]: at least half a step"});
  }
}

void find_spikes(const Grid<Metres32>& depth, double range, const FlawWords& words, const FileFacts& facts,
                 Inspection& out) {
  const auto found = spikes(depth, facts.raster->unit ? kLeastSpike : kLeastSpikeShare * range);
  if (found.empty()) return;
  const Spike& worst = *std::max_element(
      found.begin(), found.end(), [](const Spike& a, const Spike& b) { return std::fabs(a.off) < std::fabs(b.off); });
  out.findings.push_back(
      {Severity::warning, "spikes",
       fmt::format("{}: {} {} off the median of the 3 x 3 cells around, the worst by {:.1f} {} at {}; single cells "
                   "like that are faults of the survey far more often than rocks",
                   facts.name, found.size(), found.size() == 1 ? "cell stands" : "cells stand", std::fabs(worst.off),
                   words.unit, where_text(words, worst.at)),
       "look at the soundings there; write the cells as no data if they are wrong"});
}

}  // namespace

void inspect_flaws(const Grid<Metres32>& depth, const FlawWords& words, FileFacts& facts, Inspection& out) {
  double deepest = 0;
  for (const Metres32 cell : depth.cells()) deepest = std::max(deepest, static_cast<double>(cell.value()));
  if (deepest <= 0) {
    out.findings.push_back(
        {Severity::error, "no-water",
         fmt::format("{}: no cell is below the surface; check the sense, the unit and the level", facts.name),
         "sense = \"...\" or surface = \"... m\" under [depth], or --sense or --surface"});
    return;
  }
  if (words.depths) find_gaps(depth, deepest, words, facts, out);
  find_flats(depth, words, facts, out);
  find_spikes(depth, deepest, words, facts, out);
}

}  // namespace castplan
