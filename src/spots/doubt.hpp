// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <vector>

#include "spots/target.hpp"

namespace castplan {

/// How far one reason of a score may be off. All sizes are standard deviations of independent normal errors.
struct Doubt {
  Factor factor{};
  const Curve* curve{};
  double value{};
  double weight{};
  double sd{};                        ///< of the value, for what the depth at the place does not tell
  double bare{};                      ///< value with `bare_curve` where the weeds end elsewhere
  const Curve* bare_curve = nullptr;  ///< nullptr: weeds have no part in it
  std::optional<double> lost{};       ///< value where the nearest edge is none after all; none: it has no part in it
  std::vector<double> maybe{};        ///< chances, each of one more in the value: kinds near the end of a cast
};

struct TargetDoubt {
  XY at;
  Metres error;               ///< of the depth there
  double grade_pct;           ///< of the floor there: how far an edge of weeds moves for a metre of depth
  double loss{};              ///< chance that the nearest edge of the floor is none: what its confidence leaves
  std::vector<Doubt> doubts;  ///< one a reason, in the order of `why`
};

/// Distance over which the survey's errors are alike: their correlation falls as exp(-distance / this). Design choice.
inline constexpr Metres kErrorReach(25);

TargetDoubt doubt_of(const Target& target, const Lake& lake, const Surroundings& surroundings, const Phase& phase);

}  // namespace castplan
