// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/write/plan.hpp"
#include "write/gpx.hpp"

namespace castplan {

/// One code a phase, so that marks of several phases can stand in one device (pre-spawn: PRS); none when there is only
/// one phase.
std::vector<std::string> phase_codes(const std::vector<const PhaseSpots*>& phases);

/// A spot or a pass in whole sentences, with its reason and cautions.
std::string spot_text(const Plan& plan, const Spot& spot);
std::string pass_text(const Plan& plan, const Pass& pass);

/// The boat's place of a spot. Its name is the rank with leading zeros, a letter for what is fished, the phase's code
/// where several are planned and the depth under the boat (01D-7M, 01DPRS-22F), so that sorting by name is sorting by
/// rank.
/// spots: how many there are, for the zeros.
Waypoint spot_waypoint(const Plan& plan, const Spot& spot, std::size_t spots, const std::string& code);

/// Where the cast from a spot lands; boat: the spot's own waypoint.
Waypoint landing_waypoint(const Plan& plan, const Spot& spot, const Waypoint& boat);

/// A pass as a way, P01 or P01PRS, without the names of its turns. passes: how many there are, for the zeros.
GpxWay pass_way(const Plan& plan, const Pass& pass, std::size_t passes, const std::string& code);

/// One turn of a pass's lane, named as its route names it: P01-03.
Waypoint turn_waypoint(const Plan& plan, const Pass& pass, const GpxWay& way, std::size_t turn);

/// A launch (L01), hazard (H01) or closure (C01) at its anchor; count: how many of its kind there are, for the zeros.
Waypoint mark_waypoint(const Plan& plan, const Feature& feature, std::size_t number, std::size_t count);

/// The files as they stand in the page: of a whole year without the outlines of hazards and closures, which would make
/// it too large to send.
std::vector<OutputFile> waypoint_files_for_page(const Plan& plan);

/// What the letters in the names stand for.
std::string names_text();

}  // namespace castplan
