// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/soundings.hpp"

namespace castplan {

/// Why a sounding is not used, in the order in which they are tested; the first that holds is the reason.
enum class Rejection { not_finite, above_water, on_land, spike, outlier, duplicate };
inline constexpr std::array kRejections = {Rejection::not_finite, Rejection::above_water, Rejection::on_land,
                                           Rejection::spike,      Rejection::outlier,     Rejection::duplicate};
/// "not finite", "above water", "on land", "spike", "outlier", "duplicate": for tables and files.
std::string_view text(Rejection reason);

struct CleanOptions {
  /// Soundings nearer than this share one place; the one with the middle depth stays.
  Metres same_place{0.1};
  /// A spike stands out from its neighbours on the track by more than so many robust standard errors (1.4826 times the
  /// median deviation) of the track about it, and twice its usual step. An outlier stands out as far from the slope of
  /// the soundings about it. Rousseeuw & Hubert (2011), WIREs Data Min. Knowl. Discov. 1, 73-79, call 2.5 to 3 usual; 6
  /// keeps rough ground. Common practice, no source.
  double robust_errors = 6.0;
  /// Nothing that stands out by less is a spike or an outlier: the larger of this and a share of the depth.
  Metres least_spike{0.3};
  double least_spike_share = 0.05;
  /// Side of the squares whose eight neighbours and own soundings judge an outlier.
  Metres neighbourhood{10.0};
};

struct Rejected {
  Sounding sounding;
  std::size_t number{};  ///< place in the input, from 0
  Rejection reason{};
};

struct Cleaned {
  std::vector<Sounding> kept;      ///< in the order of the input
  std::vector<Rejected> rejected;  ///< in the order of the input; kept and rejected are all there were
  std::array<std::size_t, kRejections.size()> counts{};  ///< of the rejected by reason, in the order of kRejections

  [[nodiscard]] std::size_t count(Rejection reason) const { return counts[static_cast<std::size_t>(reason)]; }
};

/// Takes out soundings that cannot be the lake's floor: not finite, depth below zero, outside the shoreline (no
/// shoreline: none is on land), spikes along the track, outliers among their neighbours, repeats of one place. The
/// order of the input is the order along the track; a track ends where the step is more than twenty times the usual
/// one. Slopes are not spikes, however steep: a spike lies outside the range of its neighbours on both sides, and what
/// two other soundings close by confirm is no outlier.
Cleaned clean_soundings(std::vector<Sounding> soundings, const Polygons& shoreline, const CleanOptions& options = {});

}  // namespace castplan
