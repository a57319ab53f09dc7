// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/weed_places.hpp"

#include <algorithm>
#include <cmath>

#include "castplan/features/weed_density.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/terrain/waves.hpp"
#include "features/weed_beds.hpp"

namespace castplan {

namespace {

// An expected edge is no news within this distance of a bed that somebody mapped.
constexpr Metres kMappedReach(40);
constexpr Metres kFetchStep(50);  // fetch changes slowly along an edge
constexpr Metres kGradeOver(16);  // or two cells: a stretch of floor that is one slope to plants; design choice
constexpr Metres kFine(6);        // or two cells: a stretch that tells where a slope ends
// An inside edge goes on through water a little less than what is asked for, as long as half of it has all of that.
constexpr double kGoesOn = 0.8;
constexpr Metres kBareStrip(10);  // or two and a half cells: narrowest bare strip along the shore that is told
constexpr Metres kFlicker(20);    // an edge does not leave the break, or the light's depth, for less than this

bool any_of_kind(const Ground& ground, std::string_view kind) {
  return std::any_of(ground.structure.begin(), ground.structure.end(),
                     [&](const MappedStructure& layer) { return layer.kind == kind; });
}

double slope_pct(const Grid<Metres32>& field, XY at) {
  const XY gradient = gradient_at(field, at);
  return 100 * std::hypot(gradient.x, gradient.y);
}

Metres mean_depth(const WaterBody& body) { return Metres(body.volume.value() / body.area.value()); }

// Mean depth of the water body that a place lies in; none off the water.
std::optional<Metres> mean_depth_about(const Lake& lake, XY at) {
  const Cell cell = lake.depth.frame().cell_at(at);
  if (!lake.body_of.holds(cell) || lake.body_of[cell] < 0) return std::nullopt;
  return mean_depth(lake.bodies[static_cast<std::size_t>(lake.body_of[cell])]);
}

// As a lake of this size has it on its open shores: the fetch is about the root of the area.
Metres usual_wave_base(const Lake& lake, MetresPerSecond wind) {
  if (lake.bodies.empty()) return Metres(0);
  const WaterBody& body = lake.bodies.front();
  return wave_base(shallow_waves(wind, Metres(std::sqrt(body.area.value())), mean_depth(body)).period);
}

// Drops places where the edge leaves the break or comes to it for a few metres only, and those that lie behind the one
// before them, where ways up the slope cross.
std::vector<WeedPlace> steadied(const std::vector<WeedPlace>& places, const Line& along) {
  std::vector<WeedPlace> kept;
  for (std::size_t first = 0, last = 0; first < places.size(); first = last + 1) {
    last = first;
    while (last + 1 < places.size() && places[last + 1].at_break == places[first].at_break) ++last;
    const bool short_one = length(Line(along.begin() + static_cast<std::ptrdiff_t>(first),
                                       along.begin() + static_cast<std::ptrdiff_t>(last) + 1)) < kFlicker;
    const bool inner = first > 0 && last + 1 < places.size();
    for (std::size_t i = first; i <= last && !(short_one && inner); ++i) {
      const bool at_end = i == 0 || i + 1 == places.size();
      const bool moved = places[i].at_break && !at_end;
      if (moved && dot(places[i].at - kept.back().at, along[i] - along[i - 1]) <= 0) continue;
      kept.push_back(places[i]);
    }
  }
  return kept;
}

}  // namespace

WeedGround::WeedGround(const Ground& ground, const DetectOptions& options)
    : ground_(ground),
      options_(options),
      weeds_(ground.weeds->depth),
      fine_(std::max(kFine.value() / 2, ground.lake.depth.frame().cell.value())),
      half_(std::max(kGradeOver.value() / 2, ground.lake.depth.frame().cell.value())),
      beds_(areas_of(ground, "weeds")),
      rock_known_(any_of_kind(ground, "rock")),
      inside_least_(std::max(options.weed_shallowest, ground.lake.depth_error * 2)),
      fetch_(ground.lake) {
  if (!beds_.empty()) near_bed_.emplace(Geometry{beds_});
  if (const Polygons rock = areas_of(ground, "rock"); !rock.empty()) rock_.emplace(Geometry{rock});
  if (ground.swing && ground.swing->range > options.weed_swing) {
    swing_bottom_ = std::max(Metres(0), ground.swing->down_to);
  }
  const Metres usual = std::max(usual_wave_base(ground.lake, options.weed_wind), swing_bottom_);
  inside_depth_ = std::clamp(usual, options.weed_shallowest, std::max(options.weed_shallowest, weeds_ * 0.8));
}

// Fall of the floor per hundred metres over a stretch of a half length to both sides of a place so far up the slope.
double WeedGround::grade(XY at, XY up, double away, double half) const {
  const double deep = bilinear(ground_.quiet().depth, at + up * (away - half));
  const double shallow = bilinear(ground_.quiet().depth, at + up * (away + half));
  return 100 * (deep - shallow) / (2 * half);
}

// The last steep stretch of floor up the slope, where at least one begins within a strip's width of what lies below it.
std::optional<WeedGround::Steep> WeedGround::steep_above(XY at, XY up) const {
  const double step = fine_ / 2;
  std::optional<Steep> found;
  int last = 0;
  for (int i = 0; (i - last) * step <= options_.weed_strip.value(); ++i) {
    const double here = grade(at, up, i * step, half_);
    if (std::isnan(here)) break;
    if (here > options_.weed_steepest_pct) {
      found = Steep{i * step, i == 0 || (found && found->at_once), false};
      last = i;
    } else if (found) {
      found->gentle_above = true;
    }
  }
  if (found && found->gentle_above) found->top = top_near(at, up, found->top);
  return found;
}

// Where the steep floor ends, from above, by the shortest stretch that the survey can tell.
double WeedGround::top_near(XY at, XY up, double away) const {
  const double step = fine_ / 2;
  const double steepest = options_.weed_steepest_pct;
  double above = NAN;
  for (double top = away + half_; top >= away - half_; top -= step) {
    const double here = grade(at, up, top, fine_);
    if (here > steepest) return std::isnan(above) ? top : top + step * (here - steepest) / (here - above);
    above = here;
  }
  return away;
}

WeedPlace WeedGround::on_slope(XY at) const {
  WeedPlace place{at, weeds_, weed_density_at(slope_pct(ground_.smooth, at))};
  const XY rise = gradient_at(ground_.smooth, at);
  if (!(std::hypot(rise.x, rise.y) > 0)) return place;
  const XY up = unit(rise) * -1.0;
  const auto steep = steep_above(at, up);
  if (!steep) return place;
  const XY top = at + up * steep->top;
  const Metres depth(bilinear(ground_.quiet().depth, top));
  const bool in_water = cover_at(ground_.lake, top) == Cover::water;
  if (steep->gentle_above && in_water && depth >= options_.weed_shallowest) {
    const double shelf = grade(at, up, steep->top + half_ + fine_, half_);
    return {top, depth, weed_density_at(std::isnan(shelf) ? options_.weed_steepest_pct : shelf), true};
  }
  // steep all the way to the shore: no room for plants above, and none on the slope itself
  if (steep->at_once) place.bare = WeedLoss::steepness;
  return place;
}

void WeedGround::look_around(WeedPlace& place) const {
  if (near_bed_ && !(near_bed_->distance_to(place.at) > kMappedReach)) place.hidden = true;
  if (rock_ && rock_->covers(place.at)) place.bare = WeedLoss::rock;
}

std::vector<std::optional<Metres>> WeedGround::wave_bases(const Line& along) const {
  const Lake& lake = ground_.lake;
  const Metres step = along.size() > 1 ? length(along) / static_cast<double>(along.size() - 1) : kFetchStep;
  const auto every = static_cast<std::size_t>(std::max(1.0, std::round(kFetchStep / std::max(step, Metres(0.01)))));
  const std::size_t count = (along.size() + every - 1) / every;
  std::vector<std::optional<Metres>> some(count);
  each(static_cast<int>(count), [&](int i) {
    const auto number = static_cast<std::size_t>(i);
    const XY at = along[std::min(number * every + every / 2, along.size() - 1)];
    const auto mean = mean_depth_about(lake, at);
    const auto reach = mean ? fetch_.greatest(at) : std::nullopt;
    if (reach) some[number] = wave_base(shallow_waves(options_.weed_wind, *reach, *mean).period);
  });
  std::vector<std::optional<Metres>> all(along.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = some[i / every];
  return all;
}

std::vector<WeedPlace> WeedGround::outside(const Line& along) const {
  const auto waves = wave_bases(along);
  std::vector<WeedPlace> places;
  for (std::size_t i = 0; i < along.size(); ++i) {
    WeedPlace place = on_slope(along[i]);
    place.waves_known = waves[i].has_value();
    if (waves[i] && *waves[i] >= place.depth) place.bare = WeedLoss::scour;
    look_around(place);
    places.push_back(place);
  }
  return steadied(places, along);
}

// From a place at the usual depth up or down the slope to the depth at which the bare shallows end.
WeedPlace WeedGround::inside_at(XY at, std::optional<Metres> waves) const {
  WeedPlace place{at, inside_depth_};
  place.waves_known = waves.has_value();
  const bool by_waves = waves && *waves >= swing_bottom_;
  const Metres wanted = by_waves ? *waves : swing_bottom_;
  place.above = by_waves ? WeedLoss::scour : WeedLoss::level_swing;
  place.hidden = true;
  if (wanted < inside_least_ * kGoesOn || wanted >= weeds_) return place;
  const XY deeper = unit(gradient_at(ground_.smooth, at));
  const double way = wanted < inside_depth_ ? -1 : 1;
  const double step = ground_.lake.depth.frame().cell.value() / 2;
  double before = inside_depth_.value();
  for (double away = 0; away <= options_.weed_inside_reach.value(); away += step) {
    const double here = bilinear(ground_.quiet().depth, at + deeper * (way * away));
    if (std::isnan(here)) return place;
    if (way * (here - wanted.value()) >= 0) {
      const double share = here == before || away == 0 ? 0 : (here - wanted.value()) / (here - before);
      place.at = at + deeper * (way * (away - step * std::clamp(share, 0.0, 1.0)));
      place.depth = wanted;
      // a strip that is no wider than this is the shore itself
      const double strip = std::max(kBareStrip.value(), 2.5 * ground_.lake.depth.frame().cell.value());
      place.hidden = cover_at(ground_.lake, place.at) != Cover::water ||
                     cover_at(ground_.lake, place.at - deeper * strip) != Cover::water;
      place.stand = weed_density_at(slope_pct(ground_.smooth, place.at));
      if (place.stand == 0) place.bare = WeedLoss::steepness;
      look_around(place);
      return place;
    }
    before = here;
  }
  return place;
}

std::vector<WeedPlace> WeedGround::inside(const Line& along) const {
  const auto waves = wave_bases(along);
  std::vector<WeedPlace> places;
  for (std::size_t i = 0; i < along.size(); ++i) places.push_back(inside_at(along[i], waves[i]));
  return places;
}

}  // namespace castplan
