// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <set>

#include "castplan/grid/sample.hpp"
#include "spots/printed.hpp"
#include "spots/target.hpp"

namespace castplan {

namespace {

constexpr Metres kCoverSeen(60);  // cover further off has no part in the score

Reason reason(Factor factor, double value, std::string unit, const Curve& curve) {
  return {std::string(words_of(factor)),
          value,
          std::move(unit),
          to_4(std::clamp(curve(value), 0.0, 1.0)),
          0,
          curve.source.text};
}

/// Mean of a measure over the pieces of an edge about a target, the nearer the more: where one piece meets the next,
/// the measure passes from the one to the other.
class OfPieces {
 public:
  void add(double value, Metres away) {
    const double near = 1 - std::pow(away / kOnEdge, 2);
    sum_ += near * value;
    weight_ += near;
  }
  [[nodiscard]] bool any() const { return weight_ > 0; }
  [[nodiscard]] double mean() const { return sum_ / weight_; }

 private:
  double sum_ = 0, weight_ = 0;
};

// The best of the edges that the target lies on; without any, the floor's own grade there.
Reason edge_reason(const Target& target, const Lake& lake, const std::vector<Neighbour>& near, const Phase& phase) {
  OfPieces grade, density;
  for (const Neighbour& each : near) {
    if (each.distance > kOnEdge) continue;
    if (const auto* edge = std::get_if<DropOff>(&each.feature->details)) grade.add(edge->grade_pct, each.distance);
    if (const auto* weeds = std::get_if<WeedLine>(&each.feature->details)) density.add(weeds->density, each.distance);
  }
  Reason best = reason(Factor::edge, to_2(grade_at(lake, target.at)), "% grade", phase.edge_grade);
  const auto better = [&](Reason other) {
    if (other.suitability > best.suitability) best = std::move(other);
  };
  if (grade.any()) better(reason(Factor::edge, to_2(grade.mean()), "% grade", phase.edge_grade));
  if (density.any()) better(reason(Factor::edge, to_2(density.mean()), "weed density", phase.weed_density));
  return best;
}

std::size_t kinds_within_cast(const Target& target, const std::vector<Neighbour>& near) {
  std::set<Kind> kinds{target.feature->kind};
  for (const Neighbour& each : near) {
    if (each.distance <= kWithinCast) kinds.insert(each.feature->kind);
  }
  return kinds.size();
}

std::optional<Reason> reason_for(Factor factor, const Target& target, const Lake& lake,
                                 const std::vector<Neighbour>& near, const Surroundings& surroundings,
                                 const Phase& phase) {
  switch (factor) {
    case Factor::depth:
      return reason(Factor::depth, target.depth.value(), "m", phase.depth);
    case Factor::edge:
      return edge_reason(target, lake, near, phase);
    case Factor::deep_water:
      return reason(Factor::deep_water, to_1(surroundings.to_deep_water(target.at, target.depth + kDeeper).value()),
                    "m away", phase.deep_water);
    case Factor::meeting_edges:
      return reason(Factor::meeting_edges, static_cast<double>(kinds_within_cast(target, near)), "kinds",
                    phase.meeting);
    case Factor::cover: {
      if (!surroundings.has_cover()) return std::nullopt;
      double away = kCoverSeen.value();
      for (const Neighbour& each : near) {
        if (is_cover(each.feature->kind)) away = std::min(away, each.distance.value());
      }
      return reason(Factor::cover, to_1(away), "m away", phase.cover);
    }
    case Factor::light: {
      if (!(phase.light_lost > 0)) return std::nullopt;
      const double share = 100 * std::exp(-phase.light_lost * target.depth.value());
      return reason(Factor::light, to_2(share), "% of the surface's", phase.light);
    }
    case Factor::weed_edge:
      return reason(Factor::weed_edge, to_2((target.depth - phase.weed_edge).value()), "m below the edge",
                    phase.depth_below_weed_edge);
    case Factor::waves: {
      const auto waves = surroundings.waves_at(target.at);
      if (!waves) return std::nullopt;
      return reason(Factor::waves, to_2(waves->value()), "m high", phase.waves);
    }
  }
  return std::nullopt;
}

// Weights of the factors that were assessed, to 1e-4, summing to exactly 1: the largest takes what rounding leaves.
void share_weights(std::vector<Reason>& why) {
  double sum = 0;
  for (const Reason& each : why) sum += each.weight;
  double rounded = 0;
  for (Reason& each : why) rounded += each.weight = to_4(each.weight / sum);
  const auto largest =
      std::max_element(why.begin(), why.end(), [](const Reason& a, const Reason& b) { return a.weight < b.weight; });
  if (largest != why.end()) largest->weight = to_4(largest->weight + 1 - rounded);
}

}  // namespace

std::string_view words_of(Factor factor) {
  if (factor == Factor::deep_water) return "deep water";
  if (factor == Factor::meeting_edges) return "meeting edges";
  if (factor == Factor::weed_edge) return "weed edge";
  return name_of(factor);
}

void judge(Target& target, const Lake& lake, const Surroundings& surroundings, const Phase& phase) {
  const std::vector<Neighbour> near = surroundings.near(target.at, kCoverSeen);
  for (const auto& [factor, weight] : phase.weights) {
    auto found = reason_for(factor, target, lake, near, surroundings, phase);
    if (!found) {
      target.not_assessed.emplace_back(words_of(factor));
      continue;
    }
    found->weight = weight.value;
    target.why.push_back(std::move(*found));
  }
  share_weights(target.why);
  target.score = product_of(target.why);
}

double product_of(const std::vector<Reason>& why) {
  double score = 1;
  for (const Reason& each : why) score *= std::pow(each.suitability, each.weight);
  return std::round(score * 1e6) / 1e6;
}

}  // namespace castplan
