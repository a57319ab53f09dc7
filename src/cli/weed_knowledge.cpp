// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "castplan/geo/error.hpp"
#include "cli/make_plan.hpp"

namespace castplan {

namespace {

WeedKnowledge knowledge_of(const WeedDepth& depth, WeedSource source) {
  return {depth.expected, source, depth.low, depth.high, depth.deepest};
}

std::optional<WeedKnowledge> observed(const LakeFile& file, Plan& plan) {
  if (!file.conditions.weed_depth) return std::nullopt;
  // seen at the survey's level: the edge stays where it grew when the surface moves
  const Metres today = *file.conditions.weed_depth + file.raster.level_offset;
  if (!(today > Metres(0))) {
    plan.notes.push_back("The observed weed depth is above today's surface: no weed edge is drawn.");
    return std::nullopt;
  }
  plan.weed_depth = WeedDepth{today, today, today};
  plan.weed_source = "observed";
  return knowledge_of(*plan.weed_depth, WeedSource::observed);
}

std::optional<WeedKnowledge> fitted(const LakeFile& file, const LoadedLake& loaded, Plan& plan) {
  if (loaded.plants.empty()) return std::nullopt;
  try {
    plan.weed_depth = fit_weed_depth(loaded.plants);
  } catch (const InputError& error) {
    plan.notes.push_back(fmt::format("{}: {}", file.conditions.plants, error.what()));
    return std::nullopt;
  }
  plan.weed_source = "fitted";
  return knowledge_of(*plan.weed_depth, WeedSource::fitted);
}

std::optional<WeedKnowledge> predicted(const LakeFile& file, Plan& plan) {
  if (!plan.secchi) return std::nullopt;
  if (file.water == "river") {
    plan.notes.push_back("A river: no weed edge is predicted from Secchi depth, and current is not modelled yet.");
    return std::nullopt;
  }
  if (*plan.secchi < Metres(0.3) || *plan.secchi > Metres(10)) {
    plan.notes.push_back(fmt::format(
        "A Secchi depth of {:.1f} m lies outside 0.3 to 10 m, where the weed formulas were fitted: the predicted edge "
        "is a guess.",
        plan.secchi->value()));
  }
  plan.weed_depth = weed_depth_from_secchi(*plan.secchi);
  plan.weed_source = "predicted";
  return knowledge_of(*plan.weed_depth, WeedSource::predicted);
}

}  // namespace

std::optional<WeedKnowledge> weed_knowledge(const LakeFile& file, const LoadedLake& loaded, const ScoutOptions& options,
                                            Plan& plan) {
  plan.secchi = options.secchi ? options.secchi : file.conditions.secchi;
  if (auto edge = observed(file, plan)) return edge;
  if (auto edge = fitted(file, loaded, plan)) return edge;
  return predicted(file, plan);
}

std::optional<LevelSwing> level_swing(const LakeFile& file) {
  if (!file.level.yearly_range) return std::nullopt;
  // the survey's surface is taken for the highest of the year
  return LevelSwing{*file.level.yearly_range, std::max(Metres(0), *file.level.yearly_range + file.raster.level_offset)};
}

}  // namespace castplan
