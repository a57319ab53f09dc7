// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

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
inline constexpr double kMargin = 12.0 * kMm;
inline constexpr std::string_view kPrivateWords = "PRIVATE: EXACT PLACES";

struct Paper {
  double width, height;
};
/// What printers hold where feet are read, and elsewhere.
Paper paper_of(Units units);
Area within_margins(Paper paper);

/// The parts of the page. Each draws into an area, or from its top on, and those that need a height of their own
/// return where they end.

/// Lake, species, date, temperatures, and in a frame that the places are private, or what the page is.
double draw_header(Canvas& canvas, const Plan& plan, Area area, std::string_view mark = kPrivateWords);
/// Stop or caution with its reasons, in a few sentences; empty where there is neither.
std::string advisory_words(const Plan& plan);
/// Lines of text below y, at most `most`; returns where they end.
double paragraph(Canvas& canvas, const std::string& text, Font font, Area area, double y, std::size_t most);
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

/// What is of this lake and this day in what the plan carries, beside the stop, the advisory and the standing cautions.
std::vector<std::string> own_cautions(const Plan& plan);
/// Program and file, temperatures, depth error, surface and source of the depths. missed: a letter stands as a box;
/// cut: some text ends with dots.
std::string facts_words(const Plan& plan, std::string_view file, bool missed, bool cut);

/// Where the day ends for the most sensitive of the fish, planned or held: none where none has a heat stop.
struct DayEnd {
  const Profile* species{};
  Celsius at;
  std::string words;  ///< "75 F (23.9 C)"
};
std::optional<DayEnd> day_end(const Plan& plan);

/// To two figures: "620 m", "1400 ft".
std::string rough_distance(double metres, Units units);

/// Labels of the best spots of a phase, "B1".
std::vector<std::string> best_labels(const Plan& plan, std::size_t phase, std::size_t most);

}  // namespace castplan::sheet
