// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/bed_places.hpp"

#include <cmath>
#include <numeric>

#include "castplan/grid/sample.hpp"

namespace castplan {

namespace {

// Behind a bank lies the floor that the bed is cut into: beyond the bank's reach, over as much again, it does not climb
// by more than this share of the bank's rise, nor fall back by it on the mean over that or over as much again. In a
// basin whose sides go on rising it climbs as much again or more; behind a hump or a bar it falls back, and the trough
// beside those is no bed.
constexpr double kLevelShare = 0.5;

constexpr int kMeanOver = 3;  // places to each side that share one cross profile: 15 m

/// Steps of the cross profile.
struct ProfileSteps {
  double size;
  int bank;  ///< steps to the reach of a bank; the profile is three times as long
};

ProfileSteps profile_steps(const Floor& floor, const DetectOptions& options) {
  const double size = floor.level.frame().cell.value() / 2;
  return {size, static_cast<int>(std::lround(options.channel_bank.value() / size))};
}

BedSide read_side(const Lake& lake, const Floor& floor, XY at, XY out, const ProfileSteps& steps) {
  BedSide side;
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

// Mean of the cross profiles of the places around one, as far as all of them are known.
std::vector<double> mean_side(const std::vector<BedPlace>& places, int middle, int which) {
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

Bank bank_of(const std::vector<double>& depth, bool shore, const ProfileSteps& steps) {
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

void measure_banks(std::vector<BedPlace>& places, const ProfileSteps& steps) {
  for (int i = 0; i < static_cast<int>(places.size()); ++i) {
    BedPlace& place = places[i];
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

}  // namespace

std::vector<BedPlace> bed_places(const Line& line, const Lake& lake, const Floor& floor, const DetectOptions& options) {
  const ProfileSteps steps = profile_steps(floor, options);
  const Line points = resampled(line, std::max(Metres(5), floor.level.frame().cell));
  std::vector<BedPlace> places;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const XY along = points[std::min(i + 2, points.size() - 1)] - points[i < 2 ? 0 : i - 2];
    const double size = std::hypot(along.x, along.y);
    BedPlace place;
    place.at = points[i];
    place.left = XY{-along.y / size, along.x / size};
    place.side[0] = read_side(lake, floor, place.at, place.left, steps);
    place.side[1] = read_side(lake, floor, place.at, place.left * -1, steps);
    places.push_back(std::move(place));
  }
  measure_banks(places, steps);
  return places;
}

}  // namespace castplan
