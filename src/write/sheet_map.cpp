// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/sheet_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "write/depth_picture.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_numbers.hpp"

namespace castplan::sheet {
namespace {

constexpr Font kSmall{9.0};
constexpr double kRim = 2.5 * kMm;    // between the water and the frame
constexpr double kKey = 9.0 * kMm;    // height of the key below the map
constexpr double kSpeck = 0.2 * kMm;  // detail below this is not printed

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

/// The view, laid into an area of the paper.
struct Map {
  Canvas& canvas;
  const Plan& plan;
  Area area;
  MapView view;
  double scale;  ///< points a metre

  [[nodiscard]] Place on_paper(XY at) const {
    const XY middle = (view.box.low + view.box.high) * 0.5;
    return {area.left + area.width / 2.0 + (at.x - middle.x) * scale,
            area.top + area.height / 2.0 - (at.y - middle.y) * scale};
  }
  [[nodiscard]] Metres speck() const { return Metres(kSpeck / scale); }
  [[nodiscard]] Outline outline(const Line& line) const {
    Outline out;
    for (const XY at : line) out.push_back(on_paper(at));
    return out;
  }
  [[nodiscard]] std::vector<Outline> outlines(const Polygons& polygons) const {
    std::vector<Outline> out;
    for (const Polygon& polygon : simplified(polygons, speck())) {
      out.push_back(outline(polygon.outer));
      for (const Ring& hole : polygon.holes) out.push_back(outline(hole));
    }
    return out;
  }
};

void draw_depths(const Map& map, const Levels& levels, std::vector<Area>& taken) {
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
      if (length(line).value() * map.scale < 3.0 * kMm) continue;
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

void draw_features(const Map& map) {
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
void draw_key(const Map& map, Place at) {
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
  if (has(map.plan, Kind::hazard)) {
    draw_cross(canvas, {at.x + 3.0, at.y - 3.2});
    at.x += 8.0;
    say("shoal, hazard");
  }
  if (has(map.plan, Kind::closure)) {
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
  say(map.plan.units == Units::metric ? "depths in m" : "depths in ft");
}

// A round length of at most a quarter of the map.
void draw_scale(const Map& map, Place at) {
  const bool metric = map.plan.units == Units::metric;
  const double unit = metric ? 1.0 : 0.3048;
  const double room = 0.26 * map.area.width / map.scale / unit;
  const double ten = std::pow(10.0, std::floor(std::log10(room)));
  const double length = room >= 5.0 * ten ? 5.0 * ten : room >= 2.0 * ten ? 2.0 * ten : ten;
  const double points = length * unit * map.scale;
  map.canvas.fill(Area{at.x, at.y - 3.0, points / 2.0, 3.0}, 0.0);
  map.canvas.frame({at.x, at.y - 3.0, points, 3.0}, {0.6});
  const std::string words = metric && length >= 1000.0 ? fmt::format("{:.0f} km", length / 1000.0)
                                                       : fmt::format("{:.0f} {}", length, metric ? "m" : "ft");
  map.canvas.text({at.x + points + 4.0, at.y}, words, kSmall);
}

void draw_north(const Map& map, Place at) {
  const Projection& projection = map.plan.lake->projection;
  const XY middle = (map.view.box.low + map.view.box.high) * 0.5;
  // true north lies at minus the convergence from the top of the paper
  const double turn = -projection.scale_at(projection.to_lonlat(middle)).convergence.value() * 3.14159265358979 / 180.0;
  const auto turned = [&](double x, double y) {
    return Place{at.x + x * std::cos(turn) - y * std::sin(turn), at.y + x * std::sin(turn) + y * std::cos(turn)};
  };
  map.canvas.fill({{turned(0, -6), turned(3.2, 5), turned(0, 2.8), turned(-3.2, 5)}}, 0.0);
  map.canvas.ending({at.x - 6.0, at.y + 3.0}, "true north", kSmall);
}

}  // namespace

std::string draw_map(Canvas& canvas, const Plan& plan, Area area, const std::vector<Mark>& marks) {
  const Tagged tag(canvas, "Figure");
  const Area inside{area.left, area.top, area.width, area.height - kKey};
  const MapView view = tight_view(plan, marks);
  const double scale =
      std::min((inside.width - 2.0 * kRim) / view.width(), (inside.height - 2.0 * kRim) / view.height());
  const Map map{canvas, plan, inside, view, scale};
  const Levels levels = levels_of(plan.lake->max_depth, plan.units);
  std::vector<Numbered> numbers;
  numbers.reserve(marks.size());
  for (const Mark& mark : marks) numbers.push_back({mark.label, map.on_paper(mark.at), {}});
  std::vector<Area> taken = place_numbers(canvas, inside, numbers);
  canvas.clip(inside);
  draw_depths(map, levels, taken);
  canvas.stroke(map.outlines(plan.lake->outline), {1.1});
  draw_features(map);
  draw_numbers(canvas, numbers);
  canvas.unclip();
  canvas.frame(inside, {0.6, 0.4});
  draw_key(map, {inside.left, inside.bottom() + 4.0 * kMm});
  draw_scale(map, {inside.left, area.bottom() - 0.6 * kMm});
  draw_north(map, {inside.right() - 4.0, area.bottom() - 2.0 * kMm});
  return fmt::format("Depth map of {} with {} numbered places; darker is deeper. The table says the same in words.",
                     shortened(one_line(plan.lake_name), 200), marks.size());
}

}  // namespace castplan::sheet
