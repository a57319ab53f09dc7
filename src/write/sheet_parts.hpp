// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/write/plan.hpp"
#include "write/sheet_canvas.hpp"
#include "write/sheet_stops.hpp"

namespace castplan::sheet {

inline constexpr Font kTable{13.0};
inline constexpr Font kTableBold{13.0, true};
inline constexpr Font kBody{9.0};
inline constexpr Font kBodyBold{9.0, true};
inline constexpr Ink kHair{0.5, 0.45};
inline constexpr Ink kRule{0.9};

/// The parts of the page. Each draws into an area, or from its top on, and those that need a height of their own
/// return where they end.

/// Lake, species, date, temperatures, and that the places are private.
double draw_header(Canvas& canvas, const Plan& plan, Area area);
/// What must be read first: an advisory, a stop that was set aside with the reason given. Nothing where there is none.
double draw_advisory(Canvas& canvas, const Plan& plan, Area area);
double draw_stops(Canvas& canvas, const Plan& plan, const Stops& stops, Area area);
/// Every phase of the year: when, what the fish does and where, the best spots. With what it does only as far as all
/// of it fits into the area; says nothing of a phase twice.
double draw_season(Canvas& canvas, const Plan& plan, Area area);
/// In place of a table: that there are no spots, why, and when to look again.
double draw_no_spots(Canvas& canvas, const Plan& plan, Area area);

/// Boxes to write in: the first stop, the water's temperature, when to be back.
void draw_boxes(Canvas& canvas, const Plan& plan, const Stops& stops, Area area);
/// Who waits on shore, and who to call; left blank.
void draw_calls(Canvas& canvas, Area area);
/// Checklist, people and cautions in two columns, facts below; returns where they end. most: lines for each of the
/// texts that may be long, two more for the facts. with_odds: the odds too, which stand where there is room.
double draw_words(Canvas& canvas, const Plan& plan, const Stops& stops, Area area, std::size_t most, bool with_odds);

/// To two figures: "620 m", "1400 ft".
std::string rough_distance(double metres, Units units);

/// Labels of the best spots of a phase, "B1".
std::vector<std::string> best_labels(const Plan& plan, std::size_t phase, std::size_t most);

}  // namespace castplan::sheet
