// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/break_profile.hpp"

#include <algorithm>
#include <cmath>

#include "castplan/grid/sample.hpp"

namespace castplan {

namespace {

// A flank ends where the floor has become this much gentler than the steepest place.
constexpr float kFlankShare = 0.15F;

// Samples a cell: fine enough to place an edge well within a cell.
constexpr int kPerCell = 4;

/// Samples along the profile, shallow side first; `middle` is the place itself.
struct Samples {
  std::vector<float> depth;
  int first_wet{};  ///< first sample that reads water alone, not the shore beside it
  int middle{};
  double step{};
  int arm = kPerCell;  ///< samples over which slopes and bends are taken to each side

  [[nodiscard]] int count() const { return static_cast<int>(depth.size()); }
  // one cell to either side: shorter would read the interpolation, longer would round the corners; two in noise
  [[nodiscard]] float fall(int i) const { return depth[i + arm] - depth[i - arm]; }
  [[nodiscard]] float bend(int i) const { return depth[i + arm] - 2 * depth[i] + depth[i - arm]; }
  [[nodiscard]] int inside(int i) const { return std::clamp(i, arm, count() - 1 - arm); }
  /// Depth at a position between samples.
  [[nodiscard]] double at(double position) const {
    const int i = std::clamp(static_cast<int>(position), 0, count() - 2);
    return depth[i] + (depth[i + 1] - depth[i]) * (position - i);
  }
};

// Depth 0 one cell into land: the shore is where a profile may begin.
float depth_on(const Lake& lake, XY at) {
  const float value = smooth_depth(lake.depth, at);
  return std::isnan(value) && cover_at(lake, at) == Cover::land ? 0.0F : value;
}

// Mean with the places beside it that are known and on water; of a place that is not, its own.
float depth_about(const Lake& lake, XY at, XY aside) {
  float sum = depth_on(lake, at);
  if (!(sum > 0)) return sum;
  int count = 1;
  for (const XY beside : {at + aside, at - aside}) {
    const float value = depth_on(lake, beside);
    if (!(value > 0)) continue;
    sum += value;
    ++count;
  }
  return sum / static_cast<float>(count);
}

// Stops on either side at the first unknown depth.
Samples sampled(const Lake& lake, XY place, XY downslope, double reach, bool noisy) {
  Samples samples;
  if (noisy) samples.arm = 2 * kPerCell;
  samples.step = lake.depth.frame().cell.value() / kPerCell;
  const int most = static_cast<int>(std::ceil(reach / samples.step));
  const XY aside = XY{-downslope.y, downslope.x} * lake.depth.frame().cell.value();
  const auto depth = [&](int i) {
    const XY at = place + downslope * (i * samples.step);
    return noisy ? depth_about(lake, at, aside) : depth_on(lake, at);
  };
  std::vector<float> up;
  for (int i = 0; i >= -most && !std::isnan(depth(i)); --i) up.push_back(depth(i));
  if (up.empty()) return samples;
  samples.middle = static_cast<int>(up.size()) - 1;
  samples.depth.assign(up.rbegin(), up.rend());
  for (int i = 1; i <= most && !std::isnan(depth(i)); ++i) samples.depth.push_back(depth(i));
  while (samples.first_wet < samples.middle &&
         cover_at(lake, place + downslope * ((samples.first_wet - samples.middle) * samples.step)) != Cover::water) {
    ++samples.first_wet;
  }
  // interpolation mixes the shore's 0 in over most of a cell
  samples.first_wet = std::min(samples.first_wet + kPerCell - 1, samples.middle + most);
  return samples;
}

int steepest_near_middle(const Samples& samples) {
  const int slack = 2 * kPerCell;  // the line was found on smoothed depths
  int best = samples.inside(samples.middle);
  for (int i = samples.inside(samples.middle - slack); i <= samples.inside(samples.middle + slack); ++i) {
    if (samples.fall(i) > samples.fall(best)) best = i;
  }
  return best;
}

float fall_within(const Samples& samples, int steepest, int span) {
  float most = 0;
  for (int i = std::max(0, steepest - span); i <= steepest; ++i) {
    most = std::max(most, samples.depth[std::min(i + span, samples.count() - 1)] - samples.depth[i]);
  }
  return most;
}

// Linear interpolation cuts corners: a place between cells reads too deep on a convex edge and too shallow on a concave
// one, by t (1 - t) of the bend over a cell on a sharp corner (t: share of the cell) and half of that on a smooth one.
// An eighth is the mean of both over all t. Never past the depth one cell further out.
double depth_at_edge(const Samples& samples, double edge, int sign) {
  const double a_cell = static_cast<double>(kPerCell) / samples.arm;
  const double bend = samples.bend(samples.inside(static_cast<int>(std::lround(edge)))) * a_cell;
  const double depth = samples.at(edge);
  const double beyond = samples.at(edge - sign * kPerCell);
  if (sign > 0) return std::max(depth - std::max(0.0, bend) / 8, std::min(depth, beyond));
  return std::min(depth - std::min(0.0, bend) / 8, std::max(depth, beyond));
}

// Walks from the steepest place while the flank lasts and returns where the floor bends most: sign +1 looks up the
// slope for the convex edge, -1 down the slope for the concave one. The position is the centre of the bend around its
// greatest sample.
double edge_from(const Samples& samples, int steepest, int sign) {
  const float enough = kFlankShare * samples.fall(steepest);
  const auto bend = [&](int i) { return static_cast<float>(sign) * samples.bend(i); };
  int edge = steepest;
  for (int i = steepest; i == samples.inside(i); i -= sign) {
    if (bend(i) > bend(edge)) edge = i;
    if (samples.fall(i) < enough) break;
  }
  double weight = 0;
  double sum = 0;
  for (int i = samples.inside(edge - 2); i <= samples.inside(edge + 2); ++i) {
    const double share = std::max(0.0F, bend(i));
    weight += share;
    sum += share * i;
  }
  return weight > 0 ? sum / weight : edge;
}

}  // namespace

std::optional<BreakProfile> break_profile(const Lake& lake, XY place, XY downslope, Metres window, bool noisy) {
  const Samples samples = sampled(lake, place, downslope, 2 * window.value(), noisy);
  if (samples.count() < 3 * samples.arm) return std::nullopt;
  const int steepest = steepest_near_middle(samples);
  if (samples.fall(steepest) <= 0) return std::nullopt;
  const double top = edge_from(samples, steepest, +1);
  const double base = edge_from(samples, steepest, -1);
  if (base <= top) return std::nullopt;
  const int span = std::max(1, static_cast<int>(std::lround(window.value() / samples.step)));
  const Metres base_depth(depth_at_edge(samples, base, -1));
  const auto from_place = [&](double position) { return Metres((position - samples.middle) * samples.step); };
  return BreakProfile{Metres(depth_at_edge(samples, top, +1)),
                      base_depth,
                      from_place(top),
                      from_place(base),
                      Metres(fall_within(samples, steepest, span)),
                      std::min(base_depth, base_depth - Metres(samples.at(std::max<double>(top, samples.first_wet))))};
}

}  // namespace castplan
