// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/sheet_numbers.hpp"

#include <algorithm>
#include <cmath>

namespace castplan::sheet {
namespace {

constexpr double kHeight = 5.2 * kMm;            // of a figure; at least 5 mm
constexpr Font kFigures{kHeight / 0.711, true};  // a figure is 1456 of 2048 units high
constexpr double kRim = 2.2;
constexpr double kDot = 2.0;
constexpr int kTurns = 24;
constexpr double kTurn = 3.14159265358979323846 / 12.0;

Place nearest_in(Area box, Place at) {
  return {std::clamp(at.x, box.left, box.right()), std::clamp(at.y, box.top, box.bottom())};
}

Area box_about(Place middle, double width) {
  const double height = kHeight + 2.0 * kRim;
  return {middle.x - width / 2.0, middle.y - height / 2.0, width, height};
}

Area dot_area(Place at) { return {at.x - kDot - 1.0, at.y - kDot - 1.0, 2.0 * kDot + 2.0, 2.0 * kDot + 2.0}; }

// Places for the middle of a box, nearest first, the way out of the crowd first.
std::vector<Place> choices(Place at, Place crowd, double width) {
  const double out = std::atan2(at.y - crowd.y, at.x - crowd.x);
  std::vector<Place> all;
  for (const double away : {10.0, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0, 60.0, 80.0}) {
    for (int i = 0; i < kTurns; ++i) {
      const double turn = out + (i % 2 == 0 ? i / 2 : -(i + 1) / 2) * kTurn;
      const double wide = std::abs(std::cos(turn)) * (width / 2.0 - 5.0);
      all.push_back({at.x + (away + wide) * std::cos(turn), at.y + (away + wide) * std::sin(turn)});
    }
  }
  return all;
}

}  // namespace

bool is_free(Area area, Area inside, const std::vector<Area>& taken) {
  if (area.left < inside.left || area.top < inside.top || area.right() > inside.right() ||
      area.bottom() > inside.bottom()) {
    return false;
  }
  return std::none_of(taken.begin(), taken.end(), [&](const Area& other) {
    return area.left < other.right() && other.left < area.right() && area.top < other.bottom() &&
           other.top < area.bottom();
  });
}

std::vector<Area> place_numbers(const Canvas& canvas, Area inside, std::vector<Numbered>& numbers) {
  std::vector<Area> taken;
  Place crowd{};
  for (const Numbered& number : numbers) {
    taken.push_back(dot_area(number.at));
    crowd.x += number.at.x / static_cast<double>(numbers.size());
    crowd.y += number.at.y / static_cast<double>(numbers.size());
  }
  const Area within{inside.left + 2.0, inside.top + 2.0, inside.width - 4.0, inside.height - 4.0};
  for (Numbered& number : numbers) {
    const double width = canvas.width_of(number.label, kFigures) + 2.0 * kRim;
    const std::vector<Place> places = choices(number.at, crowd, width);
    number.box = box_about(nearest_in({within.left + width, within.top + kHeight, within.width - 2.0 * width,
                                       within.height - 2.0 * kHeight},
                                      places.front()),
                           width);
    for (const Place middle : places) {
      const Area box = box_about(middle, width);
      if (!is_free(box, within, taken)) continue;
      number.box = box;
      break;
    }
    taken.push_back({number.box.left - 1.0, number.box.top - 1.0, number.box.width + 2.0, number.box.height + 2.0});
  }
  return taken;
}

void draw_numbers(Canvas& canvas, const std::vector<Numbered>& numbers) {
  for (const Numbered& number : numbers) {
    const Place end = nearest_in(number.box, number.at);
    canvas.line(number.at, end, {2.6, 1.0});
    canvas.line(number.at, end, {1.0});
  }
  for (const Numbered& number : numbers) {
    canvas.disc(number.at, kDot + 1.0, 1.0);
    canvas.disc(number.at, kDot, 0.0);
    canvas.fill(number.box, 1.0);
    canvas.frame(number.box, {0.9});
    canvas.centred({number.box.left + number.box.width / 2.0, number.box.bottom() - kRim}, number.label, kFigures);
  }
}

}  // namespace castplan::sheet
