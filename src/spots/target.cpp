// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/target.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sample.hpp"

namespace castplan {

namespace {

constexpr Metres kStep(10);          // between targets
constexpr std::size_t kAround = 16;  // fine steps to each side: 40 m
constexpr double kWindow = 6;        // fine steps: what a fan of casts covers to each side
constexpr double kAsGood = 0.05;     // of a score: places that near to the best are alike to a fish; design choice
constexpr int kTurns = 12;
constexpr float kShallowest = 0.5F;  // less water than this holds no target
// How far a target may be moved along the slope from the line of its edge, and in which steps.
constexpr double kSlide = 20;
constexpr double kSlideStep = 2.5;
constexpr int kHalvings = 5;  // of a step: to 8 cm

double to_centimetre(double depth) { return std::round(depth * 100) / 100; }

bool moves_along_slope(Kind kind) { return kind == Kind::drop_off || kind == Kind::hump || kind == Kind::pool; }

// A drop-off is fished between its top and its base; elsewhere the slope sets no limits.
bool on_feature(const Feature& feature, double depth) {
  const auto* edge = std::get_if<DropOff>(&feature.details);
  return edge == nullptr || (depth >= edge->top_depth.value() - 0.5 && depth <= edge->base_depth.value() + 0.5);
}

/// A place on the slope through an edge, and how well its depth suits, in thousandths.
struct OnSlope {
  XY at;
  double depth{};
  double suits = -1;  ///< none: no place for a target
};

OnSlope on_slope(const Lake& lake, const Feature& feature, XY place, const Phase& phase, Metres reach) {
  const float raw = bilinear(lake.depth, place);
  if (!(raw >= kShallowest) || raw > reach.value()) return {};
  const double depth = to_centimetre(raw);
  if (!on_feature(feature, depth)) return {};
  return {place, depth, std::round(phase.depth(depth) * 1e3)};
}

// The place on the slope through `at` whose depth suits best; the nearest of equals, sought by steps and then between
// the last two, so that it does not jump by a whole one.
std::optional<Target> best_on_slope(const Lake& lake, const Feature& feature, XY at, const Phase& phase,
                                    const SpotOptions& options) {
  const XY down = unit(gradient_at(lake.depth, at));
  const auto look = [&](double away) { return on_slope(lake, feature, at + down * away, phase, options.reach); };
  const int steps = moves_along_slope(feature.kind) && !(down == XY{}) ? static_cast<int>(kSlide / kSlideStep) : 0;
  OnSlope best;
  double away = 0;
  for (int i = 0; i <= 2 * steps; ++i) {
    const int step = i % 2 == 0 ? i / 2 : -(i + 1) / 2;  // 0, -1, 1, -2, 2 ...: nearest first
    const OnSlope found = look(step * kSlideStep);
    if (found.suits <= best.suits) continue;
    best = found;
    away = step * kSlideStep;
  }
  if (best.suits < 0) return std::nullopt;
  double nearer = away - std::copysign(kSlideStep, away);
  for (int half = 0; away != 0 && half < kHalvings; ++half) {
    const double middle = (nearer + away) / 2;
    const OnSlope found = look(middle);
    (found.suits >= best.suits ? away : nearer) = middle;
    if (found.suits >= best.suits) best = found;
  }
  return Target{&feature, best.at, Metres(best.depth), {}, {}, 0, {}, 0};
}

// A deep basin is fished from its rim; only where the whole water is within a lure's reach is the hole the target.
bool is_hole_of_shallow_water(const Lake& lake, const Pool& pool, Metres reach) {
  const Cell at = lake.depth.frame().cell_at(pool.deepest);
  if (!lake.body_of.holds(at) || lake.body_of[at] < 0) return false;
  return lake.bodies[static_cast<std::size_t>(lake.body_of[at])].max_depth <= reach;
}

// The middle of the depths within reach that suit the phase best, to half a metre.
float best_depth(const Phase& phase, Metres reach) {
  double first = 1, last = 1, best = -1;
  for (double depth = 1; depth <= reach.value(); depth += 0.5) {
    const double suits = phase.depth(depth);
    if (suits > best) first = depth;
    if (suits >= best) last = depth;
    best = std::max(best, suits);
  }
  return static_cast<float>((first + last) / 2);
}

// A basin without any edge is fished on its slope: along the line of the depth that suits best.
std::vector<Target> on_slopes(const Lake& lake, const std::vector<const Feature*>& basins, const Phase& phase,
                              const SpotOptions& options) {
  std::vector<Target> found;
  if (basins.empty()) return found;
  const Polygons deeper = area_above(lake.depth, best_depth(phase, options.reach));
  for (const Feature* basin : basins) {
    const XY deepest = std::get<Pool>(basin->details).deepest;
    for (const Polygon& polygon : deeper) {
      if (!contains(polygon.outer, deepest)) continue;
      for (const XY at : resampled(polygon.outer, kStep)) {
        if (auto target = best_on_slope(lake, *basin, at, phase, options)) found.push_back(std::move(*target));
      }
    }
  }
  return found;
}

struct Place {
  XY at;
  std::shared_ptr<const Line> edge{};
  std::size_t on_edge{};
};

std::vector<Place> places_on(const Lake& lake, const Feature& feature, Metres reach) {
  if (const auto* pool = std::get_if<Pool>(&feature.details); pool && is_hole_of_shallow_water(lake, *pool, reach)) {
    return {{pool->deepest}};
  }
  std::vector<Place> places;
  for (const Line& line : lines_of(feature.geometry)) {
    if (line.size() < 2) {
      places.push_back({line.front()});
      continue;
    }
    const auto edge = std::make_shared<const Line>(resampled(line, kStep * (1.0 / kFineInStep)));
    for (std::size_t i = 0; i < edge->size(); i += kFineInStep) places.push_back({(*edge)[i], edge, i});
  }
  return places;
}

// Where along a line a score stands out most, about a place on it: the mean of the places within a cast, weighted by
// how near each comes to the best of them, taken again from there until it rests.
double settled_along(const std::vector<double>& scores, double from) {
  for (int turn = 0; turn < kTurns; ++turn) {
    double best = 0, sum = 0, mean = 0;
    for (std::size_t i = 0; i < scores.size(); ++i) {
      if (std::abs(static_cast<double>(i) - from) <= kWindow) best = std::max(best, scores[i]);
    }
    for (std::size_t i = 0; i < scores.size(); ++i) {
      const double away = std::abs(static_cast<double>(i) - from) / kWindow;
      const double over = scores[i] - best * (1 - kAsGood);
      if (away > 1 || over <= 0) continue;
      const double weight = over * over * (1 - away * away);
      sum += weight;
      mean += weight * static_cast<double>(i);
    }
    if (sum > 0) from = mean / sum;
  }
  return from;
}

}  // namespace

double grade_at(const Lake& lake, XY place) {
  const XY gradient = gradient_at(lake.depth, place);
  const double grade = 100 * std::hypot(gradient.x, gradient.y);
  return std::isnan(grade) ? 0 : grade;
}

std::vector<Target> targets(const Lake& lake, const Surroundings& surroundings, const Phase& phase,
                            const SpotOptions& options) {
  std::vector<Target> found;
  for (const Feature* feature : surroundings.castable()) {
    for (Place& place : places_on(lake, *feature, options.reach)) {
      auto target = best_on_slope(lake, *feature, place.at, phase, options);
      if (!target) continue;
      target->edge = std::move(place.edge);
      target->on_edge = place.on_edge;
      found.push_back(std::move(*target));
    }
  }
  return found.empty() ? on_slopes(lake, surroundings.deep_basins(), phase, options) : found;
}

Target settled(const Target& target, const Lake& lake, const Surroundings& surroundings, const Phase& phase,
               const SpotOptions& options) {
  if (!target.edge) return target;
  const std::size_t first = target.on_edge - std::min(target.on_edge, kAround);
  const std::size_t last = std::min(target.on_edge + kAround + 1, target.edge->size());
  const std::span<const XY> along(target.edge->data() + first, last - first);
  if (along.size() < 3) return target;
  std::vector<double> scores;
  std::size_t nearest = 0;
  for (std::size_t i = 0; i < along.size(); ++i) {
    auto place = best_on_slope(lake, *target.feature, along[i], phase, options);
    if (place) judge(*place, lake, surroundings, phase);
    scores.push_back(place ? place->score : 0);
    if (distance(along[i], target.at) < distance(along[nearest], target.at)) nearest = i;
  }
  const double rest = settled_along(scores, static_cast<double>(nearest));
  const auto before = std::min(static_cast<std::size_t>(rest), along.size() - 2);
  const XY from = along[before];
  const XY at = from + (along[before + 1] - from) * (rest - static_cast<double>(before));
  auto best = best_on_slope(lake, *target.feature, at, phase, options);
  if (!best) return target;
  judge(*best, lake, surroundings, phase);
  return best->score > 0 ? *best : target;
}

}  // namespace castplan
