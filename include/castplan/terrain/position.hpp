// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

#include "castplan/grid/grid.hpp"

namespace castplan {

/// How far the floor stands over the mean of the known cells within a radius, itself left out: metres, positive on a
/// rise and negative in a hole, whatever the sense of depths. The disc is round; a radius of 1.5 cells takes the eight
/// neighbours. depth: metres, positive down, NaN where unknown; NaN there, and where nothing else is known.
/// Source: the difference from the mean of Weiss (2001) and Wilson & Gallant (2000).
/// Throws std::invalid_argument as `disc_mean` does.
Grid<Metres32> position_index(const Grid<Metres32>& depth, Metres radius);

/// int(100 (value - mean) / sd + 0.5), cut towards zero as published: Lundblad et al. (2006), Mar. Geod. 29, 89-111.
int standardised(double value, double mean, double sd);

/// What the floor looks like from a place, with what it is on the water (that is a design choice).
enum class Form { flat = 1, peak, ridge, shoulder, spur, slope, hollow, footslope, valley, pit };
std::string_view name_of(Form form);

/// From how many of eight directions the floor lies lower, and from how many higher; the rest are level.
/// Source: Jasiewicz & Stepinski (2013), Geomorphology 182, 147-156. Requires 0 or more each, at most 8 together.
Form form_of(int lower, int higher);

/// The form about a cell: in eight directions up to `reach` the steepest way up is held against the steepest way down;
/// less than `level` between them counts as level. A direction in which nothing is known counts as level too.
/// depth as above; flat where the cell itself is unknown.
Form form_at(const Grid<Metres32>& depth, Cell at, Metres reach, Degrees level);

}  // namespace castplan
