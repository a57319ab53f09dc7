// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "castplan/features/feature.hpp"
#include "castplan/geo/shape.hpp"

namespace castplan {

using Json = nlohmann::ordered_json;

/// What `scout` wrote into a folder: exact, and not for any page.
struct Scouted {
  std::string folder;
  Json summary, features, spots, passes, contours;
  [[nodiscard]] bool stopped() const;  ///< no spot of it may be shown, whatever the files hold
};

/// Reads the five files by name. Throws InputError: missing, not as castplan writes them, not of one run, or of a plan
/// whose stop was set aside (a club's site must not show what the plan itself says not to fish).
Scouted read_scouted(const std::string& folder);

/// A member as text or number; empty where it is missing or null.
std::string text_in(const Json& object, const char* key);
std::optional<double> number_in(const Json& object, const char* key);
std::vector<std::string> texts_in(const Json& object, const char* key);

/// A GeoJSON geometry in degrees: x is longitude, y latitude.
Geometry degrees_of(const Json& geometry);
LonLat place_of(const Json& position);
/// Every place of a geometry.
std::vector<LonLat> places_of(const Json& geometry);

/// How much of a feature may leave.
enum class Leaves { shape, count, nothing };

/// Placed cover, mapped weeds, weed edges that were seen, fitted or mapped, and predicted spawning ground never leave.
/// Wood and rock that were mapped cannot be found from public depths: they leave as a count, in an exact copy with
/// their places. A layer whose file name holds "private" never leaves. Hazards and closures always do.
Leaves leaves(const Json& feature, bool exact);
std::optional<Kind> kind_of(const Json& feature);

}  // namespace castplan
