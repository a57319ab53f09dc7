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

/// Stop or advisory (where asked for), what holds on the water, the user's rules, and the facts of the depths, below
/// the area's top and a line; returns where they end. At most `kMostFoot` high.
double draw_foot(Canvas& canvas, const Plan& plan, Area area, std::string_view file, bool with_advisory);
inline constexpr double kMostFoot = 75.0 * kMm;

/// The height of the same, found by drawing it on paper that is thrown away.
double foot_height(const Plan& plan, double width, std::string_view file, bool with_advisory);

/// "6.4 m under the boat, 3.0 m where it is fished"
std::string depth_words(const Spot& spot, Units units);

}  // namespace castplan::sheet
