// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "publish/secrets.hpp"
#include "publish/utm.hpp"

namespace castplan {

/// Base-32 letters of halved intervals, the longitude's first (geohash, G. Niemeyer 2008, in the public domain).
std::string geohash(LonLat place, std::size_t letters);

/// Ten digits to base 20, pairs of latitude and longitude, with a plus before the last two: Open Location Code.
std::string location_code(LonLat place);

/// Where a place lies in the squares of 100 km of the zones of UTM (United States National Grid, FGDC-STD-011-2001; the
/// same as the Military Grid Reference System).
struct GridSquare {
  int zone = 0;
  std::string letters;       ///< of column and row, small
  double easting, northing;  ///< metres within the square
};
GridSquare grid_square(const UtmPlace& place);

/// Finds codes of places in a text: geohashes of eight letters or more, location codes, whole or without their first
/// four digits, and grid references of four digits or more a side. A code of a neighbouring cell counts too.
class PlaceCodes {
 public:
  explicit PlaceCodes(const std::vector<Secrets::Place>& places);

  struct Found {
    std::size_t at;     ///< byte of the text
    std::size_t place;  ///< number
    const char* notation;
  };
  /// text: in small letters.
  [[nodiscard]] std::vector<Found> in(std::string_view text) const;

 private:
  void add_word(std::vector<Found>& found, std::string_view text, std::size_t at, std::size_t end) const;
  void add_location_code(std::vector<Found>& found, std::string_view text, std::size_t plus) const;
  void add_reference(std::vector<Found>& found, std::string_view text, std::size_t at) const;

  std::unordered_map<std::string, std::size_t> hashes_;          ///< by their first letters
  std::unordered_map<std::string, std::size_t> location_codes_;  ///< by the last digits, the plus among them
  std::unordered_multimap<std::string, std::size_t> by_square_;  ///< by zone and letters
  std::vector<GridSquare> squares_;                              ///< of each place
};

}  // namespace castplan
