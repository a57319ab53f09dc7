// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/drift.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/features/detect.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/season/wind.hpp"

namespace castplan {

namespace {

constexpr Metres kHull(3);     // of room that a boat takes beside its middle
constexpr double kStep = 1;    // metres along the way
constexpr Metres kOnLane(10);  // between the places of a lane that are looked at

bool is_struck(const Feature& feature, Metres floats) {
  if (feature.kind == Kind::hazard) return true;
  if (feature.kind == Kind::rock) {
    const auto& rock = std::get<Structure>(feature.details);
    return !rock.depth || *rock.depth < floats;
  }
  const auto* closure = std::get_if<Closure>(&feature.details);
  return closure != nullptr && closure->active && closure->kind == ClosureKind::no_entry;
}

std::string called(const Feature& feature) {
  return feature.kind == Kind::closure ? "closed water (" + feature.name + ")" : feature.name;
}

}  // namespace

XY down_wind(const Lake& lake, Degrees from) {
  const Degrees turned = lake.projection.scale_at(middle_of(lake)).convergence;
  const double way = (from + Degrees(180) - turned).value() * M_PI / 180;
  return {std::sin(way), std::cos(way)};
}

Drift::Drift(const Lake& lake, const std::vector<Feature>& features, const SpotOptions& options)
    : lake_(lake), draft_(options.draft), speed_(0) {
  if (!options.wind) return;
  speed_ = options.wind->speed * kDriftShare;
  way_ = down_wind(lake, options.wind->from);
  const Metres floats = floating_depth(lake, options.draft, options.margin);
  for (const Feature& feature : features) {
    const auto box = is_struck(feature, floats) ? bounds(feature.geometry) : std::nullopt;
    if (!box) continue;
    const XY room{kHull.value(), kHull.value()};
    obstacles_.push_back({PreparedShape(feature.geometry), called(feature), {box->low - room, box->high + room}});
  }
}

std::optional<Grounding> Drift::from(XY boat) const {
  const double far = speed_.value() * kDriftMinutes * 60;
  if (!(far > 0)) return std::nullopt;
  const XY end = boat + way_ * far;
  const Box about{{std::min(boat.x, end.x), std::min(boat.y, end.y)},
                  {std::max(boat.x, end.x), std::max(boat.y, end.y)}};
  std::vector<const Obstacle*> near;
  for (const Obstacle& obstacle : obstacles_) {
    if (apart(obstacle.box, about) <= Metres(0)) near.push_back(&obstacle);
  }
  const auto after = [&](double gone, std::string onto) {
    return Grounding{std::move(onto), gone / speed_.value() / 60};
  };
  for (double gone = 0; gone <= far; gone += kStep) {
    const XY at = boat + way_ * gone;
    for (const Obstacle* obstacle : near) {
      if (holds(obstacle->box, at) && obstacle->shape.distance_to(at) <= kHull) return after(gone, obstacle->name);
    }
    const Cover cover = cover_at(lake_, at);
    if (cover == Cover::unknown) return std::nullopt;
    if (cover == Cover::land) return after(gone, "the shore");
    if (bilinear(lake_.depth, at) < draft_.value()) {
      // the last of the water before land is the shore to who stands in it
      const bool ashore = cover_at(lake_, at + way_ * lake_.depth.frame().cell.value()) == Cover::land;
      return after(gone, ashore ? "the shore" : "water too shallow to float it");
    }
  }
  return std::nullopt;
}

std::optional<Grounding> Drift::from(const Line& lane) const {
  std::optional<Grounding> first;
  for (const XY place : resampled(lane, kOnLane)) {
    auto found = from(place);
    if (found && (!first || found->minutes < first->minutes)) first = std::move(found);
  }
  return first;
}

std::string grounding_words(const Grounding& grounding, const SpotOptions& options) {
  return fmt::format(
      "{}, a wind of {} sets the boat onto {} in about {:.0f} min (drift taken as {:.0f} % of the wind): have the "
      "anchor ready.",
      options.motor ? "If the engine fails" : "Adrift", speed_text(options.wind->speed, options.units), grounding.onto,
      std::max(1.0, std::floor(grounding.minutes)), kDriftShare * 100);
}

}  // namespace castplan
