// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/comparison_json.hpp"

#include "write/json_lists.hpp"

namespace castplan {
namespace {

void write_side(JsonText& json, std::string_view name, const Comparison::Side& side) {
  json.key(name).begin_object().key("given").text(side.text);
  json.key("date");
  side.date.empty() ? json.null() : json.text(side.date);
  json.key("water_temp_c");
  side.water_temp ? json.number(side.water_temp->value(), 2) : json.null();
  write_texts(json, "phases", side.phases);
  json.key("advisory").begin_object().key("level").text(name_of(side.advisory.level));
  write_texts(json, "reasons", side.advisory.reasons);
  json.key("overridden").boolean(side.advisory.overridden).end_object();
  json.end_object();
}

void write_standing(JsonText& json, std::string_view name, const std::optional<Standing>& standing, const Lake& lake) {
  json.key(name);
  if (!standing) {
    json.null();
    return;
  }
  const LonLat boat = lake.projection.to_lonlat(standing->boat);
  json.begin_object().key("id").text(standing->id).key("rank").integer(standing->rank);
  json.key("rank_low").integer(standing->rank_low).key("rank_high").integer(standing->rank_high);
  json.key("score").number(standing->score, 4);
  json.key("boat").begin_array().number(boat.lon.degrees, 6).number(boat.lat.degrees, 6).end_array();
  json.end_object();
}

}  // namespace

void write_comparison(JsonText& json, const Plan& plan) {
  const Comparison& all = *plan.comparison;
  json.key("compare").begin_object().key("kind").text(all.kind);
  write_side(json, "a", all.a);
  write_side(json, "b", all.b);
  json.key("same_place_m").number(kSamePlace.value(), 2);
  write_texts(json, "words", all.words);
  json.key("phases").begin_array();
  for (const Comparison::OfPhase& phase : all.phases) {
    json.begin_object().key("a").text(phase.before).key("b").text(phase.after).key("spots").begin_array();
    for (const SpotChange& change : phase.changes) {
      json.begin_object().key("fate").text(name_of(change.fate));
      write_standing(json, "a", change.before, *plan.lake);
      write_standing(json, "b", change.after, *plan.lake);
      json.key("within_doubt").boolean(change.within_doubt).key("reason").text(change.reason_words).end_object();
    }
    json.end_array().end_object();
  }
  json.end_array().end_object();
}

}  // namespace castplan
