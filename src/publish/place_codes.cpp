// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/place_codes.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>

namespace castplan {
namespace {

constexpr std::string_view kBase32 = "0123456789bcdefghjkmnpqrstuvwxyz";
constexpr std::string_view kBase20 = "23456789cfghjmpqrvwx";
constexpr std::size_t kHashLetters = 8;     // a cell of about 38 by 19 m
constexpr std::size_t kLongestHash = 12;    // nobody writes more
constexpr std::size_t kShortCode = 7;       // of a location code that leaves out where on Earth it is: four, plus, two
constexpr double kCodeCell = 1.0 / 8000.0;  // degrees, of a location code
constexpr int kCoarsest = 4;                // digits a side of a grid reference: 10 m

bool is_letter_or_digit(char each) { return std::isalnum(static_cast<unsigned char>(each)) != 0; }
bool is_digit(char each) { return each >= '0' && each <= '9'; }

LonLat moved(LonLat place, double lon, double lat) {
  return {Longitude{place.lon.degrees + lon}, Latitude{std::clamp(place.lat.degrees + lat, -90.0, 90.0)}};
}

/// Calls with a place and the eight around it, so many degrees apart.
template <class Visit>
void with_neighbours(LonLat place, double lon, double lat, const Visit& visit) {
  for (const int east : {-1, 0, 1}) {
    for (const int north : {-1, 0, 1}) visit(moved(place, east * lon, north * lat));
  }
}

std::string square_key(int zone, std::string_view letters) { return std::to_string(zone) + std::string(letters); }

}  // namespace

std::string geohash(LonLat place, std::size_t letters) {
  double low[2] = {-180, -90}, high[2] = {180, 90};
  const double value[2] = {place.lon.degrees, place.lat.degrees};
  std::string out;
  for (std::size_t bit = 0, number = 0; out.size() < letters; ++bit) {
    const std::size_t axis = bit % 2;
    const double middle = (low[axis] + high[axis]) / 2;
    const bool upper = value[axis] >= middle;
    (upper ? low : high)[axis] = middle;
    number = number << 1U | (upper ? 1U : 0U);
    if (bit % 5 == 4) {
      out += kBase32[number];
      number = 0;
    }
  }
  return out;
}

std::string location_code(LonLat place) {
  // whole numbers of cells, so that no digit hangs on a rounding; 2e-7 of a cell is less than any place is known to
  const auto cells = [](double degrees) { return static_cast<long long>(std::floor(degrees / kCodeCell + 2e-7)); };
  long long north = std::clamp(cells(place.lat.degrees + 90), 0LL, 180 * 8000LL - 1);
  long long east = cells(place.lon.degrees + 180) % (360 * 8000LL);
  if (east < 0) east += 360 * 8000LL;
  std::string out;
  for (int pair = 0; pair < 5; ++pair) {
    out += kBase20[static_cast<std::size_t>(east % 20)];
    out += kBase20[static_cast<std::size_t>(north % 20)];
    if (pair == 0) out += '+';
    east /= 20;
    north /= 20;
  }
  std::reverse(out.begin(), out.end());
  return out;
}

GridSquare grid_square(const UtmPlace& place) {
  static constexpr std::string_view kColumns[] = {"stuvwxyz", "abcdefgh", "jklmnpqr"};
  static constexpr std::string_view kRows = "abcdefghjklmnpqrstuv";
  const auto column = static_cast<std::size_t>(std::clamp(std::floor(place.at.x / 1e5) - 1, 0.0, 7.0));
  const auto row = static_cast<std::size_t>(std::max(0.0, std::floor(place.at.y / 1e5)));
  const std::size_t shift = place.zone % 2 == 0 ? 5 : 0;
  return {place.zone,
          {kColumns[place.zone % 3][column], kRows[(row + shift) % kRows.size()]},
          std::fmod(place.at.x, 1e5),
          std::fmod(place.at.y, 1e5)};
}

PlaceCodes::PlaceCodes(const std::vector<Secrets::Place>& places) {
  Utm utm;
  for (std::size_t number = 0; number < places.size(); ++number) {
    const LonLat place = places[number].at;
    squares_.push_back({});
    if (!std::isfinite(place.lon.degrees) || !std::isfinite(place.lat.degrees)) continue;
    with_neighbours(place, 360 / std::exp2(20), 180 / std::exp2(20),
                    [&](LonLat near) { hashes_.emplace(geohash(near, kHashLetters), number); });
    with_neighbours(place, kCodeCell, kCodeCell, [&](LonLat near) {
      const std::string code = location_code(near);
      location_codes_.emplace(code.substr(code.size() - kShortCode), number);
    });
    if (std::abs(place.lat.degrees) > 84) continue;
    squares_.back() = grid_square(utm.of(place));
    by_square_.emplace(square_key(squares_.back().zone, squares_.back().letters), number);
  }
}

void PlaceCodes::add_word(std::vector<Found>& found, std::string_view text, std::size_t at, std::size_t end) const {
  if (end - at < kHashLetters || end - at > kLongestHash) return;
  const auto place = hashes_.find(std::string(text.substr(at, kHashLetters)));
  if (place != hashes_.end()) found.push_back({at, place->second, "geohash"});
}

void PlaceCodes::add_location_code(std::vector<Found>& found, std::string_view text, std::size_t plus) const {
  if (plus < 4 || plus + 3 > text.size()) return;
  const auto place = location_codes_.find(std::string(text.substr(plus - 4, kShortCode)));
  if (place != location_codes_.end()) found.push_back({plus - 4, place->second, "location code"});
}

// Zone, letter of the band, two letters, and as many digits for the easting as for the northing; with or without
// spaces.
void PlaceCodes::add_reference(std::vector<Found>& found, std::string_view text, std::size_t at) const {
  std::size_t next = at;
  const auto skip = [&] { next += next < text.size() && text[next] == ' ' ? 1 : 0; };
  const auto letter = [&] {
    return next < text.size() && text[next] >= 'a' && text[next] <= 'z' ? text[next++] : '\0';
  };
  const auto digits = [&] {
    const std::size_t first = next;
    while (next < text.size() && is_digit(text[next])) ++next;
    return text.substr(first, next - first);
  };
  const std::string zone(digits());
  if (zone.size() > 2 || letter() == '\0') return;
  skip();
  const char column = letter(), row = letter();
  if (column == '\0' || row == '\0') return;
  skip();
  std::string both(digits());
  const std::size_t half = next;
  skip();
  if (const std::string_view second = digits(); second.size() == both.size()) {
    both += second;
  } else {
    next = half;
  }
  if (both.size() % 2 != 0 || both.size() < 2 * kCoarsest || both.size() > 10) return;
  const double step = std::pow(10, 5 - static_cast<double>(both.size()) / 2);
  const double easting = std::atof(both.substr(0, both.size() / 2).c_str()) * step;
  const double northing = std::atof(both.substr(both.size() / 2).c_str()) * step;
  const auto [first, last] = by_square_.equal_range(square_key(std::atoi(zone.c_str()), std::string{column, row}));
  for (auto each = first; each != last; ++each) {
    const GridSquare& square = squares_[each->second];
    const double east = square.easting - easting, north = square.northing - northing;
    if (std::max(std::abs(east - step / 2), std::abs(north - step / 2)) > 1.5 * step + 1) continue;
    found.push_back({at, each->second, "grid reference"});
    return;
  }
}

std::vector<PlaceCodes::Found> PlaceCodes::in(std::string_view text) const {
  std::vector<Found> found;
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == '+') add_location_code(found, text, at);
    if (!is_letter_or_digit(text[at])) {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && is_letter_or_digit(text[end])) ++end;
    add_word(found, text, at, end);
    if (is_digit(text[at])) add_reference(found, text, at);
    at = end;
  }
  return found;
}

}  // namespace castplan
