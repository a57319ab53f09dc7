// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string_view>

#include "castplan/season/profile.hpp"

namespace castplan {

/// What stands of rooted plants in the course of a year.
enum class WeedStage { none, new_growth, standing, dying };
std::string_view name_of(WeedStage stage);  ///< "not up yet", "new growth", "standing", "dying"

/// By the temperature of the water: rising, nothing below 10 C and new growth below 18 C; falling, dying below 12 C and
/// nothing below 4 C; else the beds stand. No study was found that gives the course of a whole bed by temperature: all
/// limits are design choices. Without a trend the stage with less of the two.
WeedStage weed_stage(Celsius water, std::optional<Trend> trend);

/// The stage at the coldest water of a phase, the one with less where it has two trends.
WeedStage weed_stage(const Phase& phase);

/// Plants that are left, as a share of those in summer: 1 standing, half while they die, 0 with none or new growth, as
/// far as the outside edge goes. Design choice.
double outside_share(WeedStage stage);

}  // namespace castplan
