// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "castplan/spots/spot.hpp"

namespace castplan {

/// Where each spot's numbered button stands, in pixels right and down from the boat's place: behind the boat, away from
/// the cast, unless a better ranked spot's button is in the way at the size at which the page first shows the lake;
/// then to one side, or further out. metres_a_pixel: at that size.
std::vector<XY> button_offsets(std::span<const Spot> spots, double metres_a_pixel);

/// The same for passes, from where each lane begins: behind it, unless a spot's button or another pass's is in the way.
std::vector<XY> button_offsets(std::span<const Pass> passes, std::span<const Spot> spots, double metres_a_pixel);

}  // namespace castplan
