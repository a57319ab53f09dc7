// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "castplan/geo/quantity_text.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/season/date.hpp"
#include "castplan/season/profile.hpp"
#include "castplan/season/stability.hpp"
#include "castplan/season/thermocline.hpp"

namespace castplan {

/// Below this many mg/l of oxygen no spot is looked for. Design choice: twice the 1.5 mg/l that kills pike at 28 C
/// (Inskip 1982); tagged muskellunge stayed below it only once the surface was over 25 C, above their stop.
inline constexpr double kLeastOxygen = 3.0;

/// What is known of the layers of a lake on a day.
struct LayerQuestion {
  std::optional<Date> date;
  std::span<const ProfileReading> profile;  ///< of any dates
  std::span<const AreaAtDepth> areas;       ///< of the largest water body, from hypsography()
  std::optional<Celsius> surface;           ///< temperature that the plan holds for
  std::optional<Celsius> coldest_month;     ///< mean air temperature, for the water below
  bool river = false;
  double least_oxygen = kLeastOxygen;  ///< mg/l, of the species
  Units units = Units::metric;         ///< for the words
};

struct LayerAnswer {
  std::optional<ThermoclineDepth> thermocline;  ///< none when mixed, turning over or unknown
  std::string source;            ///< "profile", "predicted" or empty: what the answer comes from, "none" too
  std::optional<Mixing> mixing;  ///< none when nothing is known
  std::string text;              ///< one sentence for people; empty for rivers
  std::string profile_date;      ///< of the profile that counts, or empty
  /// Depths without enough oxygen, by that profile, ascending; the last reaches down for ever where the deepest level
  /// lacks it.
  std::vector<std::pair<Metres, Metres>> without_oxygen;
  std::vector<std::string> notes;
};

/// Layers by the newest profile of the date or up to 14 days before it (design choice; one of another time of the year
/// says nothing), else predicted from the area, for a surface temperature at which the lake must be layered: turnover
/// is decided by stability. Before the season, without a temperature, the prediction stands for midsummer. None in a
/// river.
LayerAnswer decide_layers(const LayerQuestion& question);

/// Depths where a profile of one date (by depth) has less oxygen than the limit, straight lines between its levels.
std::vector<std::pair<Metres, Metres>> depths_without_oxygen(std::span<const ProfileReading> levels,
                                                             double least = kLeastOxygen);

/// The phase with its depths counted from the thermocline, where the profile has a curve for that and there is one; the
/// same phase otherwise.
Phase by_thermocline(const Phase& phase, const std::optional<ThermoclineDepth>& thermocline);

/// The same curve with 0 at these depths; the source says so.
Curve without_depths(Curve depth, std::span<const std::pair<Metres, Metres>> depths, const std::string& why);

/// Temperature nearest the surface (within 1 m) of the newest profile of the date or up to 5 days before; none without.
std::optional<DatedTemperature> surface_of_profile(std::span<const ProfileReading> profile, Date date);

}  // namespace castplan
