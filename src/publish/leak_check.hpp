// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "castplan/write/plan.hpp"
#include "publish/map_plane.hpp"
#include "publish/secrets.hpp"

namespace castplan {

/// What an exact place was found as.
struct Leak {
  std::string file;
  std::size_t offset{};  ///< of the first byte; 0 for a file's name
  std::string what;      ///< "a target, as degrees and decimal minutes"
};

/// Bytes that only the lake's depths, public features and coarse squares have made. Where they stand unchanged in a
/// file they are passed over, since a line along an edge may run through a target; one byte more or less and they are
/// read like all else.
struct PublicBlocks {
  std::map<std::string, std::vector<std::string>> by_file;
  void add(const std::string& file, std::string block) { by_file[file].push_back(std::move(block)); }
};

/// A page's map: what its drawing units and shares of its size stand for.
struct DrawnMap {
  std::string file;
  MapPlane plane;
};

/// Looks through every byte, and every file name, for exact places: decimal degrees from four decimals on, with "." or
/// ","; millionths of a degree; degrees and decimal minutes; degrees, minutes and seconds; the packed minutes of NMEA
/// 0183; metres of Web Mercator (EPSG:3857); places on the page's own map, in its units or per cent, inside tags and
/// scripts; ids and hashes; all this also behind HTML references, JSON and address escapes and base 64; and for
/// pictures, which the site has none of. A coordinate printed finely is enough by itself; coarse ones count where both
/// stand near each other.
std::vector<Leak> find_leaks(const std::vector<OutputFile>& files, const PublicBlocks& allowed,
                             const std::vector<DrawnMap>& maps, const Secrets& secrets);

}  // namespace castplan
