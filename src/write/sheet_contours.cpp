// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "write/map_page.hpp"
#include "write/sheet_map_view.hpp"
#include "write/sheet_numbers.hpp"

namespace castplan::sheet {

namespace {

constexpr double kSpeck = 0.2 * kMm;
constexpr double kShortest = 3.0 * kMm;   // lines below this are specks
constexpr double kLabelled = 22.0 * kMm;  // lines from this length carry their depth on a large map
constexpr double kRepeat = 130.0 * kMm;   // a long line says it again

struct Levels {
  std::vector<double> in_unit;
  std::vector<float> metres;
};

// Few enough for a map of a hand's breadth.
Levels levels_of(Metres deepest, Units units) {
  const double unit = units == Units::metric ? 1.0 : 0.3048;
  Levels out;
  for (const double step : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0}) {
    if (deepest.value() / unit / step > 5.5 && step < 500.0) continue;
    for (double at = step; at * unit < deepest.value() && out.metres.size() < 6; at += step) {
      out.in_unit.push_back(at);
      out.metres.push_back(static_cast<float>(at * unit));
    }
    break;
  }
  return out;
}

// A label turned by an angle, as the box that holds it.
Area label_room(Place at, double half_width, double turn) {
  constexpr double kHalfHeight = 5.5;
  const double across = std::abs(std::cos(turn)) * half_width + std::abs(std::sin(turn)) * kHalfHeight;
  const double down = std::abs(std::sin(turn)) * half_width + std::abs(std::cos(turn)) * kHalfHeight;
  return {at.x - across, at.y - down, 2.0 * across, 2.0 * down};
}

// Lines of one depth that are long enough to be printed, longest first.
Lines printed_lines(const Map& map, const Grid<Metres32>& field, float level) {
  Lines lines;
  for (Line& line : isolines(field, level)) {
    if (length(line).value() * map.scale >= kShortest) lines.push_back(std::move(line));
  }
  std::stable_sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) { return length(a) > length(b); });
  return lines;
}

struct DepthLabel {
  Place at;
  double turn;  ///< radians, clockwise
  std::string words;
};

// Labels of one line where they are free, so often as its length asks for.
void add_labels(const Map& map, const Line& line, const std::string& words, std::vector<Area>& taken,
                std::vector<DepthLabel>& labels) {
  const double points = length(line).value() * map.scale;
  if (points < kLabelled) return;
  const double half = map.canvas.width_of(words, kSmall) / 2.0 + 2.0;
  const int count = 1 + static_cast<int>(std::min(4.0, points / kRepeat));
  for (int i = 0; i < count; ++i) {
    for (const double nudge : {0.0, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3, 0.4, -0.4}) {
      const double share = (i + 0.5 + nudge) / count;
      const Place at = map.on_paper(point_along(line, share));
      const double turn = reading_turn(line, share) * 3.14159265358979 / 180.0;
      const Area room = label_room(at, half, turn);
      if (!is_free(room, map.area, taken)) continue;
      labels.push_back({at, turn, words});
      taken.push_back(room);
      break;
    }
  }
}

}  // namespace

Place Map::on_paper(XY at) const {
  const XY middle = (view.box.low + view.box.high) * 0.5;
  return {area.left + area.width / 2.0 + (at.x - middle.x) * scale,
          area.top + area.height / 2.0 - (at.y - middle.y) * scale};
}

Metres Map::speck() const { return Metres(kSpeck / scale); }

Outline Map::outline(const Line& line) const {
  Outline out;
  for (const XY at : line) out.push_back(on_paper(at));
  return out;
}

std::vector<Outline> Map::outlines(const Polygons& polygons) const {
  std::vector<Outline> out;
  for (const Polygon& polygon : simplified(polygons, speck())) {
    out.push_back(outline(polygon.outer));
    for (const Ring& hole : polygon.holes) out.push_back(outline(hole));
  }
  return out;
}

void draw_shaded_depths(const Map& map, std::vector<Area>& taken) {
  const Levels levels = levels_of(map.plan.lake->max_depth, map.plan.units);
  const Grid<Metres32> field = contour_field(*map.plan.lake, map.view);
  map.canvas.fill(map.outlines(map.plan.lake->outline), 0.96);
  for (std::size_t i = 0; i < levels.metres.size(); ++i) {
    const double share = static_cast<double>(i + 1) / static_cast<double>(levels.metres.size());
    const double grey = 0.96 - 0.38 * share;
    map.canvas.fill(map.outlines(area_above(field, levels.metres[i])), grey);
  }
  for (std::size_t i = 0; i < levels.metres.size(); ++i) {
    std::vector<Outline> lines;
    Line longest;
    for (const Line& line : isolines(field, levels.metres[i])) {
      if (length(line).value() * map.scale < kShortest) continue;
      lines.push_back(map.outline(simplified(line, map.speck())));
      if (longest.empty() || length(line) > length(longest)) longest = line;
    }
    map.canvas.stroke(lines, {0.4, 0.25});
    if (longest.empty() || length(longest).value() * map.scale < 14.0 * kMm) continue;
    const std::string words = fmt::format("{}", levels.in_unit[i]);
    const Place half{map.canvas.width_of(words, kSmall) / 2.0 + 2.0, 5.5};
    for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95, 0.4, 0.6, 0.22, 0.78}) {
      const Place at = map.on_paper(point_along(longest, share));
      const Area room{at.x - half.x, at.y - half.y, 2.0 * half.x, 2.0 * half.y};
      if (!is_free(room, map.area, taken)) continue;
      map.canvas.label(at, words, kSmall);
      taken.push_back(room);
      break;
    }
  }
}

void draw_depth_lines(const Map& map, std::vector<Area>& taken) {
  const Metres deepest = map.plan.lake->max_depth;
  const Grid<Metres32> field = contour_field(*map.plan.lake, map.view);
  const ContourStep step = contour_step(deepest, map.plan.units);
  std::vector<DepthLabel> labels;
  for (int i = 1; i * step.metres < deepest.value(); ++i) {
    std::vector<Outline> drawn;
    for (const Line& line : printed_lines(map, field, static_cast<float>(i * step.metres))) {
      drawn.push_back(map.outline(simplified(line, map.speck())));
      add_labels(map, line, fmt::format("{}", i * step.in_unit), taken, labels);
    }
    map.canvas.stroke(drawn, {0.6, 0.2});
  }
  for (const DepthLabel& label : labels) map.canvas.label(label.at, label.words, kSmall, label.turn);
}

}  // namespace castplan::sheet
