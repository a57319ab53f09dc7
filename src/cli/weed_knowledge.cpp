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

// Depths below today's surface of what grew below the survey's.
std::optional<WeedDepth> at_its_elevation(WeedDepth edge, Metres moved) {
  const auto shifted = [moved](Metres depth) { return std::max(Metres(0), depth + moved); };
  if (!(edge.expected + moved > Metres(0))) return std::nullopt;
  edge.expected = shifted(edge.expected);
  edge.low = shifted(edge.low);
  edge.high = shifted(edge.high);
  if (edge.deepest) edge.deepest = shifted(*edge.deepest);
  return edge;
}

std::optional<WeedKnowledge> predicted(const LakeFile& file, Plan& plan) {
  if (!plan.secchi) return std::nullopt;
  if (file.water == "river") {
    plan.notes.push_back("A river: no weed edge is predicted from Secchi depth.");
    return std::nullopt;
  }
  if (*plan.secchi < Metres(0.3) || *plan.secchi > Metres(10)) {
    plan.notes.push_back(fmt::format(
        "A Secchi depth of {:.1f} m lies outside 0.3 to 10 m, where the weed formulas were fitted: the predicted edge "
        "is a guess.",
        plan.secchi->value()));
  }
  WeedDepth edge = weed_depth_from_secchi(*plan.secchi);
  if (file.water == "reservoir" && file.raster.level_offset != Metres(0)) {
    const auto stayed = at_its_elevation(edge, file.raster.level_offset);
    plan.notes.push_back(fmt::format(
        "A reservoir: the weeds grew at the level of the survey, and their edge stays at its elevation; {}.",
        stayed ? fmt::format("it lies {:.1f} m under today's surface instead of {:.1f} m", stayed->expected.value(),
                             edge.expected.value())
               : "it lies above today's surface, so that no edge is drawn"));
    if (!stayed) return std::nullopt;
    edge = *stayed;
  }
  plan.weed_depth = edge;
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

WeedStage weed_stage_in(const Plan& plan, const Phase& phase) {
  if (plan.season.water_temp) return weed_stage(*plan.season.water_temp, plan.season.trend);
  return weed_stage(phase);
}

std::vector<Feature> with_weeds_of(const std::vector<Feature>& features, WeedStage stage) {
  std::vector<Feature> kept;
  kept.reserve(features.size());
  for (const Feature& feature : features) {
    const auto* weeds = std::get_if<WeedLine>(&feature.details);
    const bool predicted = weeds != nullptr && weeds->source == WeedSource::predicted;
    if (predicted && stage == WeedStage::none) continue;
    if (predicted && weeds->edge == WeedEdge::outside && outside_share(stage) == 0) continue;
    kept.push_back(feature);
    if (predicted) std::get<WeedLine>(kept.back().details).density *= std::max(0.5, outside_share(stage));
  }
  return kept;
}

void describe_weeds(Plan& plan) {
  const bool any = std::any_of(plan.features.begin(), plan.features.end(), [](const Feature& feature) {
    const auto* weeds = std::get_if<WeedLine>(&feature.details);
    return weeds != nullptr && weeds->source == WeedSource::predicted;
  });
  if (!any) return;
  std::vector<std::string_view> bare, dying;
  for (const Phase* phase : plan.season.phases) {
    const WeedStage stage = weed_stage_in(plan, *phase);
    if (outside_share(stage) == 0) bare.push_back(phase->name);
    if (stage == WeedStage::dying) dying.push_back(phase->name);
    if (plan.season.phases.size() == 1) plan.weed_stage = name_of(stage);
  }
  if (!bare.empty()) {
    plan.notes.push_back(fmt::format(
        "Weeds have their season: the predicted outside edge is drawn, but no target in {}, before it has grown (from "
        "18 C, rising) or after it has gone (below 4 C, falling; both design choices).",
        fmt::join(bare, ", ")));
  }
  if (!dying.empty()) {
    plan.notes.push_back(
        fmt::format("Weeds die back in {}: predicted edges count half (below 12 C, falling; design choice). Look for "
                    "what is green.",
                    fmt::join(dying, ", ")));
  }
}

std::optional<LevelSwing> level_swing(const LakeFile& file) {
  if (!file.level.yearly_range) return std::nullopt;
  // the survey's surface is taken for the highest of the year
  return LevelSwing{*file.level.yearly_range, std::max(Metres(0), *file.level.yearly_range + file.raster.level_offset)};
}

}  // namespace castplan
