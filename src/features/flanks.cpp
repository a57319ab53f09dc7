// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/flanks.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "castplan/grid/sample.hpp"

namespace castplan {

namespace {

constexpr int kTurns = 16;

// A line ends where it has climbed by this much (metres): less is noise on the crest.
constexpr float kBump = 0.25F;

/// Greatest fall along one line away from a pass, until the line climbs over the height of the pass.
struct Flank {
  double fall = 0;
  bool certain = true;
};

Flank flank(const Lake& lake, const Floor& floor, XY pass, Metres depth, int turn, Metres window) {
  const double angle = 2 * M_PI * turn / kTurns;
  const XY ahead{std::cos(angle), std::sin(angle)};
  const double step = floor.smooth.frame().cell.value() / 2;
  const float start = bilinear(floor.smooth, pass);
  Flank found;
  for (int i = 1; i * step <= window.value(); ++i) {
    const XY at = pass + ahead * (i * step);
    const float here = bilinear(floor.smooth, at);
    if (std::isnan(here)) {
      // the smoothed floor ends up to a block before what is known does
      found.certain = cover_at(lake, at) != Cover::unknown && cover_at(lake, at + ahead * (2 * step)) != Cover::unknown;
      break;
    }
    if (here < start - kBump) break;
    found.fall = std::max(found.fall, here - depth.value());
  }
  return found;
}

}  // namespace

Flanks flanks_of(const Lake& lake, const Floor& floor, XY pass, Metres depth, Metres window) {
  std::array<Flank, kTurns> all;
  for (int turn = 0; turn < kTurns; ++turn) all[turn] = flank(lake, floor, pass, depth, turn, window);
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

}  // namespace castplan
