// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>

namespace castplan {

using Colour = std::array<std::uint8_t, 3>;  ///< sRGB

/// Colour of a place on the depth ramp, 0 (shore) to 1 (deepest): one hue, lightness strictly falling. Our own ramp,
/// straight lines in lightness and chroma of OKLab, hue 200 degrees.
/// Source: Ottosson (2020), "A perceptual color space for image processing"; its matrices are from memory.
Colour ramp_colour(double share);

/// Where a depth stands on the ramp: its share of the greatest depth to this power, so that the shallows, where casting
/// is done, get more of the range.
inline constexpr double kRampPower = 0.7;
double ramp_share(double depth_m, double max_depth_m);

}  // namespace castplan
