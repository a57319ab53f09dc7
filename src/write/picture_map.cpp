// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "write/depth_picture.hpp"
#include "write/picture.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_numbers.hpp"

namespace castplan::sheet {
namespace {

constexpr Shade kLand{0.925, 0.905, 0.855};
constexpr Shade kShore{0.16, 0.2, 0.2};
constexpr Shade kClosed{0.30, 0.08, 0.31};
constexpr Shade kLeaveAlone{0.54, 0.12, 0.24};
constexpr Shade kDanger{0.49, 0.06, 0.07};

const Polygons* polygons_of(const Feature& feature) { return std::get_if<Polygons>(&feature.geometry); }

bool is_closed_now(const Feature& feature) {
  const auto* closure = std::get_if<Closure>(&feature.details);
  return closure != nullptr && closure->active;
}

void draw_launch(Canvas& canvas, Place at) {
  canvas.fill({{{at.x, at.y - 7.5}, {at.x + 7.0, at.y + 5.5}, {at.x - 7.0, at.y + 5.5}}}, 1.0);
  canvas.fill({{{at.x, at.y - 5.5}, {at.x + 5.0, at.y + 4.3}, {at.x - 5.0, at.y + 4.3}}}, 0.1);
}

void draw_danger(Canvas& canvas, Place at) {
  const double r = 3.2;
  const std::vector<Outline> cross{{{at.x - r, at.y - r}, {at.x + r, at.y + r}},
                                   {{at.x - r, at.y + r}, {at.x + r, at.y - r}}};
  canvas.stroke(cross, {3.6, 1.0});
  canvas.stroke(cross, {1.6, kDanger});
}

// Leaning the other way and dashed, so that the two are not told by colour alone.
void draw_closed(Canvas& canvas, const std::vector<Outline>& rings) {
  canvas.stroke(rings, {3.4, 1.0});
  canvas.hatch(rings, 5.0, {1.0, kClosed});
  canvas.stroke(rings, {1.6, kClosed});
}

void draw_left_alone(Canvas& canvas, const std::vector<Outline>& rings) {
  canvas.stroke(rings, {3.0, 1.0});
  canvas.hatch(rings, 10.0, {0.9, kLeaveAlone, {3.0, 2.0}});
  canvas.stroke(rings, {1.3, kLeaveAlone, {4.0, 3.0}});
}

void draw_areas(const Map& map) {
  for (const Feature& feature : map.plan.features) {
    const Polygons* polygons = polygons_of(feature);
    if (polygons == nullptr) continue;
    if (feature.kind == Kind::spawning_ground) draw_left_alone(map.canvas, map.outlines(*polygons));
    if (is_closed_now(feature)) draw_closed(map.canvas, map.outlines(*polygons));
  }
}

void draw_dangers(const Map& map) {
  for (const Feature& feature : map.plan.features) {
    if (feature.kind == Kind::hazard) draw_danger(map.canvas, map.on_paper(feature.anchor));
  }
}

void draw_launches(const Map& map, std::vector<Area>& taken) {
  for (const Feature& feature : map.plan.features) {
    if (feature.kind != Kind::launch) continue;
    const Place at = map.on_paper(feature.anchor);
    draw_launch(map.canvas, at);
    const std::string name = shortened(one_line(feature.name), 40);
    const double width = map.canvas.width_of(name, kPictureText) + 2.0;
    for (const double side : {9.0 + width / 2.0, -9.0 - width / 2.0}) {
      const Area room{at.x + side - width / 2.0, at.y - 6.0, width, 12.0};
      if (name.empty() || !is_free(room, map.area, taken)) continue;
      map.canvas.label({at.x + side, at.y}, name, kPictureText);
      taken.push_back(room);
      break;
    }
  }
}

std::vector<Outline> box_of(Area area) {
  return {{{area.left, area.top},
           {area.right(), area.top},
           {area.right(), area.bottom()},
           {area.left, area.bottom()},
           {area.left, area.top}}};
}

template <class Test>
bool any(const Plan& plan, Test test) {
  return std::any_of(plan.features.begin(), plan.features.end(), test);
}

/// Samples with their words in a row, on to the next line where it is full.
class Row {
 public:
  Row(const Map& map, double top) : map_(map), at_{map.area.left, top + 12.0} {}
  template <class Draw>
  void add(double width, std::string_view words, Draw draw) {
    Canvas& canvas = map_.canvas;
    const double room = width + 5.0 + canvas.width_of(words, kPictureText);
    if (at_.x > map_.area.left && at_.x + room > map_.area.right()) at_ = {map_.area.left, at_.y + 17.0};
    draw(Area{at_.x, at_.y - 9.5, width, 12.0});
    canvas.text({at_.x + width + 5.0, at_.y}, words, kPictureText);
    at_.x += room + 16.0;
  }
  [[nodiscard]] double bottom() const { return at_.y + 5.0; }

 private:
  const Map& map_;
  Place at_;
};

Place middle_of(Area area) { return {area.left + area.width / 2.0, area.top + area.height / 2.0}; }

double draw_marks_key(const Map& map, double top, bool spots) {
  Canvas& canvas = map.canvas;
  const Plan& plan = map.plan;
  Row row(map, top);
  const auto of_kind = [](Kind kind) { return [kind](const Feature& feature) { return feature.kind == kind; }; };
  if (spots) {
    row.add(14.0, "spot: where the boat holds", [&](Area area) {
      canvas.fill(area, 1.0);
      canvas.frame(area, {0.9});
      canvas.centred({middle_of(area).x, area.bottom() - 2.4}, "1", {10.0, true});
    });
  }
  if (any(plan, of_kind(Kind::launch))) {
    row.add(14.0, "launch", [&](Area area) { draw_launch(canvas, middle_of(area)); });
  }
  if (any(plan, of_kind(Kind::hazard))) {
    row.add(10.0, "shoal or other hazard", [&](Area area) { draw_danger(canvas, middle_of(area)); });
  }
  if (any(plan, is_closed_now)) {
    row.add(22.0, "closed", [&](Area area) { draw_closed(canvas, box_of(area)); });
  }
  if (any(plan, of_kind(Kind::spawning_ground))) {
    row.add(22.0, "likely spawning ground: leave alone", [&](Area area) { draw_left_alone(canvas, box_of(area)); });
  }
  return row.bottom();
}

}  // namespace

void draw_picture_map(const Map& map, const std::vector<PictureSpot>& spots) {
  std::vector<Numbered> numbers;
  numbers.reserve(spots.size());
  for (const PictureSpot& spot : spots) numbers.push_back({spot.label, map.on_paper(spot.spot->boat), {}});
  std::vector<Area> taken = place_numbers(map.canvas, map.area, numbers);
  map.canvas.clip(map.area);
  map.canvas.fill(map.area, kLand);
  draw_depth_bands(map);
  draw_depth_lines(map, taken);
  map.canvas.stroke(map.outlines(map.plan.lake->outline), {1.4, kShore});
  draw_areas(map);
  draw_launches(map, taken);
  draw_numbers(map.canvas, numbers);
  draw_dangers(map);  // last: no number may hide one
  map.canvas.unclip();
  map.canvas.frame(map.area, {0.9, 0.25});
}

double draw_picture_key(const Map& map, double top) {
  Canvas& canvas = map.canvas;
  const Metres deepest = map.plan.lake->max_depth;
  const ContourStep step = contour_step(deepest, map.plan.units);
  const int bands = std::max(1, static_cast<int>(std::ceil(deepest.value() / step.metres)));
  const double width = std::min(52.0, 0.55 * map.area.width / bands);
  const double left = map.area.left;
  for (int i = 0; i < bands; ++i) {
    canvas.fill(Area{left + i * width, top + 6.0, width, 12.0}, depth_shade((i + 0.5) * step.metres, deepest.value()));
    canvas.text({left + i * width, top + 29.0}, fixed(i * step.in_unit, step.in_unit < 1.0 ? 1 : 0), kPictureText);
  }
  canvas.frame({left, top + 6.0, bands * width, 12.0}, {0.7, 0.25});
  const bool metric = map.plan.units == Units::metric;
  canvas.text({left + bands * width + 6.0, top + 16.5}, metric ? "depth in metres" : "depth in feet", kPictureText);
  constexpr double kLarger = 1.2;  // than on the printed sheet
  draw_north(map, {map.area.right() - 8.0, top + 14.0}, kLarger);
  draw_scale(map, {map.area.right() - 0.36 * map.area.width, top + 40.0}, kLarger);
  return draw_marks_key(map, top + 46.0, !picture_spots(map.plan).empty());
}

}  // namespace castplan::sheet
