// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>

#include "castplan/grid/observations.hpp"

namespace castplan {

/// How deep rooted plants grow: the expected edge of the dense beds and the band around it.
struct WeedDepth {
  Metres expected;
  Metres low;
  Metres high;
  std::optional<Metres> deepest{};  ///< where the last plants stand; none: not known
};

/// Expected: the mean line log10 z = 0.66 log10 SD + 0.31 of Caffrey, Hoyer & Canfield (2007), Lake Reserv. Manage. 23.
/// high: their upper envelope, log10 z = 0.53 log10 SD + 0.59. low: model B of Chambers & Kalff (1985), Can. J. Fish.
/// Aquat. Sci. 42, 701-709, sqrt z = 1.14 log10 SD + 1.32. The band is a design choice. Valid for Secchi depths of 0.3
/// to 10 m; should the lines cross, low and high are widened to hold expected. deepest: the envelope, below which none
/// of their lakes had plants. Throws InputError unless secchi > 0.
WeedDepth weed_depth_from_secchi(Metres secchi);

/// The single formulas, for tests and for those who compare. log10 throughout. Model A (Quebec and others):
/// sqrt z = 1.33 log10 SD + 1.40. Where the root would be negative (SD under 0.09 m) z is 0.
Metres caffrey_mean(Metres secchi);
Metres caffrey_envelope(Metres secchi);
Metres chambers_kalff_a(Metres secchi);
Metres chambers_kalff_b(Metres secchi);

/// Edge fitted to samples: logistic regression of presence on depth; expected is the depth of even odds, low and high
/// its 90 % interval (delta method, low not above the surface). Where every plant stood shallower than every bare
/// sample no curve can be fitted: low is then the deepest plant, high the shallowest bare sample, expected the middle.
/// deepest: the deepest sample with a plant. Samples of unknown depth are left out. Throws InputError when the samples
/// cannot tell: fewer than 10, all alike, no clear fall of presence with depth (one-sided 95 %), or an edge outside the
/// sampled depths.
WeedDepth fit_weed_depth(std::span<const PlantSample> samples);

}  // namespace castplan
