// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/features/confidence.hpp"
#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "features/along.hpp"
#include "features/bed_places.hpp"
#include "features/floor.hpp"
#include "features/made_apart.hpp"
#include "features/valley_lines.hpp"

namespace castplan {

namespace {

// Least curvature of the smoothed floor across a valley line, 1/m: a bed 1 m deep whose banks stand 80 m apart has
// 0.003 (a cosine), a quarter of it is left to beds of odd form.
constexpr double kLeastBend = 0.0008;

// Least shares of a bed with such floor behind one bank at least, and behind both.
constexpr double kOneSideShare = 0.5;
constexpr double kBothSidesShare = 0.15;

constexpr int kGap = 4;           // places that may fail without parting a bed: 20 m
constexpr int kArm = 5;           // places to each side that tell how the bed turns: 25 m
constexpr double kBendTurn = 20;  // degrees between those two arms
constexpr int kNearBank = 4;      // places in a row beside a slope

// A bed may swing to the foot of a slope, or pass through a gap between two shores, but what runs along a slope all the
// way is the moat of a hump or of a shore, and what has slopes on both sides is a basin.
bool is_bed(const std::vector<BedPlace>& run) {
  int one = 0, both = 0;
  for (const BedPlace& place : run) {
    const int level = place.level_sides();
    one += level >= 1 ? 1 : 0;
    both += level == 2 ? 1 : 0;
  }
  const auto count = static_cast<double>(run.size());
  return one >= kOneSideShare * count && both >= kBothSidesShare * count;
}

// Where a bed comes to an end its valley line turns aside along the round end: both ends are cut back to where the bed
// lies no more than this share of its relief above the bed an arm further in.
void cut_ends(std::vector<BedPlace>& run) {
  constexpr double kRiseShare = 0.25;
  const auto rises = [&](const BedPlace& end, const BedPlace& inner) {
    return inner.bed - end.bed > kRiseShare * inner.relief();
  };
  while (run.size() > kArm && rises(run.back(), run[run.size() - 1 - kArm])) run.pop_back();
  std::size_t first = 0;
  while (first + kArm < run.size() && rises(run[first], run[first + kArm])) ++first;
  run.erase(run.begin(), run.begin() + static_cast<std::ptrdiff_t>(first));
}

// A broad bed may have two valley lines side by side: what runs within the banks of a longer one is the same bed.
bool beside(const BedPlace& place, const std::vector<std::vector<BedPlace>>& kept, Metres bank) {
  return std::any_of(kept.begin(), kept.end(), [&](const std::vector<BedPlace>& run) {
    return std::any_of(run.begin(), run.end(), [&](const BedPlace& other) {
      return distance(place.at, other.at) < bank && std::abs(dot(place.left, other.left)) > 0.7;
    });
  });
}

template <class Get>
Metres median(const std::vector<BedPlace>& places, Get get) {
  std::vector<double> values;
  for (const BedPlace& place : places) values.push_back(get(place));
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return Metres(*middle);
}

// Degrees by which the bed turns at a place, positive to the left.
double turn_at(const std::vector<BedPlace>& places, int i) {
  if (i < kArm || i + kArm >= static_cast<int>(places.size())) return 0;
  const XY before = places[i].at - places[i - kArm].at;
  const XY after = places[i + kArm].at - places[i].at;
  return std::atan2(cross(before, after), dot(before, after)) * 180 / M_PI;
}

// The outer bank of each bend: where the bed turns most within the length of two arms.
Points bends_of(const std::vector<BedPlace>& places) {
  Points bends;
  const int count = static_cast<int>(places.size());
  for (int i = 0; i < count; ++i) {
    const double turn = turn_at(places, i);
    if (std::abs(turn) < kBendTurn) continue;
    bool sharpest = true;
    for (int k = std::max(0, i - kArm); k <= std::min(count - 1, i + kArm); ++k) {
      const double other = std::abs(turn_at(places, k));
      sharpest = sharpest && (k < i ? other < std::abs(turn) : other <= std::abs(turn));
    }
    const double outwards = turn > 0 ? -1 : 1;
    if (sharpest) bends.push_back(places[i].at + places[i].left * (outwards * places[i].width / 2));
  }
  return bends;
}

// Where the bed runs for a while at the foot of a slope that goes on rising: the middle of each such stretch.
Points near_bank(const std::vector<BedPlace>& places) {
  Points found;
  const int count = static_cast<int>(places.size());
  for (int which = 0; which < 2; ++which) {
    for (int first = 0; first < count; ++first) {
      int end = first;
      while (end < count && places[end].bank[which].behind == Behind::rising) ++end;
      if (end - first >= kNearBank) {
        const BedPlace& middle = places[(first + end - 1) / 2];
        found.push_back(middle.at + middle.left * ((which == 0 ? 1 : -1) * middle.width / 2));
      }
      first = std::max(first, end);
    }
  }
  return found;
}

Metres least_relief(const Lake& lake, const DetectOptions& options) {
  return std::max(options.channel_relief, lake.depth_error * 2);
}

Feature channel_feature(const std::vector<BedPlace>& places, const Ground& ground, const DetectOptions& options) {
  const Lake& lake = ground.lake;
  const Line line = begun_at_north(line_of(places));
  const Metres relief = median(places, [](const BedPlace& place) { return place.relief(); });
  Feature feature;
  feature.kind = Kind::channel;
  feature.anchor = point_along(line, 0.5);
  feature.confidence =
      confidence_of({.relief = relief, .asked = least_relief(lake, options), .looks = looks_along(length(line))},
                    ground, feature.anchor);
  feature.details =
      Channel{median(places, [](const BedPlace& place) { return place.bed; }),   length(line),     relief,
              median(places, [](const BedPlace& place) { return place.width; }), bends_of(places), near_bank(places)};
  feature.geometry = Lines{simplified(line, lake.depth.frame().cell * 0.1)};
  return feature;
}

std::vector<std::vector<BedPlace>> beds(const Lake& lake, const Floor& floor, const DetectOptions& options) {
  const Metres least = least_relief(lake, options);
  std::vector<std::vector<BedPlace>> kept;
  for (const Line& line : valley_lines(floor.smooth, kLeastBend)) {
    if (length(line) < options.channel_length) continue;
    std::vector<BedPlace> places = bed_places(line, lake, floor, options);
    std::vector<bool> good(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
      good[i] = places[i].relief() >= least.value() && !places[i].falls_behind() &&
                !beside(places[i], kept, options.channel_bank);
    }
    for (std::vector<BedPlace>& run : runs(places, good, kGap)) {
      cut_ends(run);
      if (length(line_of(run)) >= options.channel_length && is_bed(run)) kept.push_back(std::move(run));
    }
  }
  return kept;
}

}  // namespace

std::vector<Feature> find_channels(const Ground& ground, const DetectOptions& options) {
  std::vector<Feature> found;
  for (const std::vector<BedPlace>& bed : beds(ground.lake, *ground.floor, options)) {
    const auto count = static_cast<int>(std::ceil(length(line_of(bed)) / options.longest_piece - 1e-9));
    for (const auto& part : parts(bed, std::max(1, count))) {
      found.push_back(channel_feature(part, ground, options));
    }
  }
  return numbered(north_first(std::move(found)), "Channel");
}

}  // namespace castplan
