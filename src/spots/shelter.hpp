// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "castplan/spots/rank.hpp"
#include "castplan/terrain/fetch.hpp"
#include "castplan/terrain/waves.hpp"

namespace castplan {

/// Knows how rough a lake is, place by place, in one wind. Waves come from the effective fetch upwind and the mean
/// depth of the water straight upwind, by the shallow-water formula.
class Shelter {
 public:
  /// fetch: of the lake; must outlive this.
  Shelter(const Lake& lake, const WindFetch& fetch, const Wind& wind, const RoughLimits& limits);
  /// None where the water upwind goes on beyond the survey.
  [[nodiscard]] std::optional<Waves> waves(XY at) const;
  /// Where the waves are not known, the wind alone decides.
  [[nodiscard]] Roughness at(XY at) const;
  /// A sentence for the cautions of a place; empty where the water is fair.
  [[nodiscard]] std::string caution(XY at, Units units) const;

 private:
  [[nodiscard]] Metres mean_depth(XY at) const;
  const Lake& lake_;
  const WindFetch& fetch_;
  Wind wind_;
  RoughLimits limits_;
  XY upwind_;
};

/// The wind of a day over a lake, where one is known.
class Weather {
 public:
  Weather(const Lake& lake, const SpotOptions& options);
  Weather(const Weather&) = delete;
  Weather& operator=(const Weather&) = delete;

  [[nodiscard]] bool too_rough_at(XY place) const { return shelter_ && shelter_->at(place) == Roughness::stop; }
  /// None where no wind is known, or where the water upwind goes on beyond the survey.
  [[nodiscard]] std::optional<Metres> wave_height(XY place) const;
  [[nodiscard]] bool too_rough_along(const Line& lane) const;
  void add_caution(XY place, Units units, std::vector<std::string>& cautions) const;
  /// What the wind leaves out; where none is known, of winds from the north, east, south and west a little weaker than
  /// those at which the boat's caution begins, the best spots in the lee: with at most half the waves of the roughest
  /// spot, and half of those at which the caution begins.
  [[nodiscard]] ShelterNotes notes(const Lake& lake, std::span<const Spot> spots, const SpotOptions& options) const;

 private:
  std::shared_ptr<const WindFetch> fetch_;
  std::optional<Shelter> shelter_;
};

/// Why no boat goes out in the wind, wherever it lies; empty where it may.
std::string no_boat_out(const SpotOptions& options);

}  // namespace castplan
