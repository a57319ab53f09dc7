// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/weed_calendar.hpp"

#include "season/reach.hpp"

namespace castplan {
namespace {

constexpr Celsius kGrows(10), kStands(18), kDies(12), kGone(4);

WeedStage stage_in(Celsius water, Trend trend) {
  if (trend == Trend::rising) {
    if (!reaches(water, kGrows)) return WeedStage::none;
    return reaches(water, kStands) ? WeedStage::standing : WeedStage::new_growth;
  }
  if (!reaches(water, kGone)) return WeedStage::none;
  return reaches(water, kDies) ? WeedStage::standing : WeedStage::dying;
}

WeedStage lesser(WeedStage a, WeedStage b) { return outside_share(a) <= outside_share(b) ? a : b; }

}  // namespace

std::string_view name_of(WeedStage stage) {
  switch (stage) {
    case WeedStage::none:
      return "not up yet";
    case WeedStage::new_growth:
      return "new growth";
    case WeedStage::standing:
      return "standing";
    case WeedStage::dying:
      return "dying";
  }
  return {};
}

WeedStage weed_stage(Celsius water, std::optional<Trend> trend) {
  if (trend) return stage_in(water, *trend);
  return lesser(stage_in(water, Trend::rising), stage_in(water, Trend::falling));
}

WeedStage weed_stage(const Phase& phase) {
  std::optional<WeedStage> stage;
  for (const Trend trend : {Trend::rising, Trend::falling}) {
    const auto& interval = interval_of(phase, trend);
    if (!interval) continue;
    const WeedStage here = stage_in(interval->from, trend);
    stage = stage ? lesser(*stage, here) : here;
  }
  return stage.value_or(WeedStage::standing);
}

double outside_share(WeedStage stage) {
  switch (stage) {
    case WeedStage::none:
    case WeedStage::new_growth:
      return 0;
    case WeedStage::dying:
      return 0.5;
    case WeedStage::standing:
      return 1;
  }
  return 1;
}

}  // namespace castplan
