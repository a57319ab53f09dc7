// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/confidence.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {

namespace {

constexpr double kNoiseAlone = 3;   // times the error: relief that noise alone makes
constexpr double kSeenWide = 0.25;  // share of the relief that a coarser scale shows of anything broad
constexpr double kOneScale = 0.3;   // less sure when it shows nothing
constexpr double kUncertain = 0.5;  // times, where the form may go on beyond what is known
constexpr double kAssumed = 0.1;    // less, where the error is only assumed
constexpr double kMostOfShape = 0.95;
constexpr double kLeastSteady = 0.5;  // of the error is not from cell to cell, whatever the noise
constexpr Metres kAlike(50);
constexpr double kMostLooks = 4;

/// The normal law's share below `excess` when its spread is given.
double chance_above(double excess, double spread) {
  return 0.5 * std::erfc(-excess / (std::max(spread, 1e-6) * std::sqrt(2.0)));
}

double steady_error(const Ground& ground, XY place) {
  const double error = error_at(ground.lake, place).value(), noise = ground.noise.value();
  return std::sqrt(std::max(error * error - noise * noise, error * error * kLeastSteady * kLeastSteady));
}

double as_known(double chance, const Lake& lake) {
  return std::clamp(chance - (lake.depth_error_known ? 0.0 : kAssumed), 0.0, 1.0);
}

}  // namespace

double confidence_of(const Evidence& evidence, const Ground& ground, XY place) {
  const double error = steady_error(ground, place) / std::sqrt(evidence.looks);
  const double bar = std::max(evidence.asked.value(), kNoiseAlone * error);
  const double chance = chance_above(evidence.relief.value() - bar, std::sqrt(2.0) * error);
  const double agreed = 1 - kOneScale * (1 - std::clamp(evidence.seen_wide / kSeenWide, 0.0, 1.0));
  return as_known(chance * agreed, ground.lake) * (evidence.certain ? 1.0 : kUncertain);
}

Metres over_noise(Metres asked, const Lake& lake, XY place) {
  return std::max(asked, error_at(lake, place) * kNoiseAlone);
}

double looks_along(Metres length) { return std::clamp(length / kAlike, 1.0, kMostLooks); }

double confidence_of_shoal(Metres over, const Lake& lake, XY place) {
  return as_known(chance_above(over.value(), error_at(lake, place).value()), lake);
}

double confidence_of_shape(double times, double error_share) {
  return std::min(chance_above(times - 1, error_share), kMostOfShape);
}

}  // namespace castplan
