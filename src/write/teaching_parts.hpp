// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "castplan/write/plan.hpp"
#include "write/sheet_canvas.hpp"

namespace castplan::sheet {

/// What the printed pages for teaching have alike.

inline constexpr double kTextLine = 3.65 * kMm;  ///< of the body
inline constexpr Font kHeading{15.0, true};

DocumentInfo teaching_info(const Plan& plan, const std::string& title, bool exact_places, const std::string& file);

/// What stands at the foot of a page, and the most lines for each of its texts.
struct Foot {
  std::string_view file;
  std::size_t advisory = 5;  ///< stop or advisory; 0 where the page says it elsewhere
  std::size_t cautions = 3, rules = 3, facts = 5;
};

/// Stop or advisory, what holds on the water, the plan's own cautions, the user's rules and the facts of the depths,
/// below the area's top and a line; returns where they end.
double draw_foot(Canvas& canvas, const Plan& plan, Area area, const Foot& foot);

/// The height of the same, found by drawing it on paper that is thrown away.
double foot_height(const Plan& plan, double width, const Foot& foot);

/// "45° 30.123' N, 040° 00.456' W" of the place as it is printed in the data files.
std::string place_words(const Plan& plan, XY at);

/// "6.4 m under the boat, 3.0 m where it is fished"
std::string depth_words(const Spot& spot, Units units);

}  // namespace castplan::sheet
