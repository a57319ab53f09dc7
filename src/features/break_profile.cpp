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

/// Samples at half a cell, shallow side first; `middle` is the place itself.
struct Samples {
  std::vector<float> depth;
  int middle{};
  double step{};

  [[nodiscard]] int count() const { return static_cast<int>(depth.size()); }
  // one cell to either side: shorter would read the interpolation, longer would round the corners
  [[nodiscard]] float fall(int i) const { return depth[i + 2] - depth[i - 2]; }
  [[nodiscard]] float bend(int i) const { return depth[i + 2] - 2 * depth[i] + depth[i - 2]; }
};

// Stops on either side at the first unknown depth.
Samples sampled(const Lake& lake, XY place, XY downslope, double reach) {
  Samples samples;
  samples.step = lake.depth.frame().cell.value() / 2;
  const int most = static_cast<int>(std::ceil(reach / samples.step));
  const auto depth = [&](int i) {
    const XY at = place + downslope * (i * samples.step);
    const float value = bilinear(lake.depth, at);
    // depth is 0 one cell into land and the shore is where a profile may begin
    return std::isnan(value) && cover_at(lake, at) == Cover::land ? 0.0F : value;
  };
  std::vector<float> up;
  for (int i = 0; i >= -most && !std::isnan(depth(i)); --i) up.push_back(depth(i));
  if (up.empty()) return samples;
  samples.middle = static_cast<int>(up.size()) - 1;
  samples.depth.assign(up.rbegin(), up.rend());
  for (int i = 1; i <= most && !std::isnan(depth(i)); ++i) samples.depth.push_back(depth(i));
  return samples;
}

int steepest_near_middle(const Samples& samples) {
  const int slack = 4;  // two cells: the line was found on smoothed depths
  int best = std::clamp(samples.middle, 2, samples.count() - 3);
  for (int i = std::max(2, samples.middle - slack); i <= std::min(samples.count() - 3, samples.middle + slack); ++i) {
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

// Walks from the steepest place while the flank lasts and returns where the floor bends most: sign +1 looks up the
// slope for the convex edge, -1 down the slope for the concave one.
int edge_from(const Samples& samples, int steepest, int sign) {
  const float enough = kFlankShare * samples.fall(steepest);
  int edge = steepest;
  for (int i = steepest; i >= 2 && i < samples.count() - 2; i -= sign) {
    if (static_cast<float>(sign) * samples.bend(i) > static_cast<float>(sign) * samples.bend(edge)) edge = i;
    if (samples.fall(i) < enough) break;
  }
  return edge;
}

}  // namespace

std::optional<BreakProfile> break_profile(const Lake& lake, XY place, XY downslope, Metres window) {
  const Samples samples = sampled(lake, place, downslope, 2 * window.value());
  if (samples.count() < 7) return std::nullopt;
  const int steepest = steepest_near_middle(samples);
  if (samples.fall(steepest) <= 0) return std::nullopt;
  const int top = edge_from(samples, steepest, +1);
  const int base = edge_from(samples, steepest, -1);
  if (base <= top) return std::nullopt;
  const int span = std::max(1, static_cast<int>(std::lround(window.value() / samples.step)));
  return BreakProfile{Metres(samples.depth[top]), Metres(samples.depth[base]), Metres((base - top) * samples.step),
                      Metres(fall_within(samples, steepest, span))};
}

}  // namespace castplan
