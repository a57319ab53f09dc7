// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <numeric>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/features/slope_change.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "features/along.hpp"
#include "features/break_profile.hpp"
#include "features/corners.hpp"
#include "features/made_apart.hpp"

namespace castplan {

namespace {

constexpr int kGap = 2;  // places that may fail without parting an edge

/// One place of a line, with what the floor does there.
struct Place {
  XY at;
  XY downslope;  ///< unit vector
  std::optional<BreakProfile> profile;
  double strength{};  ///< of what is asked for, on the mean along the line; 0 for no edge
};

// The change of slope must fall as the water deepens: the other zero lines are where the slope is least.
bool is_steepest(const SlopeChange& change, const Place& place) {
  const double h = change.frame().cell.value() / 2;
  const float up = change.at(place.at - place.downslope * h);
  const float down = change.at(place.at + place.downslope * h);
  return up > down;
}

/// Hysteresis: an edge goes on for a while where it is a little less than what is asked for. Source: Canny (1986), IEEE
/// PAMI 8, 679-698; the share is a design choice.
constexpr double kGoesOn = 0.8;
/// What has less than this by itself is no edge, whatever stands beside it along the line. Design choice.
constexpr double kAlone = 0.5;
/// A place speaks for those beside it by no more than this: steep stretches must not carry gentle ones. Design choice.
constexpr double kMostStrength = 1.05;

Metres least_relief(const Lake& lake, const DetectOptions& options) {
  return std::max(options.break_relief, lake.depth_error * 2);
}

/// What a place has by itself of what is asked for: the least of its reliefs and its grade as shares of their limits.
double strength_alone(const Place& place, const Lake& lake, const DetectOptions& options) {
  if (!place.profile) return 0;
  const Metres least = least_relief(lake, options);
  // a survey that ends in two metres of water has a step at its shore, which is no break of the floor
  if (place.profile->relief_in_water < least && place.profile->base_depth < options.wall) return 0;
  return std::min({place.profile->relief_in_window / least, place.profile->relief() / least,
                   place.profile->grade_pct() / options.break_grade_pct, kMostStrength});
}

/// So many places to each side tell with a place what the edge is there: 30 m, or six cells where those are wider.
constexpr int kBeside = 6;

// Means along the line: what decides is the edge, not how noise bent the profile at one place.
void set_strengths(std::vector<Place>& places, const Lake& lake, const DetectOptions& options) {
  const int count = static_cast<int>(places.size());
  const bool closed = count > 2 * kBeside + 1 && places.front().at == places.back().at;
  std::vector<double> alone(places.size());
  for (int i = 0; i < count; ++i) alone[i] = strength_alone(places[i], lake, options);
  for (int i = 0; i < count; ++i) {
    if (alone[i] < kAlone) continue;
    double sum = 0;
    int known = 0;
    for (int k = i - kBeside; k <= i + kBeside; ++k) {
      if (!closed && (k < 0 || k >= count)) continue;
      // the first place of a closed line is its last one again
      const double there = alone[closed ? (k + count - 1) % (count - 1) : k];
      sum += there;
      known += there > 0 ? 1 : 0;
    }
    places[i].strength = sum / known;
  }
}

// An edge goes on from where it is all that is asked for, no further than the shortest edge: how much of a long line is
// kept does not hang on a single place of it.
std::vector<bool> carried(const std::vector<Place>& places, const std::vector<bool>& goes_on, int reach) {
  const int count = static_cast<int>(places.size());
  std::vector<bool> kept(places.size());
  for (int i = 0; i < count; ++i) {
    if (!goes_on[i] || places[i].strength < 1) continue;
    for (int k = std::max(0, i - reach); k <= std::min(count - 1, i + reach); ++k) kept[k] = kept[k] || goes_on[k];
  }
  return kept;
}

// A closed line is begun at a place that does not qualify, so that no run is parted by the line's own start.
void begin_at_gap(std::vector<Place>& places, std::vector<bool>& good) {
  const auto gap = std::find(good.begin(), good.end(), false);
  if (gap == good.end() || places.size() < 2 || !(places.front().at == places.back().at)) return;
  const auto shift = gap - good.begin();
  places.pop_back();
  good.pop_back();
  if (shift >= static_cast<std::ptrdiff_t>(places.size())) return;
  std::rotate(places.begin(), places.begin() + shift, places.end());
  std::rotate(good.begin(), good.begin() + shift, good.end());
}

// Marks the cells between top and base of each place, as wide as the places are apart.
void mark_flanks(const std::vector<Place>& run, Metres step, const Frame& frame, std::vector<bool>& taken) {
  const double half = step.value() / 2;
  const int wide = static_cast<int>(std::ceil(half / frame.cell.value()));
  for (const Place& place : run) {
    if (!place.profile) continue;
    const double base = place.profile->base_at.value() - half;
    for (double down = place.profile->top_at.value() + half; down <= base; down += frame.cell.value()) {
      const Cell middle = frame.cell_at(place.at + place.downslope * down);
      for (int row = std::max(0, middle.row - wide); row <= std::min(frame.rows - 1, middle.row + wide); ++row) {
        for (int col = std::max(0, middle.col - wide); col <= std::min(frame.cols - 1, middle.col + wide); ++col) {
          taken[static_cast<std::size_t>(row) * frame.cols + col] = true;
        }
      }
    }
  }
}

// A long even slope is steepest in many places at once. What lies between the top and the base of a longer line is the
// same break again and is left out.
std::vector<std::vector<Place>> each_break_once(std::vector<std::vector<Place>> all, Metres step, Metres shortest,
                                                const Frame& frame) {
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.size() > b.size(); });
  std::vector<bool> taken(static_cast<std::size_t>(frame.rows) * frame.cols);
  std::vector<std::vector<Place>> found;
  for (const std::vector<Place>& run : all) {
    std::vector<bool> free(run.size());
    for (std::size_t i = 0; i < run.size(); ++i) {
      const Cell at = frame.cell_at(run[i].at);
      free[i] = !frame.holds(at) || !taken[static_cast<std::size_t>(at.row) * frame.cols + at.col];
    }
    for (std::vector<Place>& part : runs(run, free, kGap)) {
      if (step * (static_cast<double>(part.size()) - 1) < shortest) continue;
      mark_flanks(part, step, frame, taken);
      found.push_back(std::move(part));
    }
  }
  return found;
}

// Mean of the middle half: as deaf to a stray profile as the median, and it does not jump from one profile to the next
// when the places along the line fall a little otherwise.
template <class Get>
double midmean(const std::vector<Place>& places, Get get) {
  std::vector<double> values;
  for (const Place& place : places) {
    if (place.profile) values.push_back(get(*place.profile));
  }
  std::sort(values.begin(), values.end());
  const auto quarter = static_cast<std::ptrdiff_t>(values.size() / 4);
  const double sum = std::accumulate(values.begin() + quarter, values.end() - quarter, 0.0);
  return sum / static_cast<double>(static_cast<std::ptrdiff_t>(values.size()) - 2 * quarter);
}

// The least relief of a break, or that of the least grade over its width where it is more.
Metres asked_over(Metres width, const Lake& lake, const DetectOptions& options) {
  return std::max(least_relief(lake, options), width * (options.break_grade_pct / 100));
}

Feature drop_off_feature(const std::vector<Place>& places, const Ground& ground, const DetectOptions& options) {
  Line line = line_of(places);
  XY facing{};
  for (const Place& place : places) facing = facing + place.downslope;
  const Metres top(midmean(places, [](const BreakProfile& p) { return p.top_depth.value(); }));
  const Metres base(midmean(places, [](const BreakProfile& p) { return p.base_depth.value(); }));
  const double grade = midmean(places, [](const BreakProfile& p) { return p.grade_pct(); });
  const Metres along = length(line);
  Feature feature;
  feature.kind = Kind::drop_off;
  line = begun_at_north(std::move(line));
  feature.anchor = point_along(line, 0.5);
  feature.confidence = confidence_of({.relief = base - top,
                                      .asked = asked_over((base - top) / (grade / 100), ground.lake, options),
                                      .looks = looks_along(along)},
                                     ground, feature.anchor);
  feature.details = DropOff{top,
                            base,
                            base - top,
                            grade,
                            along,
                            true_bearing(ground.lake.projection, feature.anchor,
                                         feature.anchor + facing * (50.0 / std::hypot(facing.x, facing.y)))};
  feature.geometry = Lines{simplified(line, ground.lake.depth.frame().cell * 0.1)};
  return feature;
}

std::vector<Place> places_along(const Line& line, Metres step, const Ground& ground, Metres window) {
  std::vector<Place> places;
  for (const XY at : resampled(line, step)) {
    Place place{at, unit(gradient_at(ground.smooth, at)), std::nullopt};
    place.profile = break_profile(ground.lake, at, place.downslope, window, ground.noise > kQuiet);
    places.push_back(place);
  }
  return places;
}

// The smoothed slope below which no line is looked for: half the grade asked for, or less where smoothing makes even a
// sheer step of the least relief gentler than that (relief / (sigma sqrt(2 pi)), with a margin of a fifth).
float least_smoothed_slope(Metres sigma, const DetectOptions& options) {
  const double sheer = options.break_relief.value() / (sigma.value() * std::sqrt(2 * M_PI));
  return static_cast<float>(std::min(options.break_grade_pct / 200, 0.8 * sheer));
}

}  // namespace

std::vector<Feature> find_drop_offs(const Ground& ground, const DetectOptions& options) {
  const Metres cell = ground.lake.depth.frame().cell;
  const Metres window = std::max(options.break_window, cell * 3);
  const Metres shortest = std::max(options.break_length, cell * 3);
  const Metres step = std::max(Metres(5), cell);
  const int reach = static_cast<int>(std::lround(shortest / step));
  const float least = least_smoothed_slope(ground.scale, options);
  const SlopeChange change(ground.smooth, least);
  std::vector<std::vector<Place>> all;
  for (const Line& line : isolines(change.rows(), 0.0F)) {
    if (length(line) < shortest) continue;
    std::vector<Place> places = places_along(line, step, ground, window);
    set_strengths(places, ground.lake, options);
    std::vector<bool> good(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
      good[i] = is_steepest(change, places[i]) && places[i].strength >= kGoesOn;
    }
    begin_at_gap(places, good);
    good = carried(places, good, reach);
    for (std::vector<Place>& run : runs(places, good, kGap)) {
      all.push_back(std::move(run));
    }
  }
  std::vector<Feature> found;
  for (const auto& run : each_break_once(std::move(all), step, shortest, ground.lake.depth.frame())) {
    for (const auto& straight : parted_at(run, corners(line_of(run), step))) {
      const double along = (static_cast<double>(straight.size()) - 1) * step.value();
      const auto count = static_cast<int>(std::ceil(along / options.longest_piece.value() - 1e-9));
      for (const auto& part : parts(straight, std::max(1, count))) {
        found.push_back(drop_off_feature(part, ground, options));
      }
    }
  }
  return numbered(north_first(std::move(found)), "Drop-off");
}

}  // namespace castplan
