// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "write/ground_shape.hpp"

namespace castplan {

struct Waypoint {
  std::string name;  ///< ASCII letters, digits and "-"
  std::string cmt;   ///< one line of ASCII, at most 30 characters
  std::string desc;  ///< at most 255 bytes
  std::string type;
  MicroPlace place;
  std::string sym{};  ///< of the user's own table; else empty
};

/// A route or a track. Names of waypoints: of routes alone, one for each place.
struct GpxWay {
  std::string name, cmt, desc;
  std::vector<std::string> names;
  MicroPath places;
  std::string type = "pass";
};

struct GpxFile {
  std::string name, desc, keywords;  ///< of the whole file
  std::vector<Waypoint> waypoints;
  std::vector<GpxWay> routes{}, tracks{};
};

/// GPX 1.1 text. No time, height or extension is written; a longitude of exactly 180 becomes -180, which is
/// the one that the schema allows. Source: http://www.topografix.com/GPX/1/1.
std::string gpx_text(const GpxFile& file);

}  // namespace castplan
