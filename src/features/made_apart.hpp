// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "castplan/features/feature.hpp"

namespace castplan {

/// Makes features on several threads, where each needs nothing of the others; those that came out, in order.
std::vector<Feature> in_parallel(int count, const std::function<std::optional<Feature>(int)>& make);

/// From north to south, by their anchors.
std::vector<Feature> north_first(std::vector<Feature> features);

/// The same with names: word and number, from 1.
std::vector<Feature> numbered(std::vector<Feature> features, const std::string& word);

}  // namespace castplan
