// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <map>

#include "write/carried.hpp"
#include "write/comparison_json.hpp"
#include "write/json_lists.hpp"
#include "write/plain_text.hpp"
#include "write/summary.hpp"

namespace castplan {
namespace {

constexpr int kSchema = 1;

void text_or_null(JsonText& json, std::string_view name, const std::string& text) {
  json.key(name);
  text.empty() ? json.null() : json.text(text);
}

void metres(JsonText& json, std::string_view name, std::optional<Metres> value) {
  json.key(name);
  value ? json.number(value->value(), 2) : json.null();
}

void write_lake(JsonText& json, const Plan& plan) {
  const Lake& lake = *plan.lake;
  json.key("lake").begin_object().key("name").text(plan.lake_name);
  json.key("area_m2").number(lake.area.value(), 1);
  metres(json, "max_depth_m", lake.max_depth);
  metres(json, "mean_depth_m", lake.mean_depth);
  json.key("volume_m3").number(lake.volume.value(), 1);
  metres(json, "shoreline_m", lake.shoreline);
  json.key("shoreline_development").number(lake.shoreline_development, 4);
  json.key("water_bodies").integer(static_cast<long long>(lake.bodies.size()));
  metres(json, "depth_error_m", lake.depth_error);
  json.key("depth_error_known").boolean(lake.depth_error_known);
  json.key("cut_share").number(lake.cut_share, 4);
  json.end_object();
}

void write_conditions(JsonText& json, const Plan& plan) {
  const SeasonAnswer& season = plan.season;
  json.key("conditions").begin_object();
  text_or_null(json, "date", plan.date);
  text_or_null(json, "species", plan.profile ? plan.profile->name : "");
  json.key("phases").begin_array();
  for (const Phase* phase : season.phases) json.text(phase->name);
  json.end_array();
  json.key("water_temp_c");
  season.water_temp ? json.number(season.water_temp->value(), 2) : json.null();
  text_or_null(json, "water_temp_source", season.water_temp_source);
  text_or_null(json, "trend", !season.trend ? "" : *season.trend == Trend::rising ? "rising" : "falling");
  metres(json, "secchi_m", plan.secchi);
  json.key("weed_depth_m");
  plan.weed_depth ? json.number(plan.weed_depth->expected.value(), 2) : json.null();
  json.key("weed_depth_range_m");
  if (plan.weed_depth) {
    json.begin_array().number(plan.weed_depth->low.value(), 2).number(plan.weed_depth->high.value(), 2).end_array();
  } else {
    json.null();
  }
  metres(json, "deepest_plant_m", plan.weed_depth ? plan.weed_depth->deepest : std::nullopt);
  text_or_null(json, "weed_depth_source", plan.weed_source);
  text_or_null(json, "weed_stage", plan.weed_stage);
  const auto& thermocline = plan.layers.thermocline;
  metres(json, "thermocline_m", thermocline ? std::optional(thermocline->expected) : std::nullopt);
  json.key("thermocline_range_m");
  if (thermocline) {
    json.begin_array().number(thermocline->low.value(), 2).number(thermocline->high.value(), 2).end_array();
  } else {
    json.null();
  }
  text_or_null(json, "thermocline_source", plan.layers.source);
  text_or_null(json, "mixing", plan.layers.mixing ? std::string(name_of(*plan.layers.mixing)) : "");
  text_or_null(json, "sun", plan.sun_text);
  text_or_null(json, "moon", plan.moon_text);
  text_or_null(json, "wind", plan.wind_text);
  json.end_object();
}

void write_advisory(JsonText& json, const Plan& plan) {
  const Advisory& advisory = plan.season.advisory;
  json.key("advisory").begin_object().key("level").text(name_of(advisory.level));
  write_texts(json, "reasons", advisory.reasons);
  json.key("overridden").boolean(advisory.overridden);
  text_or_null(json, "override_reason", advisory.overridden ? override_reason(plan) : "");
  json.end_object();
}

// The rates are printed to two figures: surveys differ by a factor of ten.
void write_odds(JsonText& json, const Plan& plan) {
  json.key("odds");
  if (plan.odds_text.empty()) {
    json.null();
    return;
  }
  json.begin_object().key("text").text(plan.odds_text);
  if (plan.odds) {
    json.key("words").text(plan.odds->words);
    json.key("angler_hours").number(plan.odds->hours, 0);
    json.key("fish_per_angler_hour").number(plan.odds->rate, 3);
    json.key("fish_per_angler_hour_range").begin_array();
    json.number(plan.odds->rate_low, 3).number(plan.odds->rate_high, 3).end_array();
  }
  json.end_object();
}

void write_scales(JsonText& json, const Plan& plan) {
  if (!plan.scales) return;
  json.key("scales").begin_object();
  metres(json, "drop_offs_m", plan.scales->breaks);
  metres(json, "flats_and_channels_m", plan.scales->forms);
  metres(json, "points_and_turns_m", plan.scales->bends);
  metres(json, "noise_m", plan.scales->noise);
  metres(json, "against_noise_m", plan.scales->quiet);
  json.end_object();
}

void write_counts(JsonText& json, const Plan& plan) {
  json.key("counts").begin_object();
  for (const KindRow& row : kinds()) {
    const auto count = std::count_if(plan.features.begin(), plan.features.end(),
                                     [&](const Feature& feature) { return feature.kind == row.kind; });
    json.key(row.name).integer(count);
  }
  std::size_t spots = 0, passes = 0;
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    spots += phase->spots.size();
    passes += phase->passes.size();
  }
  json.key("spot").integer(static_cast<long long>(spots));
  json.key("pass").integer(static_cast<long long>(passes)).end_object();
}

void write_phases(JsonText& json, const Plan& plan) {
  json.key("phase_notes").begin_array();
  for (const PhaseSpots& phase : plan.phases) {
    json.begin_object();
    json.key("phase").text(phase.phase->name);
    json.key("temperatures").text(phase_range_text(*phase.phase));
    json.key("spots").integer(plan.season.no_spots ? 0 : static_cast<long long>(phase.spots.size()));
    json.key("passes").integer(plan.season.no_spots ? 0 : static_cast<long long>(phase.passes.size()));
    text_or_null(json, "why_none", phase.why_none);
    write_texts(json, "order", order_words(phase.order));
    write_texts(json, "shelter", shelter_words(phase.shelter, plan.units));
    json.end_object();
  }
  json.end_array();
}

void write_warning(JsonText& json, std::string_view code, const std::string& text) {
  json.begin_object().key("code").text(code).key("text").text(text).end_object();
}

// What a program should look at first, in one list; the same texts stand in the members that they belong to.
void write_warnings(JsonText& json, const Plan& plan) {
  const Advisory& advisory = plan.season.advisory;
  json.key("warnings").begin_array();
  if (advisory.level != AdvisoryLevel::none) {
    for (const std::string& reason : advisory.reasons) write_warning(json, name_of(advisory.level), reason);
  }
  for (const std::string& note : plan.notes) write_warning(json, "note", note);
  for (const std::string& layer : plan.not_assessed) {
    write_warning(json, "not-assessed", layer + ": nothing was given, which does not mean that there is none");
  }
  json.end_array();
}

void write_rules(JsonText& json, const Plan& plan) {
  json.key("rules");
  if (plan.rules_text.empty()) {
    json.null();
    return;
  }
  json.begin_object().key("text").text(plan.rules_text);
  text_or_null(json, "source", plan.rules_source);
  text_or_null(json, "checked", plan.rules_checked);
  json.end_object();
}

void write_provenance(JsonText& json, const Plan& plan) {
  json.key("provenance").begin_object().key("version").text(version());
  json.key("inputs").begin_array();
  for (const Plan::Input& input : plan.inputs) {
    // a name, never a path, whatever the reader handed over
    json.begin_object()
        .key("name")
        .text(input.name.substr(input.name.find_last_of('/') + 1))
        .key("sha256")
        .text(input.sha256)
        .end_object();
  }
  json.end_array();
  // an option given more than once stands once, so that no name comes twice in an object
  std::map<std::string, std::string> options;
  for (const auto& [name, value] : plan.options) {
    std::string& all = options[name];
    all += (all.empty() ? "" : ", ") + value;
  }
  json.key("options").begin_object();
  for (const auto& [name, value] : options) json.key(name).text(value);
  json.end_object();
  text_or_null(json, "profile", plan.profile ? plan.profile->name : "");
  json.end_object();
}

}  // namespace

void write_summary(JsonText& json, const Plan& plan) {
  json.begin_object().key("schema").integer(kSchema);
  write_lake(json, plan);
  write_conditions(json, plan);
  write_advisory(json, plan);
  write_odds(json, plan);
  write_counts(json, plan);
  write_scales(json, plan);
  write_phases(json, plan);
  write_texts(json, "cautions", carried_cautions(plan));
  text_or_null(json, "temperatures", temperatures_text(plan, nullptr));
  text_or_null(json, "surface", plan.surface_text);
  text_or_null(json, "source", plan.source);
  text_or_null(json, "licence", plan.licence);
  text_or_null(json, "surveyed", plan.surveyed);
  write_rules(json, plan);
  if (plan.comparison) write_comparison(json, plan);
  write_texts(json, "notes", plan.notes);
  write_texts(json, "not_assessed", plan.not_assessed);
  write_warnings(json, plan);
  write_texts(json, "unverified", plan.profile ? plan.profile->unverified : std::vector<std::string>{});
  write_provenance(json, plan);
  json.end_object();
}

std::string summary_json(const Plan& plan) {
  JsonText json;
  write_summary(json, plan);
  return json.str() + "\n";
}

}  // namespace castplan
