// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace castplan {

/// PNG bytes of a picture: four bytes a pixel (red, green, blue, opacity), rows from the top.
/// Requires pixels.size() == 4 * width * height. Equal pixels, equal bytes.
std::string png(std::span<const std::uint8_t> pixels, int width, int height);

}  // namespace castplan
