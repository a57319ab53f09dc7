// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "publish/map_plane.hpp"
#include "publish/number_scan.hpp"
#include "publish/place_codes.hpp"
#include "publish/secrets.hpp"

namespace castplan {

struct SecretFound {
  std::size_t at{};  ///< byte of the text
  std::string what;
};

/// The secrets in an order in which many numbers can be asked for quickly.
class SecretIndex {
 public:
  explicit SecretIndex(const Secrets& secrets);
  /// Places written as numbers, whatever the notation.
  [[nodiscard]] std::vector<SecretFound> places_in(std::string_view text) const;
  /// Places on a map, as pairs of drawing units or per cent, inside tags and scripts.
  [[nodiscard]] std::vector<SecretFound> drawn_in(std::string_view text, const MapPlane& plane) const;
  /// Places as codes of letters and digits. text: in small letters.
  [[nodiscard]] std::vector<SecretFound> codes_in(std::string_view text) const;
  /// Ids and hashes, wherever they begin. text: in small letters.
  [[nodiscard]] std::vector<SecretFound> texts_in(std::string_view text) const;

 private:
  struct Axis {
    double value;  ///< without its sign
    std::size_t place;
  };
  /// A number that may be one coordinate of a place.
  struct Hit {
    std::size_t at;
    std::size_t place;
    bool latitude;
    bool fine;  ///< printed so finely that it tells by itself
    const char* notation;
  };
  void add_hits(std::vector<Hit>& hits, std::size_t at, double value, double slack, bool fine,
                const char* notation) const;
  void add_metres(std::vector<Hit>& hits, const FoundNumber& number) const;
  void add_number(std::vector<Hit>& hits, const FoundNumber& number) const;
  void add_minutes(std::vector<Hit>& hits, const std::vector<FoundNumber>& numbers, std::size_t at) const;

  std::vector<Secrets::Place> places_;
  std::vector<Secrets::Text> texts_;  ///< in small letters, ascending
  std::unordered_set<std::uint32_t> beginnings_;
  PlaceCodes codes_;
  /// Ascending. Metres: of Web Mercator, then of the place's zone of UTM.
  std::vector<Axis> latitudes_, longitudes_;
  std::vector<Axis> northings_[2], eastings_[2];
};

}  // namespace castplan
