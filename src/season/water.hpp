// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "castplan/season/season.hpp"
#include "season/daily_series.hpp"

namespace castplan {

/// What a question says of the water, before any species is asked.
struct Water {
  std::optional<Celsius> now;          ///< decides the phase
  std::optional<Celsius> lowered;      ///< the same less what a bay may be warmer; or an estimate less its error
  std::optional<Celsius> raised;       ///< an estimate and its error
  std::string source;                  ///< given, series, profile, model or empty
  std::optional<Celsius> mean;         ///< of the last 5 days of the series
  std::optional<Celsius> heat;         ///< what the heat stop looks at: the warmest of all readings and the mean
  std::string heat_from;               ///< whose that is, where it is not `now`: "a reading of the series"
  std::optional<double> age;           ///< hours, of the reading that `now` is
  int days_known{};                    ///< of the last 5, in the series
  std::optional<Trend> trend;          ///< that counts
  std::vector<DayTemperature> series;  ///< empty when it is not used
  std::vector<DayTemperature> memory;  ///< all of it that the spawn may be remembered by, used or not
};

/// How long a reading holds, and how near to a stop an older one counts as there.
inline constexpr double kReadingHolds = 36;  // hours
inline constexpr CelsiusStep kNearStop{2.0};

/// Where the strain of five days is asked for: from here up, for species with a heat stop.
inline constexpr Celsius kAskForDays{21.0};
inline constexpr int kFewDays = 3;  // of the last five; fewer say nothing of them. Design choice

/// Reads the water out of a question, with notes on all that was set aside.
Water read_water(const SeasonQuestion& question, std::vector<std::string>& notes);

/// The phase of one species in this water, and why it is a stop.
struct PhaseChoice {
  const Phase* phase{};
  std::string stop;  ///< a sentence; empty when the phase is fishable
};

/// Species at or above their caution line in this water, or above 21 C with too few days known.
bool at_caution(const Profile& profile, const Water& water);
bool days_are_wanted(const Profile& profile, const Water& water);

/// Whether the spawning ground of a species is closed in this water.
bool ground_closed(const Profile& profile, const Water& water);

/// Requires water.now. Throws UsageError when the phase hangs on a trend that nobody knows.
PhaseChoice choose_phase(const Profile& profile, const Water& water, const SeasonQuestion& question);

/// "12.4 C (54.3 F)"
std::string reading_text(Celsius temperature);
/// "75 F (23.9 C)" or "25 C (77 F)": the scale as written stands first.
std::string stop_line_text(const Profile& profile);
/// "rising water of 8 to 15.6 C (46 to 60 F)"
std::string water_text(const Phase& phase, std::optional<Trend> trend);

}  // namespace castplan
