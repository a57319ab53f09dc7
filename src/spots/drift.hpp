// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "castplan/geo/planar.hpp"
#include "castplan/spots/rank.hpp"

namespace castplan {

/// Share of the wind's speed at which a boat without its engine goes with the wind: the fast end of the usual 3 to 5 %,
/// so that the warning errs on the early side. Common practice, no source.
inline constexpr double kDriftShare = 0.05;
inline constexpr double kDriftMinutes = 10;  ///< time to get an engine going again, or an anchor down

/// Direction on the plane that goes with a wind, length 1; that of the lake's middle.
XY down_wind(const Lake& lake, Degrees from);

/// What a boat adrift comes upon.
struct Grounding {
  std::string onto;  ///< for people: "the shore", "shallow water", a name
  double minutes;
};

/// Knows where the wind sets a boat whose engine fails: straight down the wind.
class Drift {
 public:
  Drift(const Lake& lake, const std::vector<Feature>& features, const SpotOptions& options);
  /// The first thing within ten minutes: the shore, water less deep than the draft, a mapped rock that the boat does
  /// not float over, a hazard, water that is closed to entry. None without a wind, and none known beyond the survey.
  [[nodiscard]] std::optional<Grounding> from(XY boat) const;
  /// The earliest from any place of a lane.
  [[nodiscard]] std::optional<Grounding> from(const Line& lane) const;

 private:
  struct Obstacle {
    PreparedShape shape;
    std::string name;
    Box box;
  };
  const Lake& lake_;
  Metres draft_;
  MetresPerSecond speed_;
  XY way_;  ///< down the wind, length 1
  std::vector<Obstacle> obstacles_;
};

/// "If the engine fails, a wind of 5 m/s sets the boat onto the shore in about 4 minutes: ..."
/// Requires a wind.
std::string grounding_words(const Grounding& grounding, const SpotOptions& options);

}  // namespace castplan
