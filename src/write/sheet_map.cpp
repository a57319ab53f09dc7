// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/sheet_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "write/plain_text.hpp"
#include "write/sheet_map_view.hpp"
#include "write/sheet_numbers.hpp"

namespace castplan::sheet {
namespace {

constexpr double kRim = 2.5 * kMm;  // between the water and the frame
constexpr double kKey = 9.0 * kMm;  // height of the key below the map

Points shown_places(const Plan& plan, const std::vector<Mark>& marks) {
  Points out;
  for (const Mark& mark : marks) out.push_back(mark.at);
  const Frame& frame = plan.lake->depth.frame();
  for (const Feature& feature : plan.features) {
    if (feature.kind == Kind::launch && frame.holds(frame.cell_at(feature.anchor))) out.push_back(feature.anchor);
  }
  return out;
}

// The water and what else is shown, without a margin.
MapView tight_view(const Plan& plan, const std::vector<Mark>& marks) {
  Points all = shown_places(plan, marks);
  const Points shore = vertices(plan.lake->outline);
  all.insert(all.end(), shore.begin(), shore.end());
  const std::optional<Box> box = bounds(all);
  return box && box->high.x > box->low.x && box->high.y > box->low.y ? MapView{*box, 0.1} : view_of(*plan.lake, all);
}

void draw_square(Canvas& canvas, Place middle) {
  canvas.fill(Area{middle.x - 4.5, middle.y - 4.5, 9.0, 9.0}, 1.0);
  canvas.fill(Area{middle.x - 3.5, middle.y - 3.5, 7.0, 7.0}, 0.0);
  canvas.fill(Area{middle.x - 1.2, middle.y - 1.2, 2.4, 2.4}, 1.0);
}

void draw_cross(Canvas& canvas, Place middle) {
  const double r = 2.2;
  const std::vector<Outline> cross{{{middle.x - r, middle.y - r}, {middle.x + r, middle.y + r}},
                                   {{middle.x - r, middle.y + r}, {middle.x + r, middle.y - r}}};
  canvas.stroke(cross, {2.4, 1.0});
  canvas.stroke(cross, {1.0});
}

bool is_active_closure(const Feature& feature) {
  const auto* closure = std::get_if<Closure>(&feature.details);
  return closure != nullptr && closure->active;
}

void draw_dangers(const Map& map) {
  for (const Feature& feature : map.plan.features) {
    if (is_active_closure(feature)) {
      if (const auto* polygons = std::get_if<Polygons>(&feature.geometry)) {
        const std::vector<Outline> rings = map.outlines(*polygons);
        map.canvas.hatch(rings, 4.0, {0.7});
        map.canvas.stroke(rings, {0.9});
      }
    }
    if (feature.kind == Kind::hazard) draw_cross(map.canvas, map.on_paper(feature.anchor));
  }
}

void draw_launches(const Map& map) {
  for (const Feature& feature : map.plan.features) {
    if (feature.kind == Kind::launch) draw_square(map.canvas, map.on_paper(feature.anchor));
  }
}

bool has(const Plan& plan, Kind kind) {
  return std::any_of(plan.features.begin(), plan.features.end(), [&](const Feature& feature) {
    return feature.kind == kind && (kind != Kind::closure || is_active_closure(feature));
  });
}

// What the marks of the map mean, as far as it has them.
void draw_key(const Map& map, const MapLook& look, Place at) {
  Canvas& canvas = map.canvas;
  const auto say = [&](std::string_view words) {
    canvas.text({at.x, at.y}, words, kSmall);
    at.x += canvas.width_of(words, kSmall) + 8.0;
  };
  if (has(map.plan, Kind::launch)) {
    draw_square(canvas, {at.x + 4.0, at.y - 3.2});
    at.x += 10.5;
    say("launch");
  }
  if (look.dangers && has(map.plan, Kind::hazard)) {
    draw_cross(canvas, {at.x + 3.0, at.y - 3.2});
    at.x += 8.0;
    say("shoal, hazard");
  }
  if (look.dangers && has(map.plan, Kind::closure)) {
    const Area sample{at.x, at.y - 7.0, 11.0, 8.0};
    const std::vector<Outline> ring{{{sample.left, sample.top},
                                     {sample.right(), sample.top},
                                     {sample.right(), sample.bottom()},
                                     {sample.left, sample.bottom()},
                                     {sample.left, sample.top}}};
    canvas.hatch(ring, 4.0, {0.7});
    canvas.stroke(ring, {0.9});
    at.x += 14.0;
    say("closed");
  }
  const std::string unit = map.plan.units == Units::metric ? "m" : "ft";
  const double step = contour_step(map.plan.lake->max_depth, map.plan.units).in_unit;
  say(look.shaded ? "depths in " + unit : fmt::format("depths in {0}, a line each {1} {0}", unit, step));
}

}  // namespace

void draw_scale(const Map& map, Place at, double size) {
  const bool metric = map.plan.units == Units::metric;
  const double unit = metric ? 1.0 : 0.3048;
  const double room = 0.26 * map.area.width / map.scale / unit;
  const double ten = std::pow(10.0, std::floor(std::log10(room)));
  const double length = room >= 5.0 * ten ? 5.0 * ten : room >= 2.0 * ten ? 2.0 * ten : ten;
  const double points = length * unit * map.scale;
  map.canvas.fill(Area{at.x, at.y - 3.0 * size, points / 2.0, 3.0 * size}, 0.0);
  map.canvas.frame({at.x, at.y - 3.0 * size, points, 3.0 * size}, {0.6});
  const std::string words = metric && length >= 1000.0 ? fmt::format("{:.0f} km", length / 1000.0)
                                                       : fmt::format("{:.0f} {}", length, metric ? "m" : "ft");
  map.canvas.text({at.x + points + 4.0 * size, at.y}, words, {kSmall.size * size});
}

void draw_north(const Map& map, Place at, double size) {
  const Projection& projection = map.plan.lake->projection;
  const XY middle = (map.view.box.low + map.view.box.high) * 0.5;
  // true north lies at minus the convergence from the top of the paper
  const double turn = -projection.scale_at(projection.to_lonlat(middle)).convergence.value() * 3.14159265358979 / 180.0;
  const auto turned = [&](double x, double y) {
    return Place{at.x + size * (x * std::cos(turn) - y * std::sin(turn)),
                 at.y + size * (x * std::sin(turn) + y * std::cos(turn))};
  };
  map.canvas.fill({{turned(0, -6), turned(3.2, 5), turned(0, 2.8), turned(-3.2, 5)}}, 0.0);
  map.canvas.ending({at.x - 6.0 * size, at.y + 3.0 * size}, "true north", {kSmall.size * size});
}

std::string draw_map(Canvas& canvas, const Plan& plan, Area area, const std::vector<Mark>& marks, const MapLook& look) {
  const Tagged tag(canvas, "Figure");
  const Area inside{area.left, area.top, area.width, area.height - kKey};
  const MapView view = tight_view(plan, marks);
  const double scale =
      std::min((inside.width - 2.0 * kRim) / view.width(), (inside.height - 2.0 * kRim) / view.height());
  const Map map{canvas, plan, inside, view, scale};
  std::vector<Numbered> numbers;
  numbers.reserve(marks.size());
  for (const Mark& mark : marks) numbers.push_back({mark.label, map.on_paper(mark.at), {}});
  std::vector<Area> taken = place_numbers(canvas, inside, numbers);
  canvas.clip(inside);
  look.shaded ? draw_shaded_depths(map, taken) : draw_depth_lines(map, taken);
  canvas.stroke(map.outlines(plan.lake->outline), {look.shaded ? 1.1 : 1.5});
  if (look.dangers) draw_dangers(map);
  draw_lettered(map, look.features, taken);
  draw_launches(map);
  draw_numbers(canvas, numbers);
  canvas.unclip();
  canvas.frame(inside, {0.6, 0.4});
  draw_key(map, look, {inside.left, inside.bottom() + 4.0 * kMm});
  draw_scale(map, {inside.left, area.bottom() - 0.6 * kMm});
  draw_north(map, {inside.right() - 4.0, area.bottom() - 2.0 * kMm});
  const std::string name = shortened(one_line(plan.lake_name), 200);
  if (!look.shaded && marks.empty() && look.features.empty()) {
    return fmt::format("Contour map of {}: its outline, lines of equal depth and launches, to mark places on.", name);
  }
  return fmt::format("Depth map of {} with {} numbered places; {}. The table says the same in words.", name,
                     marks.size(), look.shaded ? "darker is deeper" : "features have the letter of their kind");
}

}  // namespace castplan::sheet
