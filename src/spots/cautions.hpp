// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "spots/boat.hpp"

namespace castplan {

/// What a person must know of a boat's place: little water, a thin survey, slow or electric water, dangers within
/// 100 m with the way to their nearest part.
std::vector<std::string> cautions_at(const Lake& lake, const std::vector<Feature>& features, const BoatPlace& place,
                                     const SpotOptions& options);

/// The same of a whole lane. least: the least depth under it.
std::vector<std::string> cautions_along(const Lake& lake, const std::vector<Feature>& features, const Line& lane,
                                        Metres least, const SpotOptions& options);

}  // namespace castplan
