// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/weed_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "castplan/geo/quantity_text.hpp"
#include "write/html_text.hpp"

namespace castplan {
namespace {

std::string listed(const std::vector<WeedLoss>& losses) {
  std::string out;
  for (const WeedLoss loss : losses) out += (out.empty() ? "" : ", ") + std::string(name_of(loss));
  return out;
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return count == 0 ? std::string() : fmt::format(", {} {}", count, count == 1 ? one : many);
}

std::string gap_words(const std::vector<WeedGap>& gaps, Units units) {
  std::string out;
  for (const WeedGap& gap : gaps) {
    out +=
        fmt::format("{}{} ({})", out.empty() ? ", bare for " : ", ", length_text(gap.length, units), name_of(gap.why));
  }
  return out;
}

std::string band_words(const WeedLine& weed, Units units) {
  if (!weed.depth_low || !weed.depth_high || *weed.depth_low == *weed.depth_high) return {};
  return fmt::format(", could lie from {} to {}", length_text(*weed.depth_low, units),
                     length_text(*weed.depth_high, units));
}

/// What was looked at nowhere, or not everywhere.
std::vector<WeedLoss> not_assessed(const Plan& plan) {
  std::vector<WeedLoss> all;
  for (const WeedLoss loss : {WeedLoss::steepness, WeedLoss::scour, WeedLoss::rock, WeedLoss::level_swing}) {
    const bool any = std::any_of(plan.features.begin(), plan.features.end(), [&](const Feature& feature) {
      const auto* weed = std::get_if<WeedLine>(&feature.details);
      return weed != nullptr &&
             std::find(weed->not_assessed.begin(), weed->not_assessed.end(), loss) != weed->not_assessed.end();
    });
    if (any) all.push_back(loss);
  }
  return all;
}

}  // namespace

std::string weed_line_words(const WeedLine& weed, Units units) {
  static constexpr std::string_view kSources[] = {"mapped", "observed", "fitted to samples", "predicted"};
  std::string out = fmt::format("{} edge at {}, {}", weed.edge == WeedEdge::outside ? "outer" : "inner",
                                both_units(weed.depth, units), kSources[static_cast<std::size_t>(weed.source)]);
  if (weed.at_break) out += ", where the floor turns steep";
  if (weed.bare_above) {
    out +=
        *weed.bare_above == WeedLoss::scour ? ", bare above it by waves" : ", bare above it by the swing of the level";
  }
  out += band_words(weed, units);
  out += fmt::format(", density {:.0f} %", weed.density * 100.0);
  if (!weed.lowered_by.empty()) out += fmt::format(" (lowered by {})", listed(weed.lowered_by));
  out += fmt::format(", {} long", length_text(weed.length, units));
  return out + counted(weed.points.size(), "point", "points") + counted(weed.turns.size(), "turn", "turns") +
         gap_words(weed.gaps, units);
}

std::string weed_depth_words(const Plan& plan) {
  if (!plan.weed_depth) return {};
  const WeedDepth& depth = *plan.weed_depth;
  std::string out = fmt::format("{}, {}", both_units(depth.expected, plan.units), plan.weed_source);
  if (depth.low < depth.high) {
    out += fmt::format(" (between {} and {})", length_text(depth.low, plan.units), length_text(depth.high, plan.units));
  }
  if (depth.deepest) out += fmt::format("; last plants at {}", length_text(*depth.deepest, plan.units));
  if (plan.lake != nullptr && depth.expected >= plan.lake->max_depth) {
    out += "; the whole lake is shallower: plants may stand anywhere in it";
  }
  const auto unknown = not_assessed(plan);
  if (!unknown.empty()) out += fmt::format("; not assessed, or not everywhere: {}", listed(unknown));
  return out;
}

}  // namespace castplan
