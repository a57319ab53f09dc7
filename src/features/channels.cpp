// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/sample.hpp"
#include "features/floor.hpp"
#include "features/valley_lines.hpp"

namespace castplan {

namespace {

// Least curvature of the smoothed floor across a valley line, 1/m: a bed 1 m deep whose banks stand 80 m apart has
// 0.003 (a cosine), a quarter of it is left to beds of odd form.
constexpr double kLeastBend = 0.0008;

// Behind a bank lies the floor that the bed is cut into: beyond the bank's reach, over as much again, it does not climb
// by more than this share of the bank's rise, nor fall back by it on the mean over that or over as much again. In a
// basin whose sides go on rising it climbs as much again or more; behind a hump or a bar it falls back, and the trough
// beside those is no bed.
constexpr double kLevelShare = 0.5;

// Least shares of a bed with such floor behind one bank at least, and behind both.
constexpr double kOneSideShare = 0.5;
constexpr double kBothSidesShare = 0.15;

constexpr int kMeanOver = 3;      // places to each side that share one cross profile: 15 m
constexpr int kGap = 4;           // places that may fail without parting a bed: 20 m
constexpr int kArm = 5;           // places to each side that tell how the bed turns: 25 m
constexpr double kBendTurn = 20;  // degrees between those two arms
constexpr int kNearBank = 4;      // places in a row beside a slope

/// Depths from a place of the bed outwards to one side, every half cell; NaN from the first unknown on.
struct Side {
  std::vector<double> depth;
  bool shore_within_bank = false;
};

/// What lies behind a bank: floor about as high as the bank, floor that goes on rising (or the shore, or the unknown),
/// or floor that falls away again.
enum class Behind { level, rising, falling };

/// What one side of the bed does.
struct Bank {
  double rise = 0;
  Behind behind = Behind::rising;
};

struct Place {
  XY at;
  XY left;  ///< unit vector across the bed
  std::array<Side, 2> side;
  std::array<Bank, 2> bank;
  double bed = 0;
  double width = 0;

  [[nodiscard]] bool falls_behind() const {
    return bank[0].behind == Behind::falling || bank[1].behind == Behind::falling;
  }
  [[nodiscard]] int level_sides() const {
    return (bank[0].behind == Behind::level ? 1 : 0) + (bank[1].behind == Behind::level ? 1 : 0);
  }
  [[nodiscard]] double relief() const { return std::min(bank[0].rise, bank[1].rise); }
};

/// Steps of the cross profile.
struct Steps {
  double size;
  int bank;  ///< steps to the reach of a bank; the profile is three times as long
};

Steps steps_of(const Floor& floor, const DetectOptions& options) {
  const double size = floor.level.frame().cell.value() / 2;
  return {size, static_cast<int>(std::lround(options.channel_bank.value() / size))};
}

Side read_side(const Lake& lake, const Floor& floor, XY at, XY out, const Steps& steps) {
  Side side;
  for (int i = 0; i <= 3 * steps.bank; ++i) {
    const XY place = at + out * (i * steps.size);
    float depth = bilinear(floor.level, place);
    if (std::isnan(depth)) {
      const bool land = cover_at(lake, place) == Cover::land;
      depth = land ? 0.0F : depth_at(lake, place);
      if (land && i <= steps.bank) side.shore_within_bank = true;
    }
    if (std::isnan(depth)) break;
    side.depth.push_back(depth);
  }
  return side;
}

std::vector<Place> places_along(const Line& line, const Lake& lake, const Floor& floor, const Steps& steps) {
  const Line points = resampled(line, std::max(Metres(5), floor.level.frame().cell));
  std::vector<Place> places;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const XY along = points[std::min(i + 2, points.size() - 1)] - points[i < 2 ? 0 : i - 2];
    const double size = std::hypot(along.x, along.y);
    Place place;
    place.at = points[i];
    place.left = XY{-along.y / size, along.x / size};
    place.side[0] = read_side(lake, floor, place.at, place.left, steps);
    place.side[1] = read_side(lake, floor, place.at, place.left * -1, steps);
    places.push_back(std::move(place));
  }
  return places;
}

// Mean of the cross profiles of the places around one, as far as all of them are known.
std::vector<double> mean_side(const std::vector<Place>& places, int middle, int which) {
  const int first = std::max(0, middle - kMeanOver);
  const int last = std::min(static_cast<int>(places.size()) - 1, middle + kMeanOver);
  std::vector<double> mean = places[middle].side[which].depth;
  for (std::size_t step = 0; step < mean.size(); ++step) {
    double sum = 0;
    int count = 0;
    for (int i = first; i <= last; ++i) {
      if (step >= places[i].side[which].depth.size()) continue;
      sum += places[i].side[which].depth[step];
      ++count;
    }
    mean[step] = sum / count;
  }
  return mean;
}

double mean_between(const std::vector<double>& depth, int first, int end) {
  return std::accumulate(depth.begin() + first, depth.begin() + end, 0.0) / (end - first);
}

Bank bank_of(const std::vector<double>& depth, bool shore, const Steps& steps) {
  const int count = static_cast<int>(depth.size());
  const auto near = depth.begin() + std::min(steps.bank + 1, count);
  const double top = *std::min_element(depth.begin(), near);
  const double rise = depth.front() - top;
  // where the profile ends nothing is known of what lies behind the bank
  if (count <= 2 * steps.bank) return {rise, Behind::rising};
  // means, because the next bend of the same bed may lie behind the bank
  const int end = std::min(count, 3 * steps.bank + 1);
  const double behind = mean_between(depth, steps.bank + 1, 2 * steps.bank + 1);
  const double further = end > 2 * steps.bank + 1 ? mean_between(depth, 2 * steps.bank + 1, end) : behind;
  if (std::max(behind, further) - top > kLevelShare * rise) return {rise, Behind::falling};
  const double highest = *std::min_element(near, depth.begin() + 2 * steps.bank + 1);
  return {rise, shore || top - highest > kLevelShare * rise ? Behind::rising : Behind::level};
}

// Distance from the bed at which a height over it is first reached.
double reached(const std::vector<double>& depth, double height, double step) {
  for (std::size_t i = 1; i < depth.size(); ++i) {
    const double before = depth.front() - depth[i - 1], here = depth.front() - depth[i];
    if (here >= height) return step * (static_cast<double>(i) - (here - height) / (here - before));
  }
  return step * static_cast<double>(depth.size());
}

void measure(std::vector<Place>& places, const Steps& steps) {
  for (int i = 0; i < static_cast<int>(places.size()); ++i) {
    Place& place = places[i];
    std::array<std::vector<double>, 2> mean{mean_side(places, i, 0), mean_side(places, i, 1)};
    if (mean[0].empty() || mean[1].empty()) continue;
    place.bed = mean[0].front();
    for (int which = 0; which < 2; ++which) {
      place.bank[which] = bank_of(mean[which], place.side[which].shore_within_bank, steps);
    }
    const double half = place.relief() / 2;
    place.width = half > 0 ? reached(mean[0], half, steps.size) + reached(mean[1], half, steps.size) : 0;
  }
}

// Runs of places that are a channel; a short gap does not part a run.
std::vector<std::vector<Place>> runs(const std::vector<Place>& places, const std::vector<bool>& good) {
  std::vector<std::vector<Place>> found;
  int last = -kGap - 2;
  for (int i = 0; i < static_cast<int>(places.size()); ++i) {
    if (!good[i]) continue;
    if (i - last > kGap + 1) found.emplace_back();
    for (int k = found.back().empty() ? i : last + 1; k <= i; ++k) found.back().push_back(places[k]);
    last = i;
  }
  return found;
}

// A bed may swing to the foot of a slope, or pass through a gap between two shores, but what runs along a slope all the
// way is the moat of a hump or of a shore, and what has slopes on both sides is a basin.
bool is_bed(const std::vector<Place>& run) {
  int one = 0, both = 0;
  for (const Place& place : run) {
    const int level = place.level_sides();
    one += level >= 1 ? 1 : 0;
    both += level == 2 ? 1 : 0;
  }
  const auto count = static_cast<double>(run.size());
  return one >= kOneSideShare * count && both >= kBothSidesShare * count;
}

// Where a bed comes to an end its valley line turns aside along the round end: both ends are cut back to where the bed
// lies no more than this share of its relief above the bed an arm further in.
void cut_ends(std::vector<Place>& run) {
  constexpr double kRiseShare = 0.25;
  const auto rises = [&](const Place& end, const Place& inner) {
    return inner.bed - end.bed > kRiseShare * inner.relief();
  };
  while (run.size() > kArm && rises(run.back(), run[run.size() - 1 - kArm])) run.pop_back();
  std::size_t first = 0;
  while (first + kArm < run.size() && rises(run[first], run[first + kArm])) ++first;
  run.erase(run.begin(), run.begin() + static_cast<std::ptrdiff_t>(first));
}

Line line_of(const std::vector<Place>& places) {
  Line line;
  for (const Place& place : places) line.push_back(place.at);
  return line;
}

// A broad bed may have two valley lines side by side: what runs within the banks of a longer one is the same bed.
bool beside(const Place& place, const std::vector<std::vector<Place>>& kept, Metres bank) {
  return std::any_of(kept.begin(), kept.end(), [&](const std::vector<Place>& run) {
    return std::any_of(run.begin(), run.end(), [&](const Place& other) {
      return distance(place.at, other.at) < bank && std::abs(dot(place.left, other.left)) > 0.7;
    });
  });
}

template <class Get>
Metres median(const std::vector<Place>& places, Get get) {
  std::vector<double> values;
  for (const Place& place : places) values.push_back(get(place));
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return Metres(*middle);
}

// Degrees by which the bed turns at a place, positive to the left.
double turn_at(const std::vector<Place>& places, int i) {
  if (i < kArm || i + kArm >= static_cast<int>(places.size())) return 0;
  const XY before = places[i].at - places[i - kArm].at;
  const XY after = places[i + kArm].at - places[i].at;
  return std::atan2(cross(before, after), dot(before, after)) * 180 / M_PI;
}

// The outer bank of each bend: where the bed turns most within the length of two arms.
Points bends_of(const std::vector<Place>& places) {
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
Points near_bank(const std::vector<Place>& places) {
  Points found;
  const int count = static_cast<int>(places.size());
  for (int which = 0; which < 2; ++which) {
    for (int first = 0; first < count; ++first) {
      int end = first;
      while (end < count && places[end].bank[which].behind == Behind::rising) ++end;
      if (end - first >= kNearBank) {
        const Place& middle = places[(first + end - 1) / 2];
        found.push_back(middle.at + middle.left * ((which == 0 ? 1 : -1) * middle.width / 2));
      }
      first = std::max(first, end);
    }
  }
  return found;
}

Feature channel_feature(const std::vector<Place>& places, const Lake& lake, const DetectOptions& options) {
  const Line line = begun_at_north(line_of(places));
  const Metres relief = median(places, [](const Place& place) { return place.relief(); });
  Feature feature;
  feature.kind = Kind::channel;
  feature.anchor = point_along(line, 0.5);
  feature.confidence = confidence_in(relief, options.channel_relief, lake, feature.anchor);
  feature.details =
      Channel{median(places, [](const Place& place) { return place.bed; }),   length(line),     relief,
              median(places, [](const Place& place) { return place.width; }), bends_of(places), near_bank(places)};
  feature.geometry = Lines{simplified(line, lake.depth.frame().cell * 0.1)};
  return feature;
}

// Parts of equal numbers of places, none longer than allowed; neighbours share the place where they meet.
std::vector<std::vector<Place>> parts(const std::vector<Place>& run, Metres most) {
  const auto steps = static_cast<int>(run.size()) - 1;
  const int count = std::max(1, static_cast<int>(std::ceil(length(line_of(run)) / most - 1e-9)));
  std::vector<std::vector<Place>> found;
  for (int part = 0; part < count; ++part) {
    found.emplace_back(run.begin() + steps * part / count, run.begin() + steps * (part + 1) / count + 1);
  }
  return found;
}

std::vector<std::vector<Place>> beds(const Lake& lake, const DetectOptions& options) {
  const Floor floor = floor_of(lake, kFloorScale);
  const Steps steps = steps_of(floor, options);
  const Metres least = std::max(options.channel_relief, lake.depth_error * 2);
  std::vector<std::vector<Place>> kept;
  for (const Line& line : valley_lines(floor.smooth, kLeastBend)) {
    if (length(line) < options.channel_length) continue;
    std::vector<Place> places = places_along(line, lake, floor, steps);
    measure(places, steps);
    std::vector<bool> good(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
      good[i] = places[i].relief() >= least.value() && !places[i].falls_behind() &&
                !beside(places[i], kept, options.channel_bank);
    }
    for (std::vector<Place>& run : runs(places, good)) {
      cut_ends(run);
      if (length(line_of(run)) >= options.channel_length && is_bed(run)) kept.push_back(std::move(run));
    }
  }
  return kept;
}

}  // namespace

std::vector<Feature> find_channels(const Ground& ground, const DetectOptions& options) {
  std::vector<Feature> found;
  for (const std::vector<Place>& bed : beds(ground.lake, options)) {
    for (const auto& part : parts(bed, options.longest_piece)) {
      found.push_back(channel_feature(part, ground.lake, options));
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const Feature& a, const Feature& b) {
    if (a.anchor.y != b.anchor.y) return a.anchor.y > b.anchor.y;
    return a.anchor.x < b.anchor.x;
  });
  for (std::size_t i = 0; i < found.size(); ++i) found[i].name = fmt::format("Channel {}", i + 1);
  return found;
}

}  // namespace castplan
