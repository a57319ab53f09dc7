// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/terrain/smooth.hpp"
#include "features/bends.hpp"
#include "features/coarse.hpp"
#include "features/made_apart.hpp"

namespace castplan {

namespace {

constexpr double kAtShore = 0.3;    // metres of water where a crest that is followed upwards has reached the shore
constexpr double kFlat = 0.01;      // grade below which it has reached a flat
constexpr double kStraight = 0.75;  // ends of a crest as the crow flies over its length: one that winds is a valley
constexpr double kLongest = 300;    // metres: what goes on further is a ridge or a valley
constexpr double kWeakTurn = 0.2;   // bends that carry a form on where its contours bend less

/// What the search works on: the floor at its own scale, and where its contours bend.
struct Scene {
  const Lake& lake;
  Grid<Metres32> depth;
  Metres scale;
};

/// A form that was found: bends of one sign below one another, in one window.
struct Form {
  bool outward;
  Metres window;
  Metres relief;
  BendChain chain;
};

Scene scene_of(const Lake& lake) {
  const Metres scale = bend_scale(lake);
  const int step = coarse_step(lake.depth.frame().cell, scale * 0.5);
  return {lake, smoothed(coarse_depth(lake, step), scale), scale};
}

/// Depths of the contours: every half metre to 6 m, every metre to 15 m, then ever further apart; the same for every
/// lake, but never closer than the depths' error.
std::vector<float> contour_depths(const Lake& lake) {
  std::vector<float> depths;
  for (double depth = 0.5; depth < lake.max_depth.value();) {
    if (depths.empty() || depth - depths.back() >= lake.depth_error.value() - 1e-6) {
      depths.push_back(static_cast<float>(depth));
    }
    depth += depth < 6 ? 0.5 : depth < 15 ? 1 : depth < 40 ? 2.5 : 10;
  }
  return depths;
}

/// Depth for the relief: land is 0; NaN where unknown.
double depth_or_land(const Lake& lake, XY at) {
  return cover_at(lake, at) == Cover::land ? 0.0 : static_cast<double>(depth_at(lake, at));
}

/// How far the floor falls to both sides of a crest (rises, from a notch): the lesser side; NaN where unknown.
double relief_at(const Lake& lake, const Bend& bend, bool outward, Metres window) {
  const XY aside{-bend.deep.y * window.value(), bend.deep.x * window.value()};
  const double here = depth_or_land(lake, bend.at);
  const double left = depth_or_land(lake, bend.at + aside) - here;
  const double right = depth_or_land(lake, bend.at - aside) - here;
  return outward ? std::min(left, right) : std::min(-left, -right);
}

double median(std::vector<double> values) {
  std::erase_if(values, [](double value) { return std::isnan(value); });
  if (values.empty()) return NAN;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

Metres asked(bool outward, const DetectOptions& options) {
  return outward ? options.point_relief : options.turn_relief;
}

/// The line through the bends; those between the ends are drawn together with their neighbours, a quarter each.
Line crest(const BendChain& chain) {
  Line line;
  for (std::size_t i = 0; i < chain.size(); ++i) {
    const bool end = i == 0 || i + 1 == chain.size();
    line.push_back(end ? chain[i].at : chain[i].at * 0.5 + (chain[i - 1].at + chain[i + 1].at) * 0.25);
  }
  return line;
}

/// Mean direction towards deeper water, a unit vector.
XY axis(const BendChain& chain) {
  XY sum{};
  for (const Bend& bend : chain) sum = sum + bend.deep;
  return sum * (1 / std::max(std::hypot(sum.x, sum.y), 1e-9));
}

/// The deepest part of a chain that still stands out by half of what is asked for ends a form.
std::optional<Form> form_of(BendChain chain, bool outward, Metres window, const Scene& scene,
                            const std::vector<float>& depths, const DetectOptions& options) {
  const auto relief = [&](const Bend& bend) { return relief_at(scene.lake, bend, outward, window); };
  const double half = asked(outward, options).value() / 2;
  while (!chain.empty() && !(relief(chain.back()) >= half)) chain.pop_back();
  while (!chain.empty() && !(relief(chain.front()) >= half)) chain.erase(chain.begin());
  if (chain.size() < 3) return std::nullopt;
  const auto depth_of = [&](const Bend& bend) { return depths[static_cast<std::size_t>(bend.level)]; };
  if (depth_of(chain.back()) - depth_of(chain.front()) < options.point_span.value() - 1e-6) return std::nullopt;
  if (depth_of(chain.front()) > options.point_head.value()) return std::nullopt;
  const Metres along = length(crest(chain));
  if (along.value() > kLongest || distance(chain.front().at, chain.back().at) < along * kStraight) return std::nullopt;
  std::vector<double> reliefs;
  int strong = 0;
  for (const Bend& bend : chain) {
    reliefs.push_back(relief(bend));
    strong += bend.turn >= options.point_turn ? 1 : 0;
  }
  const double stands = median(reliefs);
  if (!(stands >= asked(outward, options).value()) || 2 * strong < static_cast<int>(chain.size())) return std::nullopt;
  return Form{outward, window, Metres(stands), std::move(chain)};
}

std::vector<Form> forms(const Scene& scene, const DetectOptions& options) {
  const std::vector<float> depths = contour_depths(scene.lake);
  std::vector<Lines> contours;
  contours.reserve(depths.size());
  for (const float depth : depths) contours.push_back(isolines(scene.depth, depth));
  std::vector<Form> found;
  const Metres least = std::max(options.point_window, scene.scale * 3);
  for (const double times : {1.0, 2.0}) {
    const Metres window = least * times;
    for (const bool outward : {true, false}) {
      std::vector<std::vector<Bend>> by_level(contours.size());
      each(static_cast<int>(contours.size()), [&](int i) {
        by_level[static_cast<std::size_t>(i)] =
            bends(contours[static_cast<std::size_t>(i)], i, {window, window * 0.125, kWeakTurn, outward});
      });
      for (BendChain& chain : chained(by_level, std::min(window, least * 2))) {
        if (auto form = form_of(std::move(chain), outward, window, scene, depths, options)) found.push_back(*form);
      }
    }
  }
  return found;
}

/// The same form shows in several windows, and where its contours part: the one that stands out most is kept, and what
/// comes nearer to it than a window, and faces the same way, goes.
std::vector<Form> each_once(std::vector<Form> all) {
  std::stable_sort(all.begin(), all.end(), [](const Form& a, const Form& b) {
    return a.window != b.window ? a.window < b.window : a.relief > b.relief;
  });
  std::vector<Form> kept;
  std::vector<Line> crests;
  for (Form& form : all) {
    const Line line = crest(form.chain);
    bool fresh = true;
    for (std::size_t i = 0; i < kept.size() && fresh; ++i) {
      if (kept[i].outward != form.outward || dot(axis(kept[i].chain), axis(form.chain)) < 0) continue;
      const auto near = [&](XY at) { return distance(at, crests[i]) < std::max(form.window, kept[i].window); };
      fresh = std::none_of(line.begin(), line.end(), near);
    }
    if (!fresh) continue;
    kept.push_back(std::move(form));
    crests.push_back(line);
  }
  return kept;
}

/// Goes on from the shallow end of a crest, straight up its axis, to the shore or a flat, no further than two windows.
void begin_at_shore(Line& line, XY downwards, const Form& form, const Scene& scene) {
  const double step = scene.depth.frame().cell.value();
  XY at = line.front();
  double depth = bilinear(scene.depth, at);
  Line before;
  for (double gone = step; gone <= 2 * form.window.value() && depth > kAtShore; gone += step) {
    const XY next = at - downwards * step;
    const double there = bilinear(scene.depth, next);
    if (!(depth - there >= kFlat * step) || cover_at(scene.lake, next) != Cover::water) break;
    before.push_back(at = next);
    depth = there;
  }
  if (!before.empty()) line.insert(line.begin(), before.back());
}

Feature point_feature(const Form& form, const Scene& scene, const Ground& ground, const DetectOptions& options) {
  const Lake& lake = scene.lake;
  Line line = crest(form.chain);
  const XY marked = form.outward ? line.back() : line.front();
  const XY downwards = axis(form.chain);
  begin_at_shore(line, downwards, form, scene);
  Feature feature;
  feature.kind = form.outward ? Kind::point : Kind::inside_turn;
  feature.geometry = Lines{simplified(line, Metres(2))};
  feature.anchor = point_along(begun_at_north(line), 0.5);
  if (cover_at(lake, feature.anchor) != Cover::water) feature.anchor = marked;
  feature.details = Bar{Metres(depth_at(lake, marked)), form.relief,
                        true_bearing(lake.projection, marked, marked + downwards * form.window.value())};
  feature.confidence = confidence_of({.relief = form.relief, .asked = asked(form.outward, options)}, ground, marked);
  return feature;
}

}  // namespace

Metres bend_scale(const Lake& lake) {
  const Metres size(0.01 * std::sqrt(lake.area.value()));
  const Metres suits = std::clamp(size, Metres(12), Metres(40)) * std::clamp(lake.depth_error.value() / 0.3, 1.0, 2.0);
  return std::max(suits, lake.depth.frame().cell * 1.25);
}

std::vector<Feature> find_points(const Ground& ground, const DetectOptions& options) {
  const Scene scene = scene_of(ground.lake);
  std::vector<Feature> found;
  for (const Form& form : each_once(forms(scene, options)))
    found.push_back(point_feature(form, scene, ground, options));
  found = north_first(std::move(found));
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) { return a.kind < b.kind; });
  int points = 0, turns = 0;
  for (Feature& feature : found) {
    feature.name =
        feature.kind == Kind::point ? fmt::format("Point {}", ++points) : fmt::format("Inside turn {}", ++turns);
  }
  return found;
}

}  // namespace castplan
