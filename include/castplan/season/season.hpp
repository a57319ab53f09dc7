// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "castplan/geo/coordinate.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/season/date.hpp"
#include "castplan/season/profile.hpp"

namespace castplan {

/// What is known of the water and the day.
struct SeasonQuestion {
  std::optional<Date> date;
  std::optional<Celsius> water_temp;  ///< given; an option beats the lake file
  bool read_in_bay = false;           ///< taken in a bay or at a ramp, which may be 1.5 C warmer
  /// Hours between the given reading and noon of the date, on either side; none: not known, or read for the plan.
  std::optional<double> reading_age;
  /// Needs a date. Gives the temperature when none is given, and in any case the trend, the 5-day mean and the memory
  /// of the spawn. Days after the date are left out.
  std::vector<DatedTemperature> series;
  /// What stands in for a temperature where none is given and no series has one. error: how far it may be off; it
  /// counts towards a stop, on either side.
  struct Estimate {
    Celsius value;
    CelsiusStep error;
    std::string source;           ///< profile, model
    std::optional<double> age{};  ///< hours, as of a reading; none for what is worked out
  };
  std::optional<Estimate> estimate;  ///< a measured one also counts for the heat stop beside a given temperature
  std::optional<Trend> trend;        ///< given
  std::string phase;                 ///< asked for by name; never beats a known temperature
  Latitude latitude;
  std::vector<std::pair<std::string, std::string>> open;  ///< the user's own open dates, MM-DD pairs
  std::vector<const Profile*> holds;                      ///< other species of the lake, whose stops count too
  std::string override_stop;                              ///< the reason given with --override-stop; empty: none
};

enum class AdvisoryLevel { none, caution, stop };
std::string_view name_of(AdvisoryLevel level);

struct Advisory {
  AdvisoryLevel level = AdvisoryLevel::none;
  std::vector<std::string> reasons;
  bool overridden = false;  ///< a stop that the user set aside; the reasons stay
  std::ptrdiff_t stops{};   ///< so many of the reasons, the first, are stops
};

/// What to plan for.
struct SeasonAnswer {
  std::vector<const Phase*> phases;   ///< one, or all of the year; those with spots have `fishable`
  std::optional<Celsius> water_temp;  ///< given, or of the newest day of the series
  std::string water_temp_source;      ///< given, series, profile, model or empty
  std::optional<Trend> trend;
  Advisory advisory;
  bool no_spots = false;  ///< a stop that is not overridden
  /// The water strains the fish: caution, or a heat stop that is set aside. Refuges and open water are left alone then.
  bool warm_water = false;
  std::vector<const Profile*> species;  ///< planned, then held
  /// Species, planned or held, whose spawning ground carries no spot in this water; of a known temperature only.
  std::vector<const Profile*> closed_grounds;
  std::string valid_for;  ///< "15.6 to 18 C (60 to 64 F), rising": when the plan holds, for people
  std::vector<std::string> notes;
};

/// Decides phases, advisory and stop. With a water temperature there is exactly one phase; without one, all. A date
/// alone never decides a phase. The trend comes from the series, else as given, else from date and hemisphere;
/// falling counts only from 1 August to 31 January north of the equator (1 February to 31 July south of it). A
/// temperature that stands for two phases and no way to tell them apart is a UsageError that says what would. Stops:
/// heat (the warmer of today's and the 5-day mean), spawn (either the value or, for a reading in a bay, the value less
/// 1.5 C inside the interval; once entered in a series it holds until the 5-day mean has passed its upper end or the
/// falling half of the year has come), dates outside the user's own open dates, and a held species at its heat stop or
/// spawn; and a reading older than 36 hours within 2 C of the heat stop or of the spawn, in the trend that counts. The
/// caution: at the profile's line, and above 21 C for a species with a heat stop where fewer than three of the last
/// five days are known, since strain adds up over days (Booth et al. 2023).
///
/// The spawn of a series that has ended is still remembered, without a date too, until the autumn half-year or until a
/// temperature at which its ground opens.
///
/// Series: a day counts with the mean of its readings, for the heat stop the newest day with its warmest; the newest
/// day must lie within 5 days of the date, and is the one that the 5 days are counted back from. With no temperature
/// the advisory is `none` and its reasons are the lines to watch. Throws UsageError, and InputError for a series or
/// open dates that cannot be right.
SeasonAnswer decide_season(const Profile& profile, const SeasonQuestion& question);

/// True when a phase, by its temperatures, comes while the spawning ground of a species carries no spot: from 3 C
/// before its spawn until the ground opens, in the trend of its spawn. False for a species without such ground.
bool ground_closed_in(const Profile& profile, const Phase& phase);

/// "rising water of 5 to 17 C (41 to 63 F)": when the ground of a species carries no spot. Requires `spawning`.
std::string closed_ground_text(const Profile& profile);

/// True when all of a phase lies at or above the caution line of a species.
bool warm_water_in(const Profile& profile, const Phase& phase);

/// Temperatures for which a phase holds, both scales: "rising 8 to 15.6 C (46 to 60 F)".
std::string phase_range_text(const Phase& phase);

}  // namespace castplan
