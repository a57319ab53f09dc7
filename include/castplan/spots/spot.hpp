// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "castplan/features/feature.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/season/profile.hpp"

namespace castplan {

/// One reason of a score: what was measured, what it is worth, what it counts, and where that comes from.
struct Reason {
  std::string factor;
  double value{};
  std::string unit;
  double suitability{};  ///< 0 to 1
  double weight{};       ///< the weights of a spot sum to 1
  std::string source;
};

struct Presentation {
  std::string lure;
  Metres run_from, run_to;
  std::string retrieve;
};

/// A place for the boat, and the cast from it.
struct Spot {
  std::string id;
  std::string phase;
  int rank{};       ///< 1 is best, in its phase
  int rank_low{};   ///< 90 % interval of the rank among the leading places of the phase, those not kept included, when
  int rank_high{};  ///< depths, weed edge and weights vary within their errors
  double score{};   ///< product of suitability^weight
  XY boat;
  Metres boat_depth;
  std::string hold;  ///< motor, drift, anchor
  Degrees approach;  ///< heading on the way in, true
  XY aim;            ///< the place that is fished, short of it
  XY target;         ///< where the cast lands
  Degrees bearing;   ///< from boat to target, true
  Metres cast;
  std::pair<Metres, Metres> strike;  ///< the stretch of the retrieve that passes what is fished, from the boat
  Metres target_depth;               ///< the depth there
  std::vector<Kind> kinds;           ///< what the casts cover
  std::vector<std::string> feature_ids;
  std::vector<Reason> why;
  std::vector<std::string> not_assessed;  ///< factors left out for want of data
  std::vector<Presentation> presentations;
  int casts{};
  double minutes{};
  std::vector<std::string> cautions;
  std::string reason_words;  ///< the reasons in one plain sentence
};

enum class Side { left, right };
std::string_view name_of(Side side);  ///< "left", "right"

/// A way that the boat follows slowly past an edge, casting to one side all along.
struct Pass {
  std::string id;
  std::string phase;
  int rank{};                              ///< 1 is best, among the passes of its phase
  double score{};                          ///< product of suitability^weight
  Line lane;                               ///< from start to end; on the plane, of places as they are printed
  Metres length;                           ///< geodesic, between the printed places
  Degrees heading;                         ///< from the first place to the last, true
  Side cast_side{};                        ///< of the way that the boat goes
  std::pair<Metres, Metres> cast;          ///< shortest and longest
  std::pair<Metres, Metres> boat_depth;    ///< least and most under the lane
  std::pair<Metres, Metres> target_depth;  ///< of what is fished along it
  std::vector<Kind> kinds;                 ///< what the casts cover; that of the edge first
  std::vector<std::string> feature_ids;
  std::size_t places{};     ///< that were judged along it
  std::vector<Reason> why;  ///< value and suitability: means over those places
  std::vector<std::string> not_assessed;
  std::vector<Presentation> presentations;
  int casts{};
  double minutes{};
  double confidence{};      ///< 0 to 1; of the feature that it follows
  bool open_water = false;  ///< cast away from the edge, for fish that hang over deep water
  std::vector<std::string> cautions;
  std::string reason_words;  ///< the way and the reasons in plain sentences
};

/// How far the order of a phase's spots can be trusted, and where a sounding would tell most; all in ranks.
struct OrderNotes {
  std::size_t leading{};           ///< so many places were ranked; 0: fewer than 2 spots, nothing to say
  int first_third{};               ///< what a clear pick is among
  std::vector<std::size_t> clear;  ///< picks that are clear
  std::vector<std::pair<std::size_t, std::size_t>> ties;  ///< first to last of each run of near ties
  std::vector<std::size_t> sound;                         ///< where to sound first
};

/// The notes in sentences, for people; none when there is nothing to say. letter: stands before each rank, where
/// several phases are read side by side ("A").
std::vector<std::string> order_words(const OrderNotes& notes, std::string_view letter = {});

/// What the wind of the day leaves out; where none is known, which spots lie in the lee of which wind.
struct ShelterNotes {
  std::optional<Metres> left_out;  ///< from this height of waves on no spot and no pass is put
  struct Lee {
    Degrees from;            ///< that the wind comes from
    std::vector<int> ranks;  ///< best first; maybe none
  };
  std::vector<Lee> lees;
};

/// The notes in sentences, for people. letter: as above.
std::vector<std::string> shelter_words(const ShelterNotes& notes, Units units, std::string_view letter = {});

/// Spots of one phase.
struct PhaseSpots {
  const Phase* phase{};
  std::vector<Spot> spots;  ///< by rank
  std::string why_none;     ///< for people, when there are none
  OrderNotes order{};
  std::vector<Pass> passes{};  ///< by rank
  ShelterNotes shelter{};
};

}  // namespace castplan
