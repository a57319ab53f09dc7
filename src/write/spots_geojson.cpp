// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/carried.hpp"
#include "write/collection.hpp"
#include "write/plain_text.hpp"

namespace castplan {
namespace {

void write_texts(JsonText& json, std::string_view name, const std::vector<std::string>& list) {
  json.key(name).begin_array();
  for (const std::string& text : list) json.text(text);
  json.end_array();
}

void write_why(JsonText& json, const std::vector<Reason>& why) {
  json.key("why").begin_array();
  for (const Reason& reason : why) {
    json.begin_object().key("factor").text(reason.factor);
    json.key("value").number(reason.value, value_decimals(reason.unit)).key("unit").text(reason.unit);
    json.key("suitability").number(reason.suitability, 4).key("weight").number(reason.weight, 4);
    json.key("source").text(reason.source).end_object();
  }
  json.end_array();
}

void write_presentations(JsonText& json, const std::vector<Presentation>& presentations) {
  json.key("presentations").begin_array();
  for (const Presentation& one : presentations) {
    json.begin_object().key("lure").text(one.lure).key("run_depth_m").begin_array();
    json.number(one.run_from.value(), 2).number(one.run_to.value(), 2).end_array();
    json.key("retrieve").text(one.retrieve).end_object();
  }
  json.end_array();
}

void write_cast(JsonText& json, const Spot& spot, const PrintedCast& cast) {
  json.key("boat_depth_m").number(spot.boat_depth.value(), 2);
  json.key("hold").text(spot.hold);
  json.key("approach_deg").number(rounded_bearing(spot.approach.value(), 1), 1);
  json.key("target");
  write_place(json, cast.target);
  json.key("bearing_deg").number(cast.bearing_deg, 1);
  json.key("cast_m").number(cast.cast_m, 2);
  json.key("strike_m").begin_array().number(spot.strike.first.value(), 2).number(spot.strike.second.value(), 2);
  json.end_array().key("target_depth_m").number(spot.target_depth.value(), 2);
}

void write_spot(Collection& collection, const Plan& plan, const Spot& spot) {
  const PrintedCast cast = printed_cast(plan, spot);
  JsonText& json = collection.begin_feature(spot.id, MicroPath{cast.boat});
  json.key("kind").text("spot").key("phase").text(spot.phase).key("rank").integer(spot.rank);
  json.key("rank_low").integer(spot.rank_low).key("rank_high").integer(spot.rank_high);
  json.key("score").number(printed_score(spot), 4);
  write_cast(json, spot, cast);
  json.key("kinds").begin_array();
  for (const Kind kind : spot.kinds) json.text(name_of(kind));
  json.end_array();
  write_texts(json, "feature_ids", spot.feature_ids);
  write_why(json, spot.why);
  write_texts(json, "not_assessed", spot.not_assessed);
  write_presentations(json, spot.presentations);
  json.key("casts").integer(spot.casts).key("minutes").number(spot.minutes, 1);
  write_texts(json, "cautions", spot_cautions(plan, spot));
  json.key("reason").text(spot.reason_words);
  collection.end_feature();
}

}  // namespace

std::string spots_geojson(const Plan& plan) {
  Collection collection(plan);
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    for (const Spot& spot : phase->spots) write_spot(collection, plan, spot);
  }
  return collection.text();
}

}  // namespace castplan
