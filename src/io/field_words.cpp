// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/field_words.hpp"

#include <algorithm>
#include <array>
#include <tuple>

#include "castplan/geo/error.hpp"
#include "io/number_text.hpp"

namespace castplan {
namespace {

struct Word {
  std::string_view text;
  FieldRole role;
};

/// Plain words for each role, the plainest first.
constexpr auto kWords = std::to_array<Word>({
    {"lon", FieldRole::lon},
    {"longitude", FieldRole::lon},
    {"long", FieldRole::lon},
    {"lng", FieldRole::lon},
    {"lat", FieldRole::lat},
    {"latitude", FieldRole::lat},
    {"x", FieldRole::easting},
    {"easting", FieldRole::easting},
    {"east", FieldRole::easting},
    {"xcoord", FieldRole::easting},
    {"pointx", FieldRole::easting},
    {"y", FieldRole::northing},
    {"northing", FieldRole::northing},
    {"north", FieldRole::northing},
    {"ycoord", FieldRole::northing},
    {"pointy", FieldRole::northing},
    {"depth", FieldRole::depth},
    {"waterdepth", FieldRole::depth},
    {"bottomdepth", FieldRole::depth},
    {"sounding", FieldRole::depth},
    {"soundings", FieldRole::depth},
    {"dep", FieldRole::depth},
    {"contour", FieldRole::depth},
    {"height", FieldRole::height},
    {"elevation", FieldRole::elevation},
    {"elev", FieldRole::elevation},
    {"bedelevation", FieldRole::elevation},
    {"z", FieldRole::depth},
    {"track", FieldRole::track},
    {"trackid", FieldRole::track},
    {"tracknumber", FieldRole::track},
    {"run", FieldRole::track},
    {"runid", FieldRole::track},
    {"transect", FieldRole::track},
});

std::vector<std::string> words_in(std::string_view name) {
  std::vector<std::string> words(1);
  for (const char c : lower(bare(name))) {
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      words.back() += c;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

std::optional<DepthUnit> unit_of(const std::string& word) {
  try {
    return parse_depth_unit(word);
  } catch (const InputError&) {
    return std::nullopt;
  }
}

bool holds_depth(FieldRole role) {
  return role == FieldRole::depth || role == FieldRole::height || role == FieldRole::elevation;
}

}  // namespace

FieldMeaning meaning_of(std::string_view name) {
  std::vector<std::string> words = words_in(name);
  FieldMeaning out;
  if (words.size() > 1) out.unit = unit_of(words.back());
  if (out.unit) words.pop_back();
  while (words.size() > 1 && (words.back() == "wgs84" || words.back() == "dd" || words.back() == "deg" ||
                              words.back() == "degrees" || words.back() == "utm")) {
    words.pop_back();
  }
  std::string joined;
  for (const std::string& word : words) joined += word;
  for (std::size_t i = 0; i < kWords.size(); ++i) {
    if (joined != kWords[i].text) continue;
    out.role = kWords[i].role;
    out.likeness = static_cast<int>(i);
  }
  return out;
}

bool says_degrees(std::string_view name) {
  const std::vector<std::string> words = words_in(name);
  if (words.empty()) return false;
  const FieldRole whole = meaning_of(name).role;
  const FieldRole last = meaning_of(words.back()).role;
  return whole == FieldRole::lon || whole == FieldRole::lat || last == FieldRole::lon || last == FieldRole::lat;
}

int depth_field(const std::vector<std::string>& names, std::optional<DepthUnit> given, std::vector<std::string>& also) {
  using Rank = std::tuple<bool, int, int>;  // unit left open, likeness, place
  std::vector<Rank> fits;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const FieldMeaning meaning = meaning_of(names[i]);
    if (!holds_depth(meaning.role)) continue;
    if (given && meaning.unit && *given != *meaning.unit) continue;
    fits.emplace_back(!given && !meaning.unit, meaning.likeness, static_cast<int>(i));
  }
  if (fits.empty() && given) return depth_field(names, std::nullopt, also);
  if (fits.empty()) return -1;
  std::sort(fits.begin(), fits.end());
  for (std::size_t i = 1; i < fits.size(); ++i) also.push_back(names[static_cast<std::size_t>(std::get<2>(fits[i]))]);
  return std::get<2>(fits.front());
}

}  // namespace castplan
