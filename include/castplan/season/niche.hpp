// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// How well a temperature suits a fish, 0 to 1: 1 within 2 C of its optimum, linear to 0 at 5 C. The widths are those
/// of Magnuson & DeStasio (1997), two thirds of the time and all of it; the straight taper is a design choice.
double thermal_niche(Celsius optimum, Celsius t);

}  // namespace castplan
