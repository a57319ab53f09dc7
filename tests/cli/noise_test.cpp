// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// A survey's own error must not make features, nor lose them: the sample lake with Gaussian noise of 0.15 m on every
// depth, white and correlated over 25 m. The truth is the lake without noise. The aim, the project's own, is at least
// 95 % kept and fewer than 5 % gained, on the mean over six seeds, of the kinds whose limits are reliefs and depths.
// Kinds that hang on bends and passes of the floor are counted beside them: all together keep 95 % too, but passes at
// the limit of relief make the gains one in seventeen.
#include "support/noise.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <iostream>
#include <map>
#include <string>

#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/io/load.hpp"
#include "castplan/season/weeds.hpp"

using namespace castplan;

namespace {

constexpr double kNoise = 0.15;  // metres, standard deviation

/// The same water with other depths: the shore stays where it is.
Lake with_noise(Lake lake, bool correlated, unsigned seed) {
  lake.depth = lakes::noisy(std::move(lake.depth), kNoise, correlated, seed);
  return lake;
}

bool has_main_kind(Kind kind) {
  return kind == Kind::drop_off || kind == Kind::weed_line || kind == Kind::pool || kind == Kind::hump ||
         kind == Kind::hazard;
}

bool found_by_shape(Kind kind) {
  return has_main_kind(kind) || kind == Kind::saddle || kind == Kind::flat || kind == Kind::channel ||
         kind == Kind::point || kind == Kind::inside_turn || kind == Kind::narrows || kind == Kind::bay;
}

Points places_of(const Feature& feature) {
  if (const auto* lines = std::get_if<Lines>(&feature.geometry)) {
    Points places;
    for (const Line& line : *lines) {
      for (const XY at : resampled(line, Metres(5))) places.push_back(at);
    }
    return places;
  }
  return {feature.anchor};
}

double away_from(XY place, const Feature& feature) {
  if (const auto* lines = std::get_if<Lines>(&feature.geometry)) {
    double nearest = 1e9;
    for (const Line& line : *lines) nearest = std::min(nearest, distance(place, line).value());
    return nearest;
  }
  if (const auto* polygons = std::get_if<Polygons>(&feature.geometry)) {
    double nearest = distance(place, feature.anchor).value();
    for (const Polygon& polygon : *polygons) nearest = std::min(nearest, distance(place, polygon.outer).value());
    return nearest;
  }
  return distance(place, feature.anchor).value();
}

bool holds(const Feature& feature, XY place) {
  const auto* polygons = std::get_if<Polygons>(&feature.geometry);
  if (polygons == nullptr) return false;
  return std::any_of(polygons->begin(), polygons->end(),
                     [&](const Polygon& polygon) { return contains(polygon.outer, place); });
}

/// A line is there when half of it lies within 10 m of lines of its kind; what has a middle, when that lies within 25 m
/// of one of its kind or either holds the middle of the other (the deepest place of a level floor may lie anywhere).
bool is_among(const Feature& feature, const std::vector<Feature>& others) {
  const bool line = std::holds_alternative<Lines>(feature.geometry);
  const Points places = places_of(feature);
  const auto there = std::count_if(places.begin(), places.end(), [&](XY place) {
    return std::any_of(others.begin(), others.end(), [&](const Feature& other) {
      if (other.kind != feature.kind) return false;
      if (line) return away_from(place, other) <= 10;
      return away_from(place, other) <= 25 || holds(other, place) || holds(feature, other.anchor);
    });
  });
  return 2 * static_cast<std::size_t>(there) >= places.size();
}

struct Tally {
  int had = 0, kept = 0, gained = 0;

  Tally& operator+=(const Tally& other) {
    had += other.had;
    kept += other.kept;
    gained += other.gained;
    return *this;
  }
};
using Tallies = std::map<Kind, Tally>;

Tallies compared(const std::vector<Feature>& truth, const std::vector<Feature>& noisy) {
  Tallies tallies;
  for (const Feature& feature : truth) {
    if (found_by_shape(feature.kind)) tallies[feature.kind] += {1, is_among(feature, noisy) ? 1 : 0, 0};
  }
  for (const Feature& feature : noisy) {
    if (found_by_shape(feature.kind)) tallies[feature.kind] += {0, 0, is_among(feature, truth) ? 0 : 1};
  }
  return tallies;
}

template <class Takes>
Tally sum_of(const Tallies& tallies, Takes takes) {
  Tally sum;
  for (const auto& [kind, tally] : tallies) {
    if (takes(kind)) sum += tally;
  }
  return sum;
}

void print(const std::string& what, const Tally& tally) {
  std::cout << what << ": kept " << tally.kept << " of " << tally.had << ", gained " << tally.gained << "\n";
}

}  // namespace

TEST_CASE("noise of the survey's own error neither makes features nor loses them") {
  const LoadedLake loaded = load_lake(read_lake_file(CASTPLAN_SOURCE_DIR "/sample_rasters/ossilby.toml"));
  const WeedKnowledge weeds{weed_depth_from_secchi(Metres(2.8)).expected, WeedSource::predicted};
  const auto features_of = [&](const Lake& lake) { return find_features(Ground{lake, {}, {}, weeds, {}, {}, {}}, {}); };
  const auto truth = features_of(loaded.lake);
  constexpr int kSeeds = 6;
  for (const bool correlated : {false, true}) {
    const std::string noise = correlated ? "noise over 25 m, " : "white noise, ";
    Tallies all;
    for (unsigned seed = 1; seed <= kSeeds; ++seed) {
      const Tallies one = compared(truth, features_of(with_noise(loaded.lake, correlated, seed)));
      print(noise + "seed " + std::to_string(seed), sum_of(one, has_main_kind));
      for (const auto& [kind, tally] : one) all[kind] += tally;
    }
    for (const auto& [kind, tally] : all) {
      print(noise + std::string(name_of(kind)), tally);
      if (has_main_kind(kind)) CHECK(tally.had >= 3 * kSeeds);
    }
    const Tally main = sum_of(all, has_main_kind);
    CHECK(main.had >= 40 * kSeeds);
    CHECK(main.kept >= 0.95 * main.had);
    CHECK(main.gained < 0.05 * main.had);
    const Tally every = sum_of(all, found_by_shape);
    CHECK(every.kept >= 0.95 * every.had);
    CHECK(every.gained < 0.06 * every.had);
  }
}
