// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

#include "castplan/write/text.hpp"
#include "write/carried.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_map.hpp"
#include "write/sheet_parts.hpp"

namespace castplan {
namespace sheet {
namespace {

constexpr double kGoodMap = 52.0 * kMm;   // with its key
constexpr double kLeastMap = 45.6 * kMm;  // the boxes beside it need as much
constexpr double kCalls = 12.4 * kMm;
constexpr double kFoldAbove = 2.4 * kMm;
constexpr double kFoldBelow = 2.6 * kMm;
constexpr double kApart = 1.4 * kMm;
constexpr std::size_t kFewestStops = 4;

DocumentInfo info_of(const Plan& plan) {
  std::vector<std::string> title{one_line(plan.lake_name), plan.date};
  if (plan.profile != nullptr) title.push_back(one_line(plan.profile->title));
  return {shortened("Sheet for the water: " + joined(title, ", "), 400), "PRIVATE: EXACT PLACES. Not for navigation.",
          "", program_text(), plan.document_date};
}

// Numbers of the map: all stops, or the letter of each phase at its best spot; letters that share a place share a box.
std::vector<Mark> marks_of(const Plan& plan, const Stops& stops) {
  std::vector<Mark> marks;
  const auto add = [&](const std::string& label, XY at) {
    for (Mark& mark : marks) {
      if (plan.phases.size() < 2 || distance(mark.at, at) > Metres(20)) continue;
      mark.label += " " + label;
      return;
    }
    marks.push_back({label, at});
  };
  for (const Stop& stop : stops.stops) add(stop.label, stop.spot->boat);
  for (const Stop& stop : stops.alternates) add(stop.label, stop.spot->boat);
  for (std::size_t i = 0; plan.phases.size() > 1 && i < plan.phases.size(); ++i) {
    const std::span<const Spot> spots = shown_spots(plan, i);
    if (!spots.empty()) add(phase_letter(plan, i), spots.front().boat);
  }
  return marks;
}

void draw_fold(Canvas& canvas, double y, Paper paper) {
  canvas.line({4.0 * kMm, y}, {paper.width - 4.0 * kMm, y}, {0.6, 0.35, {3.0, 3.0}});
  canvas.label({paper.width - kMargin - 8.0, y}, "fold", kBody);
}

// Lines to write on, where few stops leave room.
void draw_notes(Canvas& canvas, Area area) {
  constexpr double kLines = 9.0 * kMm;
  if (area.height < 2.0 * kLines) return;
  const Tagged tag(canvas, "P");
  canvas.text({area.left, area.top + 5.0 * kMm}, "Notes", kTableBold);
  for (int i = 2; i * kLines <= area.height; ++i) {
    const double y = area.top + i * kLines;
    canvas.line({area.left, y}, {area.right(), y}, kHair);
  }
}

double draw_top(Canvas& canvas, const Plan& plan, const Stops& stops, Area area) {
  double y = draw_header(canvas, plan, area);
  const auto below = [&](double top) { return Area{area.left, top, area.width, area.bottom() - top}; };
  y = draw_advisory(canvas, plan, below(y));
  if (!stops.stops.empty()) return draw_stops(canvas, plan, stops, below(y));
  if (plan.phases.size() > 1 && !plan.season.no_spots) return draw_season(canvas, plan, below(y));
  return draw_no_spots(canvas, plan, below(y));
}

/// Where the parts of the page begin, found by drawing them on paper that is thrown away.
struct Layout {
  double top_height;       ///< room for the upper half
  double words;            ///< height of the words at the foot
  std::size_t most_lines;  ///< of a text that may be long
  bool odds;               ///< whether they have room
  bool fits;               ///< whether the stops leave the map and the boxes what they need
};

Layout layout_of(const Plan& plan, const Stops& stops, Paper paper, Area all) {
  Layout layout{};
  struct Tried {
    std::size_t most;
    bool odds;
    double map;
  };
  // the map gives way first, then the odds, then long texts
  constexpr Tried kTried[] = {{4, true, kGoodMap},   {4, true, kLeastMap},  {4, false, kLeastMap},
                              {3, false, kLeastMap}, {2, false, kLeastMap}, {1, false, kLeastMap},
                              {0, false, kLeastMap}};
  for (const auto& [most, odds, map] : kTried) {
    if (odds && plan.odds_line.empty() && map < kGoodMap) continue;
    Canvas scratch(paper.width, paper.height, {});
    layout.most_lines = most;
    layout.odds = odds;
    const double end = draw_top(scratch, plan, stops, {all.left, all.top, all.width, 0.0});
    layout.words = draw_words(scratch, plan, stops, {all.left, 0.0, all.width, 0.0}, most, odds);
    layout.top_height = all.height - layout.words - kCalls - map - 2.0 * kApart - kFoldAbove - kFoldBelow;
    layout.fits = end <= all.top + layout.top_height;
    if (layout.fits) break;
  }
  return layout;
}

std::string page(const Plan& plan) {
  const Paper paper = paper_of(plan.units);
  const Area all = within_margins(paper);
  Stops stops = chosen_stops(plan);
  Layout layout = layout_of(plan, stops, paper, all);
  // long warnings stay whole: rows of the table give way to them
  while (!layout.fits && stops.stops.size() > kFewestStops) {
    stops = chosen_stops(plan, stops.stops.size() - 1);
    layout = layout_of(plan, stops, paper, all);
  }
  Canvas canvas(paper.width, paper.height, info_of(plan));
  std::vector<std::string> figures;
  {
    const Tagged document(canvas, "Document");
    const double end = draw_top(canvas, plan, stops, {all.left, all.top, all.width, layout.top_height});
    const double fold = std::max(end + kFoldAbove, std::min(paper.height / 2.0, all.top + layout.top_height));
    if (!stops.stops.empty()) draw_notes(canvas, {all.left, end + 2.0 * kMm, all.width, fold - end - 4.0 * kMm});
    draw_fold(canvas, fold, paper);
    const double y = fold + kFoldBelow;
    const double words = all.bottom() - layout.words;
    const double calls = words - kApart - kCalls;
    const Area map{all.left, y, all.width * 0.54, calls - kApart - y};
    figures.push_back(draw_map(canvas, plan, map, marks_of(plan, stops)));
    draw_boxes(canvas, plan, stops, {map.right() + 2.0 * kMm, y, all.right() - map.right() - 2.0 * kMm, map.height});
    draw_calls(canvas, {all.left, calls, all.width, kCalls});
    draw_words(canvas, plan, stops, {all.left, words, all.width, 0.0}, layout.most_lines, layout.odds);
  }
  return finished_pdf(canvas.finish(), figures);
}

}  // namespace

Paper paper_of(Units units) { return units == Units::imperial ? Paper{612.0, 792.0} : Paper{210.0 * kMm, 297.0 * kMm}; }

Area within_margins(Paper paper) {
  return {kMargin, kMargin, paper.width - 2.0 * kMargin, paper.height - 2.0 * kMargin};
}

}  // namespace sheet

std::string sheet_pdf(const Plan& plan) {
  assert(plan.lake != nullptr);
  return sheet::page(plan);
}

}  // namespace castplan
