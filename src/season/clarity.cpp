// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/clarity.hpp"

#include <fmt/format.h>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

constexpr Metres kStainedBelow(1), kClearAbove(4);
constexpr double kLightWeight = 0.10;

/// What one kind of water changes.
struct Change {
  double depth;                                  ///< times
  double edge, cover, deep_water;                ///< weights, times
  std::vector<std::pair<double, double>> light;  ///< suitability of the per cent of the surface's light
  const char* words;
};

const Change& change_in(Clarity clarity) {
  static const Change stained{
      0.75, 1.3, 1.3, 0.7, {{0.1, 0.3}, {1, 0.7}, {5, 1}}, "design: for stained water, Secchi depth under 1 m"};
  static const Change clear{1.25,
                            0.8,
                            1.0,
                            1.4,
                            {{10, 1}, {25, 0.9}, {50, 0.6}, {80, 0.4}},
                            "design: for clear water, Secchi depth over 4 m"};
  return clarity == Clarity::stained ? stained : clear;
}

double times_for(const Change& change, Factor factor) {
  switch (factor) {
    case Factor::edge:
      return change.edge;
    case Factor::cover:
      return change.cover;
    case Factor::deep_water:
      return change.deep_water;
    case Factor::depth:
    case Factor::meeting_edges:
    case Factor::light:
    case Factor::waves:
    case Factor::weed_edge:
      return 1;
  }
  return 1;
}

void share_out(Phase& phase, const Change& change) {
  double sum = 0;
  for (auto& [factor, weight] : phase.weights) sum += weight.value * times_for(change, factor);
  for (auto& [factor, weight] : phase.weights) {
    weight.value *= times_for(change, factor) * (1 - kLightWeight) / sum;
    weight.source.text += fmt::format("; {}", change.words);
  }
  phase.weights.push_back({Factor::light, {kLightWeight, {change.words, "design"}}});
}

void scale_depths(Curve& curve, const Change& change) {
  for (auto& point : curve.points) point.first *= change.depth;
  if (!curve.points.empty()) curve.source.text += fmt::format("; depths times {:g}, {}", change.depth, change.words);
}

}  // namespace

Clarity clarity_of(std::optional<Metres> secchi) {
  if (!secchi) return Clarity::usual;
  if (*secchi < kStainedBelow) return Clarity::stained;
  return *secchi > kClearAbove ? Clarity::clear : Clarity::usual;
}

std::string_view name_of(Clarity clarity) {
  switch (clarity) {
    case Clarity::usual:
      return "usual";
    case Clarity::stained:
      return "stained";
    case Clarity::clear:
      return "clear";
  }
  return {};
}

double light_lost(Metres secchi) {
  if (!(secchi > Metres(0))) throw InputError("a Secchi depth of 0 or less; expected more than 0");
  return (clarity_of(secchi) == Clarity::stained ? 1.44 : 1.7) / secchi.value();
}

Phase for_clarity(const Phase& phase, std::optional<Metres> secchi) {
  Phase out = phase;
  const Clarity clarity = clarity_of(secchi);
  if (clarity == Clarity::usual || phase.weights.empty()) return out;
  const Change& change = change_in(clarity);
  // depths that are counted from the thermocline follow the temperature, not the light
  scale_depths(out.depth, change);
  out.light_lost = light_lost(*secchi);
  out.light = {change.light,
               {fmt::format("{}; light by {}", change.words,
                            clarity == Clarity::stained ? "Holmes 1970" : "Poole & Atkins 1929"),
                "design"}};
  share_out(out, change);
  return out;
}

std::optional<std::pair<Metres, Metres>> casts_in(Clarity clarity) {
  switch (clarity) {
    case Clarity::stained:
      return std::pair(Metres(10), Metres(18));
    case Clarity::clear:
      return std::pair(Metres(18), Metres(32));
    case Clarity::usual:
      break;
  }
  return std::nullopt;
}

}  // namespace castplan
