// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"

namespace castplan::sheet {
namespace {

constexpr double kLeastRow = 9.0 * kMm;  // two lines of the table, or a pencil box
constexpr double kMostRow = 10.4 * kMm;
constexpr double kHead = 6.4 * kMm;
constexpr double kBand = 6.2 * kMm;     // the line above the alternates
constexpr double kBoxSide = 8.4 * kMm;  // pencil boxes: at least 8 mm
constexpr double kBoxColumn = 10.0 * kMm;
constexpr std::array kBoxes{"seen", "foll.", "hook", "land"};

// Left edges of number, sounder, cast, lure, minutes and boxes.
struct Columns {
  double number, sounder, cast, lure, minutes, boxes;
  double row;  ///< height of a row
  Columns(Area area, double height)
      : number(area.left),
        sounder(area.left + 20.0 * kMm),
        cast(area.left + 39.5 * kMm),
        lure(area.left + 90.0 * kMm),
        minutes(area.right() - 4.0 * kBoxColumn - 9.0 * kMm),
        boxes(area.right() - 4.0 * kBoxColumn),
        row(height) {}
};

std::string_view side_words(const Spot& spot) {
  switch (cast_goes(spot)) {
    case CastGoes::shallower:
      return ", shallower";
    case CastGoes::deeper:
      return ", deeper";
    case CastGoes::level:
      return ", as deep";
    case CastGoes::unknown:
      break;
  }
  return "";
}

std::string run_words(const Presentation& lure, Units units) {
  std::string from = length_text(lure.run_from, units);
  from.erase(from.rfind(' '));
  return fmt::format("{} to {} down", from, length_text(lure.run_to, units));
}

void head(Canvas& canvas, const Columns& at, double top) {
  const Tagged group(canvas, "THead");
  const Tagged row(canvas, "TR");
  const double y = top + kHead - 1.6 * kMm;
  const auto cell = [&](double x, const char* words) {
    const Tagged tag(canvas, "TH");
    canvas.text({x, y}, words, kTableBold);
  };
  cell(at.number, "stop");
  cell(at.sounder, "sounder");
  cell(at.cast, "cast");
  cell(at.lure, "lure");
  cell(at.minutes, "min");
  for (std::size_t i = 0; i < kBoxes.size(); ++i) {
    const Tagged tag(canvas, "TH");
    canvas.centred({at.boxes + (static_cast<double>(i) + 0.5) * kBoxColumn, y}, kBoxes[i], kTableBold);
  }
}

void number_cell(Canvas& canvas, const Plan& plan, const Stop& stop, const Columns& at, double top) {
  constexpr Font kNumber{20.0, true};
  const Tagged tag(canvas, "TH");
  const double y = top + at.row / 2.0 + 7.0;
  canvas.text({at.number, y}, stop.label, kNumber);
  const double after = at.number + canvas.width_of(stop.label, kNumber) + 1.4 * kMm;
  canvas.text({after, y}, stop.part + (plan.season.advisory.overridden ? " !" : ""), kTable);
}

// The first line bold.
void two_lines(Canvas& canvas, Place middle, const std::string& first, const std::string& second, double room) {
  const Tagged tag(canvas, "TD");
  canvas.text({middle.x, middle.y - 1.6}, fitted(canvas, first, kTableBold, room), kTableBold);
  canvas.text({middle.x, middle.y + 11.4}, fitted(canvas, second, kTable, room), kTable);
}

void one_line_cell(Canvas& canvas, Place middle, const std::string& words) {
  const Tagged tag(canvas, "TD");
  canvas.text({middle.x, middle.y + 4.6}, words, kTableBold);
}

void stop_row(Canvas& canvas, const Plan& plan, const Columns& at, const Stop& stop, double top) {
  const Tagged row(canvas, "TR");
  const Spot& spot = *stop.spot;
  const PrintedCast cast = printed_cast(plan, spot);
  const double middle = top + at.row / 2.0;
  number_cell(canvas, plan, stop, at, top);
  one_line_cell(canvas, {at.sounder, middle}, length_text(spot.boat_depth, plan.units));
  two_lines(canvas, {at.cast, middle}, compass_words(spot.bearing),
            fmt::format("{} true, {}{}", bearing_text(Degrees(cast.bearing_deg)),
                        distance_text(Metres(cast.cast_m), plan.units), side_words(spot)),
            at.lure - at.cast - 1.5 * kMm);
  const Presentation* lure = spot.presentations.empty() ? nullptr : &spot.presentations.front();
  two_lines(canvas, {at.lure, middle}, lure ? one_line(lure->lure) : "your choice",
            lure ? run_words(*lure, plan.units) : "", at.minutes - at.lure - 1.5 * kMm);
  one_line_cell(canvas, {at.minutes, middle}, fmt::format("{:.0f}", spot.minutes));
  for (std::size_t i = 0; i < kBoxes.size(); ++i) {
    const Tagged tag(canvas, "TD");
    const double left = at.boxes + static_cast<double>(i) * kBoxColumn + (kBoxColumn - kBoxSide) / 2.0;
    canvas.frame({left, middle - kBoxSide / 2.0, kBoxSide, kBoxSide}, kRule);
  }
}

std::string order_note(const Plan& plan, const Stops& stops) {
  std::string out;
  if (stops.launch != nullptr) {
    const std::string name = shortened(one_line(stops.launch->name), 24);
    out = "Rows run from the launch" + (name.empty() ? "" : " " + name) + ", one part of the lake after the other. ";
  } else {
    out = stops.launches_dry ? "Every launch is dry at this level: rows begin at the best spot. "
                             : "No launch is known: rows begin at the best spot. ";
  }
  out += "The number is the spot's rank, as on the page and in spots.geojson";
  const std::size_t here = stops.stops.size() + stops.alternates.size();
  out += here < stops.spots ? fmt::format("; the other {} stand there. ", stops.spots - here) : ". ";
  out += "Sounder: the depth under the boat to expect today. foll., hook, land: followed, hooked, landed.";
  if (stops.alternates.empty()) out += " Too few spots to keep a sheltered one for a windy day.";
  if (plan.season.advisory.overridden) out += " !: set aside.";
  return out;
}

std::string alternates_words(const Plan& plan, const Stops& stops) {
  std::vector<std::string> reach;
  for (const double metres : stops.fetches) reach.push_back(rough_distance(std::max(10.0, metres), plan.units));
  std::string words = joined(reach, " and ");
  if (reach.size() == 2 && reach[0] == reach[1]) words = reach[0] + " each";
  return fmt::format("More sheltered, if the wind builds; open water {}: {}", plan.wind ? "upwind" : "at most", words);
}

// As high as there is room for.
double row_height(const Stops& stops, double room) {
  const auto rows = static_cast<double>(stops.stops.size() + stops.alternates.size());
  const double others = kHead + (stops.alternates.empty() ? 0.0 : kBand);
  return std::clamp((room - others) / rows, kLeastRow, kMostRow);
}

}  // namespace

double draw_stops(Canvas& canvas, const Plan& plan, const Stops& stops, Area area) {
  double y = area.top;
  {
    const Tagged tag(canvas, "P");
    for (const std::string& line : wrapped(canvas, order_note(plan, stops), kBody, area.width, 2)) {
      canvas.text({area.left, y + 3.0 * kMm}, line, kBody);
      y += 3.9 * kMm;
    }
  }
  const Tagged table(canvas, "Table");
  const Columns at(area, row_height(stops, area.bottom() - y));
  head(canvas, at, y);
  y += kHead;
  const Tagged body(canvas, "TBody");
  for (const Stop& stop : stops.stops) {
    canvas.line({area.left, y}, {area.right(), y}, kHair);
    stop_row(canvas, plan, at, stop, y);
    y += at.row;
  }
  if (!stops.alternates.empty()) {
    canvas.line({area.left, y}, {area.right(), y}, kRule);
    const Tagged row(canvas, "TR");
    const Tagged tag(canvas, "TD");
    canvas.text({area.left, y + kBand - 1.6 * kMm},
                fitted(canvas, alternates_words(plan, stops), kTableBold, area.width), kTableBold);
    y += kBand;
  }
  for (const Stop& stop : stops.alternates) {
    canvas.line({area.left, y}, {area.right(), y}, kHair);
    stop_row(canvas, plan, at, stop, y);
    y += at.row;
  }
  canvas.line({area.left, y}, {area.right(), y}, kRule);
  return y;
}

}  // namespace castplan::sheet
