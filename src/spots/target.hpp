// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string_view>
#include <vector>

#include "castplan/spots/rank.hpp"
#include "spots/surroundings.hpp"

namespace castplan {

inline constexpr Metres kOnEdge(12);      ///< an edge this near is the edge that is fished
inline constexpr Metres kWithinCast(20);  ///< what a fan of casts at the target passes
inline constexpr Metres kDeeper(2);       ///< so much deeper is deep water beside a target

/// Spots, and lanes, that are found before they are put in order.
inline constexpr int kGathered = 30;
inline constexpr std::size_t kFineInStep = 4;  ///< places on an edge for each target, 2.5 m apart

/// A factor as it stands in `why`, for people: "deep water". Whoever asks what a reason is about asks by this.
std::string_view words_of(Factor factor);

/// What a cast is meant to pass: a place on or beside a feature, and how good it is.
struct Target {
  const Feature* feature;  ///< whose edge it lies on
  XY at;
  Metres depth;  ///< to the centimetre
  std::vector<Reason> why;
  std::vector<std::string> not_assessed;
  double score{};                      ///< product of suitability^weight, to 1e-6
  std::shared_ptr<const Line> edge{};  ///< the line that it was taken from, every 2.5 m; none for a place of its own
  std::size_t on_edge{};               ///< where on it
};

/// Every 10 m along everything that can be cast at, each moved along its slope to the depth that suits the phase best.
/// Where there is nothing of the kind, the slope of each water's deepest basin. Not yet scored.
std::vector<Target> targets(const Lake& lake, const Surroundings& surroundings, const Phase& phase,
                            const SpotOptions& options);

/// Fills why, not_assessed and score.
void judge(Target& target, const Lake& lake, const Surroundings& surroundings, const Phase& phase);

/// Product of suitability^weight, to 1e-6.
double product_of(const std::vector<Reason>& why);

/// The target moved along its edge to the middle of the best part about it, within 40 m: places are weighted by how
/// near their score is to the best one, so that noise far below the score's own steps does not choose. Scored.
Target settled(const Target& target, const Lake& lake, const Surroundings& surroundings, const Phase& phase,
               const SpotOptions& options);

/// 100 x the gradient of the floor over one cell to each side; 0 where unknown.
double grade_at(const Lake& lake, XY place);

}  // namespace castplan
