// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/write/plan.hpp"

namespace castplan {

/// A place to go to and look at before the season, because what is known of it is thin and the plan leans on it.
struct Check {
  std::string what;  ///< "depth at a spot"
  XY at;
  std::string label;  ///< of the place, for people: "spot B2", "Shoal 3", "South ramp"
  std::string look_at, how, would_change;
  std::string spots;  ///< that lean on it, "2, 5"; may be empty
  std::string id;     ///< of the spot or the feature; empty for the middle of the lake
};

/// The list, most telling first: the water's temperature where no phase or a stop hangs on it; the spots whose sounding
/// would narrow the order most (`OrderNotes::sound`), at most six; predicted edges of weeds, those of spots first, at
/// most three; features of low confidence that spots lean on, at most four; a predicted thermocline; the clarity where
/// it is not known; launches without a level or without depths beside them, at most three; shoals told by a thin
/// survey, nearest to spots and launches first, at most three. At a stop nothing in it comes from spots. units: of the
/// words.
std::vector<Check> to_check(const Plan& plan, Units units);

}  // namespace castplan
