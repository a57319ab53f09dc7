// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/secret_index.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "publish/utm.hpp"

namespace castplan {
namespace {

constexpr double kRadius = 6378137.0;  // of Web Mercator (EPSG:3857, EPSG Guidance Note 7-2, method 1024)
constexpr double kRadians = 3.14159265358979323846 / 180.0;
constexpr std::size_t kNear = 160;  // bytes between the two coordinates of a place
constexpr std::size_t kGap = 12;    // bytes between degrees and minutes, or between x and y
constexpr double kUnitSlack = 0.75, kPercentSlack = 0.06;

// Which bytes stand inside tags and scripts: prose is full of small numbers, places are drawn there.
std::vector<bool> in_markup(std::string_view text) {
  std::vector<bool> out(text.size(), false);
  bool tag = false, script = false;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '<') {
      tag = true;
      if (text.substr(at).starts_with("<script")) script = true;
      if (text.substr(at).starts_with("</script")) script = false;
    }
    out[at] = tag || script;
    if (text[at] == '>') tag = false;
  }
  return out;
}

constexpr std::size_t kBeginning = 4;  // bytes by which most places of a text are passed over at once

std::uint32_t beginning_of(std::string_view text) {
  std::uint32_t out = 0;
  for (std::size_t i = 0; i < kBeginning; ++i) out = out << 8U | static_cast<unsigned char>(text[i]);
  return out;
}

double one_in(int decimals) { return std::pow(10.0, -std::min(decimals, 9)); }

}  // namespace

SecretIndex::SecretIndex(const Secrets& secrets)
    : places_(secrets.places), texts_(secrets.texts), codes_(secrets.places) {
  for (Secrets::Text& secret : texts_) {
    std::transform(secret.text.begin(), secret.text.end(), secret.text.begin(),
                   [](unsigned char each) { return static_cast<char>(std::tolower(each)); });
  }
  std::sort(texts_.begin(), texts_.end(), [](const auto& a, const auto& b) { return a.text < b.text; });
  std::erase_if(texts_, [](const Secrets::Text& secret) { return secret.text.size() < kBeginning; });
  for (const Secrets::Text& secret : texts_) beginnings_.insert(beginning_of(secret.text));
  Utm utm;
  for (std::size_t at = 0; at < places_.size(); ++at) {
    const LonLat place = places_[at].at;
    const double lat = std::clamp(place.lat.degrees, -89.9, 89.9) * kRadians;
    latitudes_.push_back({std::abs(place.lat.degrees), at});
    longitudes_.push_back({std::abs(place.lon.degrees), at});
    eastings_[0].push_back({std::abs(kRadius * place.lon.degrees * kRadians), at});
    northings_[0].push_back({std::abs(kRadius * std::asinh(std::tan(lat))), at});
    const UtmPlace grid = utm.of(place);
    eastings_[1].push_back({grid.at.x, at});
    northings_[1].push_back({grid.at.y, at});
  }
  for (std::vector<Axis>* axis :
       {&latitudes_, &longitudes_, &northings_[0], &eastings_[0], &northings_[1], &eastings_[1]}) {
    std::erase_if(*axis, [](const Axis& one) { return !std::isfinite(one.value); });
    std::sort(axis->begin(), axis->end(),
              [](const Axis& a, const Axis& b) { return a.value != b.value ? a.value < b.value : a.place < b.place; });
  }
}

void SecretIndex::add_hits(std::vector<Hit>& hits, std::size_t at, double value, double slack, bool fine,
                           const char* notation) const {
  for (const bool latitude : {true, false}) {
    const std::vector<Axis>& axis = latitude ? latitudes_ : longitudes_;
    auto each = std::lower_bound(axis.begin(), axis.end(), value - slack,
                                 [](const Axis& one, double least) { return one.value < least; });
    for (; each != axis.end() && each->value <= value + slack; ++each) {
      hits.push_back({at, each->place, latitude, fine, notation});
    }
  }
}

void SecretIndex::add_metres(std::vector<Hit>& hits, const FoundNumber& number) const {
  if (number.digits < 4 || number.digits > 8) return;
  const double slack = 1.01 * one_in(number.decimals);
  for (const int system : {0, 1}) {
    for (const bool latitude : {true, false}) {
      const std::vector<Axis>& axis = latitude ? northings_[system] : eastings_[system];
      auto each = std::lower_bound(axis.begin(), axis.end(), number.value - slack,
                                   [](const Axis& one, double least) { return one.value < least; });
      for (; each != axis.end() && each->value <= number.value + slack; ++each) {
        hits.push_back({number.at, each->place, latitude, number.decimals >= 2,
                        system == 0 ? "metres of Web Mercator" : "metres of UTM"});
      }
    }
  }
}

void SecretIndex::add_number(std::vector<Hit>& hits, const FoundNumber& number) const {
  const double one = one_in(number.decimals);
  if (number.decimals >= 4 && number.value <= 180.0) {
    add_hits(hits, number.at, number.value, 1.01 * std::max(one, 1e-6), number.decimals >= 5, "decimal degrees");
  }
  if (number.decimals == 0 && number.digits >= 6 && number.digits <= 9) {
    add_hits(hits, number.at, number.value / 1e6, 1.01e-6, true, "millionths of a degree");
  }
  // ddmm.mmm, as NMEA 0183 writes it
  if (number.decimals >= 2 && number.digits >= 3 && number.digits <= 5) {
    const double degrees = std::floor(number.value / 100.0);
    const double minutes = number.value - 100.0 * degrees;
    if (minutes < 60.0 && degrees <= 180.0) {
      add_hits(hits, number.at, degrees + minutes / 60.0, 1.01 * one / 60.0, number.decimals >= 3, "packed minutes");
    }
  }
  add_metres(hits, number);
}

void SecretIndex::add_minutes(std::vector<Hit>& hits, const std::vector<FoundNumber>& numbers, std::size_t at) const {
  const FoundNumber& degrees = numbers[at];
  if (degrees.decimals != 0 || degrees.digits > 3 || degrees.value > 180.0) return;
  for (std::size_t i = at + 1; i < numbers.size() && numbers[i].at <= degrees.end + kGap; ++i) {
    const FoundNumber& minutes = numbers[i];
    if (minutes.at < degrees.end || minutes.value >= 60.0 || minutes.digits > 2) continue;
    const double in_minutes = degrees.value + minutes.value / 60.0;
    if (minutes.decimals >= 2) {
      add_hits(hits, degrees.at, in_minutes, 1.01 * one_in(minutes.decimals) / 60.0, minutes.decimals >= 3,
               "degrees and decimal minutes");
    }
    if (minutes.decimals != 0) continue;
    for (std::size_t j = i + 1; j < numbers.size() && numbers[j].at <= minutes.end + kGap; ++j) {
      const FoundNumber& seconds = numbers[j];
      if (seconds.at < minutes.end || seconds.value >= 60.0 || seconds.digits > 2) continue;
      add_hits(hits, degrees.at, in_minutes + seconds.value / 3600.0, 1.01 * one_in(seconds.decimals) / 3600.0,
               seconds.decimals >= 1, "degrees, minutes and seconds");
    }
  }
}

std::vector<SecretFound> SecretIndex::places_in(std::string_view text) const {
  const std::vector<FoundNumber> numbers = numbers_in(text);
  std::vector<Hit> hits;
  for (std::size_t at = 0; at < numbers.size(); ++at) {
    add_number(hits, numbers[at]);
    add_minutes(hits, numbers, at);
  }
  std::stable_sort(hits.begin(), hits.end(), [](const Hit& a, const Hit& b) { return a.at < b.at; });
  std::vector<SecretFound> out;
  for (std::size_t i = 0; i < hits.size(); ++i) {
    bool told = hits[i].fine && places_[hits[i].place].alone;
    for (std::size_t j = i + 1; !told && j < hits.size() && hits[j].at <= hits[i].at + kNear; ++j) {
      told = hits[j].place == hits[i].place && hits[j].latitude != hits[i].latitude && hits[j].at != hits[i].at;
    }
    if (told && (out.empty() || out.back().at != hits[i].at)) {
      out.push_back({hits[i].at, fmt::format("{}, as {}", places_[hits[i].place].what, hits[i].notation)});
    }
  }
  return out;
}

std::vector<SecretFound> SecretIndex::texts_in(std::string_view text) const {
  std::vector<SecretFound> out;
  for (std::size_t at = 0; at + kBeginning <= text.size(); ++at) {
    const std::string_view rest = text.substr(at);
    if (!beginnings_.contains(beginning_of(rest))) continue;
    // what begins this text stands before it in order, and so does whatever lies between the two
    auto after = std::upper_bound(texts_.begin(), texts_.end(), rest,
                                  [](std::string_view one, const Secrets::Text& other) { return one < other.text; });
    while (after != texts_.begin()) {
      --after;
      if (rest.starts_with(after->text)) {
        out.push_back({at, after->what});
        break;
      }
      if (!rest.starts_with(std::string_view(after->text).substr(0, kBeginning))) break;
    }
  }
  return out;
}

std::vector<SecretFound> SecretIndex::codes_in(std::string_view text) const {
  std::vector<SecretFound> out;
  for (const PlaceCodes::Found& found : codes_.in(text)) {
    out.push_back({found.at, fmt::format("{}, as a {}", places_[found.place].what, found.notation)});
  }
  return out;
}

std::vector<SecretFound> SecretIndex::drawn_in(std::string_view text, const MapPlane& plane) const {
  std::vector<std::pair<XY, const Secrets::Place*>> drawn;
  for (const Secrets::Place& place : places_) {
    if (!plane.may_hold(place.at)) continue;
    drawn.emplace_back(plane.drawn(place.at), &place);
  }
  std::vector<SecretFound> out;
  const std::vector<FoundNumber> numbers = numbers_in(text);
  const std::vector<bool> markup = in_markup(text);
  for (std::size_t at = 0; at + 1 < numbers.size(); ++at) {
    const FoundNumber& x = numbers[at];
    if (!markup[x.at]) continue;
    for (std::size_t next = at + 1; next < numbers.size() && numbers[next].at <= x.end + kGap; ++next) {
      const FoundNumber& y = numbers[next];
      if (y.at < x.end) continue;
      for (const auto& [at_map, place] : drawn) {
        const bool units = std::abs(x.value - at_map.x) <= kUnitSlack && std::abs(y.value - at_map.y) <= kUnitSlack;
        const bool shares = x.decimals >= 1 && y.decimals >= 1 &&
                            std::abs(x.value - at_map.x / plane.width() * 100.0) <= kPercentSlack &&
                            std::abs(y.value - at_map.y / plane.height() * 100.0) <= kPercentSlack;
        if (units || shares) {
          out.push_back({x.at, fmt::format("{}, as a place on the map", place->what)});
          break;
        }
      }
    }
  }
  return out;
}

}  // namespace castplan
