// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/spikes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/geo/coordinate.hpp"
#include "castplan/grid/sweep.hpp"
#include "survey/robust.hpp"

namespace castplan::survey {
namespace {

constexpr std::size_t kWindow = 15;   // soundings each way that say how rough the track is
constexpr std::size_t kBeside = 3;    // each way that a spike must stand out from
constexpr std::size_t kLeast = 5;     // soundings on a track that can be judged
constexpr double kBreak = 20.0;       // usual steps
constexpr std::size_t kPiece = 4096;  // soundings a piece of work

struct Track {
  std::vector<double> depth;
  std::vector<std::size_t> number;
};

std::vector<Track> tracks_of(const std::vector<Sounding>& soundings, const std::vector<std::size_t>& order) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < order.size(); ++i) {
    steps.push_back(distance(soundings[order[i - 1]].at, soundings[order[i]].at).value());
  }
  std::vector<double> scratch = steps;
  const double longest = steps.empty() ? 0.0 : kBreak * median(scratch);
  std::vector<Track> tracks;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const bool begins = i == 0 || steps[i - 1] > longest || soundings[order[i]].file != soundings[order[i - 1]].file ||
                        soundings[order[i]].track != soundings[order[i - 1]].track;
    if (begins) tracks.emplace_back();
    tracks.back().depth.push_back(static_cast<double>(soundings[order[i]].depth.value()));
    tracks.back().number.push_back(order[i]);
  }
  return tracks;
}

/// How far the sounding lies outside the range of those beside it, of which the most extreme does not count (it may be
/// a spike itself).
double stands_out(const std::vector<double>& depth, std::size_t i) {
  constexpr double kFar = std::numeric_limits<double>::infinity();
  double lowest = kFar;
  double next_lowest = kFar;
  double highest = -kFar;
  double next_highest = -kFar;
  const std::size_t first = i > kBeside ? i - kBeside : 0;
  for (std::size_t j = first; j <= std::min(i + kBeside, depth.size() - 1); ++j) {
    if (j == i) continue;
    next_lowest = std::min(next_lowest, std::max(lowest, depth[j]));
    lowest = std::min(lowest, depth[j]);
    next_highest = std::max(next_highest, std::min(highest, depth[j]));
    highest = std::max(highest, depth[j]);
  }
  return std::max(depth[i] - next_highest, next_lowest - depth[i]);
}

/// What a track's own roughness explains.
double explained(const std::vector<double>& depth, std::size_t i, const CleanOptions& options) {
  const std::size_t first = i > kWindow ? i - kWindow : 0;
  const std::size_t last = std::min(i + kWindow, depth.size() - 1);
  std::vector<double> steps;
  std::vector<double> bends;
  for (std::size_t j = first + 1; j <= last; ++j) {
    steps.push_back(std::abs(depth[j] - depth[j - 1]));
    if (j < last) bends.push_back(depth[j] - (depth[j - 1] + depth[j + 1]) / 2.0);
  }
  const double centre = median(bends);
  return options.robust_errors * robust_deviation(bends, centre) + 2.0 * median(steps);
}

bool is_spike(const std::vector<double>& depth, std::size_t i, const CleanOptions& options) {
  const double out = stands_out(depth, i);
  if (out <= options.least_spike.value()) return false;
  std::vector<double> around(depth.begin() + static_cast<std::ptrdiff_t>(i > kBeside ? i - kBeside : 0),
                             depth.begin() + static_cast<std::ptrdiff_t>(std::min(i + kBeside + 1, depth.size())));
  const double least = std::max(options.least_spike.value(), options.least_spike_share * median(around));
  return out > least && out > explained(depth, i, options);
}

}  // namespace

std::vector<std::size_t> spikes(const std::vector<Sounding>& soundings, const std::vector<std::size_t>& order,
                                const CleanOptions& options) {
  std::vector<std::size_t> found;
  for (const Track& track : tracks_of(soundings, order)) {
    const std::size_t size = track.depth.size();
    if (size < kLeast) continue;
    std::vector<char> marks(size, 0);
    each(static_cast<int>((size + kPiece - 1) / kPiece), [&](int piece) {
      const std::size_t first = static_cast<std::size_t>(piece) * kPiece;
      for (std::size_t i = first; i < std::min(first + kPiece, size); ++i) {
        marks[i] = is_spike(track.depth, i, options) ? 1 : 0;
      }
    });
    for (std::size_t i = 0; i < size; ++i) {
      if (marks[i]) found.push_back(track.number[i]);
    }
  }
  return found;
}

}  // namespace castplan::survey
