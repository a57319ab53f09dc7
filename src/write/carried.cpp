// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/carried.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/geodesic.hpp"
#include "write/plain_text.hpp"

namespace castplan {
namespace {

// Adds a text unless it has been said; what comes before it does not count.
void add_once(std::vector<std::string>& texts, const std::string& text, const std::string& before = "") {
  if (text.empty()) return;
  const bool said = std::any_of(texts.begin(), texts.end(),
                                [&](const std::string& other) { return other.find(text) != std::string::npos; });
  if (!said) texts.push_back(before + text);
}

double four_decimals(double value) { return std::round(value * 1e4) / 1e4; }

}  // namespace

std::string override_reason(const Plan& plan) {
  for (const auto& [name, value] : plan.options) {
    if (name == "override-stop" || name == "override_stop") return one_line(value);
  }
  return {};
}

std::vector<std::string> stop_lines(const Plan& plan) {
  std::vector<std::string> out;
  const Advisory& advisory = plan.season.advisory;
  if (advisory.level != AdvisoryLevel::stop && !plan.season.no_spots) return out;
  for (const std::string& reason : advisory.reasons) out.push_back((out.empty() ? "Stop: " : "") + sentence(reason));
  if (out.empty()) out.emplace_back("Stop: no spots are given for these conditions.");
  if (advisory.overridden && !plan.season.no_spots) {
    const std::string reason = override_reason(plan);
    add_once(out, reason.empty() ? "The stop was set aside by the user." : sentence(reason),
             reason.empty() ? "" : "The stop was set aside by the user: ");
  }
  return out;
}

std::vector<std::string> carried_cautions(const Plan& plan) {
  std::vector<std::string> out = stop_lines(plan);
  if (plan.season.advisory.level == AdvisoryLevel::caution) {
    for (const std::string& reason : plan.season.advisory.reasons) add_once(out, sentence(reason));
  }
  for (const std::string& caution : plan.cautions) add_once(out, sentence(caution));
  if (!plan.rules_text.empty()) {
    std::string from = one_line(plan.rules_source);
    if (!plan.rules_checked.empty()) from += (from.empty() ? "checked " : ", checked ") + one_line(plan.rules_checked);
    add_once(out, sentence("Rules as the user noted them: " + one_line(plan.rules_text) +
                           (from.empty() ? "" : " (" + from + ")")));
  }
  return out;
}

namespace {

std::vector<std::string> after_the_stop(const Plan& plan, const std::vector<std::string>& own) {
  std::vector<std::string> out = stop_lines(plan);
  for (const std::string& caution : own) add_once(out, sentence(caution));
  return out;
}

}  // namespace

std::vector<std::string> spot_cautions(const Plan& plan, const Spot& spot) {
  return after_the_stop(plan, spot.cautions);
}

std::vector<std::string> pass_cautions(const Plan& plan, const Pass& pass) {
  return after_the_stop(plan, pass.cautions);
}

std::string temperatures_text(const Plan& plan, const Phase* phase) {
  if (phase && (plan.phases.size() > 1 || plan.season.valid_for.empty())) {
    return one_line(phase->name + ": " + phase_range_text(*phase));
  }
  if (!plan.season.valid_for.empty()) return one_line(plan.season.valid_for);
  std::vector<std::string> ranges;
  for (const Phase* one : plan.season.phases) ranges.push_back(one->name + ": " + phase_range_text(*one));
  return one_line(joined(ranges, "; "));
}

std::string depth_source_text(const Plan& plan) {
  std::vector<std::string> parts{one_line(plan.source), one_line(plan.licence)};
  if (!plan.surveyed.empty()) parts.push_back("surveyed " + one_line(plan.surveyed));
  const std::string out = joined(parts, ", ");
  return out.empty() ? "source of the depths not stated" : out;
}

std::vector<std::string> carried_facts(const Plan& plan, const Phase* phase) {
  std::vector<std::string> out{sentence("Water surface: " + one_line(plan.surface_text)),
                               sentence("Depths: " + depth_source_text(plan))};
  const std::string temperatures = temperatures_text(plan, phase);
  if (!temperatures.empty()) out.push_back(sentence("Holds for water at " + temperatures));
  return out;
}

std::string program_text() { return "castplan " + std::string(version()); }

std::vector<const PhaseSpots*> phases_with_spots(const Plan& plan) {
  std::vector<const PhaseSpots*> out;
  if (plan.season.no_spots) return out;
  for (const PhaseSpots& phase : plan.phases) out.push_back(&phase);
  return out;
}

std::string joined(const std::vector<std::string>& texts, std::string_view separator) {
  std::string out;
  for (const std::string& text : texts) {
    if (text.empty()) continue;
    if (!out.empty()) out += separator;
    out += text;
  }
  return out;
}

std::string presentation_text(const Presentation& presentation, Units units) {
  return one_line(fmt::format("{}, {} to {} down{}{}", presentation.lure, length_text(presentation.run_from, units),
                              length_text(presentation.run_to, units), presentation.retrieve.empty() ? "" : ", ",
                              presentation.retrieve));
}

PrintedCast printed_cast(const Plan& plan, const Spot& spot) {
  PrintedCast out{printed(plan.lake->projection.to_lonlat(spot.boat)),
                  printed(plan.lake->projection.to_lonlat(spot.target)), 0.0, 0.0};
  const Geodesic way = geodesic(lonlat(out.boat), lonlat(out.target));
  out.bearing_deg = rounded_bearing(way.bearing.value(), 1);
  out.cast_m = way.distance.value();
  return out;
}

double printed_score(const Spot& spot) {
  double product = 1.0;
  bool near_zero = false;
  for (const Reason& reason : spot.why) {
    near_zero = near_zero || reason.suitability < 0.01;
    product *= std::pow(four_decimals(reason.suitability), four_decimals(reason.weight));
  }
  return near_zero ? product : spot.score;
}

CastGoes cast_goes(const Spot& spot) {
  const double rise = spot.boat_depth.value() - spot.target_depth.value();
  if (!std::isfinite(rise)) return CastGoes::unknown;
  return rise > 0.25 ? CastGoes::shallower : rise < -0.25 ? CastGoes::deeper : CastGoes::level;
}

}  // namespace castplan
