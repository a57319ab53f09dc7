// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/carried.hpp"
#include "write/collection.hpp"
#include "write/plain_text.hpp"
#include "write/why_json.hpp"

namespace castplan {
namespace {

void write_cast(JsonText& json, const Spot& spot, const PrintedCast& cast) {
  json.key("boat_depth_m").number(spot.boat_depth.value(), 2);
  json.key("hold").text(spot.hold);
  json.key("approach_deg").number(rounded_bearing(spot.approach.value(), 1), 1);
  json.key("target");
  write_place(json, cast.target);
  json.key("bearing_deg").number(cast.bearing_deg, 1);
  json.key("cast_m").number(cast.cast_m, 2);
  write_range(json, "strike_m", spot.strike);
  json.key("target_depth_m").number(spot.target_depth.value(), 2);
}

void write_spot(Collection& collection, const Plan& plan, const Spot& spot) {
  const PrintedCast cast = printed_cast(plan, spot);
  JsonText& json = collection.begin_feature(spot.id, MicroPath{cast.boat});
  json.key("kind").text("spot").key("phase").text(spot.phase).key("rank").integer(spot.rank);
  json.key("rank_low").integer(spot.rank_low).key("rank_high").integer(spot.rank_high);
  json.key("score").number(printed_score(spot), 4);
  write_cast(json, spot, cast);
  write_kinds(json, spot.kinds);
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
