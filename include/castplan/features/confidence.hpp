// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/features/detect.hpp"

namespace castplan {

/// What a feature of the floor is judged by.
struct Evidence {
  Metres relief;         ///< as measured
  Metres asked;          ///< the least that counts
  double looks = 1;      ///< how often it was measured where errors are no longer alike; see `looks_along`
  double seen_wide = 1;  ///< share of the relief that a coarser look at the floor still shows
  bool certain = true;   ///< false where it may go on beyond what is known
};

/// How sure a feature is, from 0 to 1: the chance that its true relief is what is asked for.
///
/// Relief is the difference of two depths that err independently and normally by e, so sd = e sqrt(2 / looks) and the
/// chance is Phi((relief - bar) / sd). e is the survey's error at the place (greater where it is thin) less what
/// differs from cell to cell, which smoothing takes away: e^2 = error^2 - noise^2, and at least half the error. The bar
/// is what is asked for, or 3 e / sqrt(looks) where that is more: noise alone makes rises and holes, and the greatest
/// of the many on a floor stand out by about that. Error that is alike over the whole form does not change its relief.
///
/// The chance is lowered by up to three tenths where a coarser scale shows less than a quarter of the relief: one bad
/// sounding may look like that. It is halved where the form may go on beyond what is known, and a tenth less where the
/// error is only assumed. The normal law and the difference's spread are textbook; 3, the quarter, three tenths, half
/// and a tenth are design choices, held against closed forms under noise (tests/features/calibration_test.cpp).
double confidence_of(const Evidence& evidence, const Ground& ground, XY place);

/// Looks at a feature of this length: errors are taken to be alike over 25 m to each side. At least 1, at most 4:
/// what is alike over a whole survey does not average out. Design choice.
double looks_along(Metres length);

/// The least relief that counts: what is asked for, or three times the survey's error at the place where that is more,
/// so that what only noise lifts over the limit does not count.
Metres over_noise(Metres asked, const Lake& lake, XY place);

/// The chance that a shoal is less deep than a limit: Phi(over / error) for a top that reads `over` less; one depth
/// errs.
double confidence_of_shoal(Metres over, const Lake& lake, XY place);

/// The same for a form of the shore, which depths say nothing about: its measure is `times` what is asked for, and errs
/// by a share of itself, as far as the shore's place between two cells is not known. At most 0.95: shores move.
double confidence_of_shape(double times, double error_share);

}  // namespace castplan
