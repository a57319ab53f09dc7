// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "castplan/features/detect.hpp"
#include "castplan/write/plan.hpp"
#include "cli/options.hpp"

namespace castplan {

/// --compare A B understood: A goes into the options of the plan, and the other side is kept beside them. Throws
/// UsageError: what is wrong with the pair, and what would do.
void understand_compare(const ScoutWords& words, ScoutOptions& options);

/// The options of the other side of a comparison. Requires `compare`.
ScoutOptions options_of_other(const ScoutOptions& options);

/// Ground that either plan leaves alone, each species once.
std::vector<GroundWanted> wanted_by_either(const SeasonAnswer& one, const SeasonAnswer& other);

/// Features that were found once, as a plan of its own would have them: spawning ground that this season asks for, and
/// closures by the date.
std::vector<Feature> features_for(std::vector<Feature> found, const SeasonAnswer& season,
                                  const std::optional<Date>& date, Metres neighbour_reach);

/// What becomes of the spots of one plan in another of the same lake. A stop on either side leaves no spots to compare.
/// The phases of two plans of one phase are held together; else those of the same name.
Comparison compared(const Plan& plan, const Plan& other, const ScoutOptions& options);

}  // namespace castplan
