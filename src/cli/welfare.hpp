// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/features/detect.hpp"
#include "castplan/io/load.hpp"
#include "castplan/io/time_zone.hpp"
#include "castplan/write/plan.hpp"
#include "cli/options.hpp"

namespace castplan {

/// Hours between the lake file's reading of the water and noon of the date, by the lake's clock; none where it counts
/// as read for the plan. Notes what is not said.
std::optional<double> age_of_reading(const LakeFile& file, const ScoutOptions& options, const TimeZone& zone,
                                     std::vector<std::string>& notes);

/// Whether cool and open water is left alone in a phase: the water is warm, or without a temperature the whole phase
/// is.
bool left_alone_when_warm(const Plan& plan, const Phase& phase);

/// The phase without depths below the thermocline where the water is warm and a species with a heat stop is about.
Phase without_refuges(const Phase& phase, const Plan& plan);

/// Water where no boat is put and nothing cast in a phase, beside closures: refuges from warm water, and spawning
/// ground.
Polygons left_alone(const Plan& plan, const Phase& phase);

/// The spawning ground to look for: that of every species, planned or held, for which a phase of the plan asks.
std::vector<GroundWanted> grounds_wanted(const SeasonAnswer& season);

/// Says what was left alone, and where the fish may be hooked too deep to be let go. Needs the features and the spots.
void add_welfare_notes(Plan& plan);
void add_depth_cautions(std::vector<Spot>& spots, const Profile& profile, Units units);

/// A caution where the user's rules were checked more than 12 months before the date.
void add_age_of_rules(Plan& plan, const LakeFile& file, const std::optional<Date>& date);

}  // namespace castplan
