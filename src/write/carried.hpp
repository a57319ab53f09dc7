// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/write/plan.hpp"
#include "write/ground_shape.hpp"

namespace castplan {

/// What every file of a plan carries, in the same words in each.

/// The stop, when there is one: why, and with --override-stop the reason given. Empty when there is none.
std::vector<std::string> stop_lines(const Plan& plan);

/// Stop, advisory, the plan's own cautions and the user's rules, in this order, each once.
std::vector<std::string> carried_cautions(const Plan& plan);

/// The own cautions of a spot or a pass, after the stop that was set aside for it.
std::vector<std::string> spot_cautions(const Plan& plan, const Spot& spot);
std::vector<std::string> pass_cautions(const Plan& plan, const Pass& pass);

/// The temperatures for which a phase's spots hold; phase nullptr: those of the whole plan.
std::string temperatures_text(const Plan& plan, const Phase* phase);

/// Water surface, source of the depths and the temperatures of a phase (nullptr: of the whole plan), a sentence each.
std::vector<std::string> carried_facts(const Plan& plan, const Phase* phase);

/// "County survey, CC BY 4.0, surveyed 1994", as far as it is known.
std::string depth_source_text(const Plan& plan);

/// "castplan 0.1.0"
std::string program_text();

/// The reason given with --override-stop; empty when there was none.
std::string override_reason(const Plan& plan);

/// The phases with their spots; none under a stop that is not set aside, whatever the plan holds.
std::vector<const PhaseSpots*> phases_with_spots(const Plan& plan);

/// Texts with a separator between them; empty ones left out.
std::string joined(const std::vector<std::string>& texts, std::string_view separator);

/// A lure in words: "crankbait, 1.5 to 3.0 m down, slow roll". Lengths in the units given.
std::string presentation_text(const Presentation& presentation, Units units);

/// Boat and target as printed, and the geodesic between just these: what a reader of the file can check.
struct PrintedCast {
  MicroPlace boat, target;
  double bearing_deg;  ///< one decimal, [0, 360)
  double cast_m;
};
PrintedCast printed_cast(const Plan& plan, const Spot& spot);

/// The score to print. It is the spot's own, but for a suitability near zero, whose four decimals cannot give the score
/// back: then the product of the printed suitabilities to the power of the printed weights.
double printed_score(const Spot& spot);

/// Where a cast goes by the sounder's reading at the boat and the depth that is fished: 25 cm tell them apart.
enum class CastGoes { unknown, shallower, level, deeper };
CastGoes cast_goes(const Spot& spot);

}  // namespace castplan
