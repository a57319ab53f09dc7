// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "write/map_page.hpp"
#include "write/picture.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_numbers.hpp"

namespace castplan::sheet {
namespace {

constexpr Font kDepth{9.5};
constexpr double kShortest = 8.0;    // points; shorter lines are specks
constexpr double kLabelled = 60.0;   // lines from this length carry their depth
constexpr double kRepeat = 420.0;    // a long line says it again
constexpr double kHalfHeight = 5.0;  // of a label
constexpr double kRadians = 3.14159265358979323846 / 180.0;

struct Label {
  Place at;
  double turn;  ///< radians, clockwise
  std::string words;
};

// The box that holds a label turned by an angle.
Area room_of(Place at, double half, double turn) {
  const double across = std::abs(std::cos(turn)) * half + std::abs(std::sin(turn)) * kHalfHeight;
  const double down = std::abs(std::sin(turn)) * half + std::abs(std::cos(turn)) * kHalfHeight;
  return {at.x - across, at.y - down, 2.0 * across, 2.0 * down};
}

void add_labels(const PictureMap& map, const Line& line, const std::string& words, std::vector<Area>& taken,
                std::vector<Label>& labels) {
  const double points = length(line).value() * map.scale;
  if (points < kLabelled) return;
  const double half = map.canvas.width_of(words, kDepth) / 2.0 + 2.0;
  const int count = 1 + static_cast<int>(std::min(4.0, points / kRepeat));
  for (int i = 0; i < count; ++i) {
    for (const double nudge : {0.0, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3, 0.4, -0.4}) {
      const double share = (i + 0.5 + nudge) / count;
      const Place at = map.on_picture(point_along(line, share));
      const double turn = reading_turn(line, share) * kRadians;
      const Area room = room_of(at, half, turn);
      if (!is_free(room, map.area, taken)) continue;
      labels.push_back({at, turn, words});
      taken.push_back(room);
      break;
    }
  }
}

Shade shade_of(double depth_m, double deepest_m) {
  const Colour colour = ramp_colour(ramp_share(depth_m, deepest_m));
  return {colour[0] / 255.0, colour[1] / 255.0, colour[2] / 255.0};
}

}  // namespace

void draw_depth_bands(const PictureMap& map, std::vector<Area>& taken) {
  const Lake& lake = *map.plan.lake;
  const double deepest = lake.max_depth.value();
  const Grid<Metres32> field = contour_field(lake, map.view);
  const ContourStep step = contour_step(lake.max_depth, map.plan.units);
  map.canvas.fill(map.outlines(lake.outline), shade_of(0.5 * step.metres, deepest));
  for (int i = 1; i * step.metres < deepest; ++i) {
    map.canvas.fill(map.outlines(area_above(field, static_cast<float>(i * step.metres))),
                    shade_of((i + 0.5) * step.metres, deepest));
  }
  std::vector<Label> labels;
  for (int i = 1; i * step.metres < deepest; ++i) {
    Lines lines = isolines(field, static_cast<float>(i * step.metres));
    std::stable_sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) { return length(a) > length(b); });
    std::vector<Outline> drawn;
    for (const Line& line : lines) {
      if (length(line).value() * map.scale < kShortest) continue;
      drawn.push_back(map.outline(simplified(line, map.speck())));
      add_labels(map, line, fixed(i * step.in_unit, step.in_unit < 1.0 ? 1 : 0), taken, labels);
    }
    map.canvas.stroke(drawn, {0.7, {0.10, 0.24, 0.28}});
  }
  for (const Label& label : labels) map.canvas.label(label.at, label.words, kDepth, label.turn);
}

}  // namespace castplan::sheet
