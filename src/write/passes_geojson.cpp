// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/carried.hpp"
#include "write/collection.hpp"
#include "write/plain_text.hpp"
#include "write/why_json.hpp"

namespace castplan {
namespace {

void write_pass(Collection& collection, const Plan& plan, const Pass& pass) {
  JsonText& json = collection.begin_feature(pass.id, ground_shape(Lines{pass.lane}, plan.lake->projection));
  json.key("kind").text("pass").key("phase").text(pass.phase).key("rank").integer(pass.rank);
  json.key("score").number(pass.score, 4).key("confidence").number(pass.confidence, 4);
  write_why(json, pass.why);
  write_texts(json, "not_assessed", pass.not_assessed);
  json.key("length_m").number(pass.length.value(), 2);
  json.key("heading_deg").number(rounded_bearing(pass.heading.value(), 1), 1);
  json.key("casts").integer(pass.casts).key("minutes").number(pass.minutes, 1);
  json.key("cast_side").text(name_of(pass.cast_side));
  write_range(json, "cast_m", pass.cast);
  write_range(json, "boat_depth_m", pass.boat_depth);
  write_range(json, "target_depth_m", pass.target_depth);
  json.key("open_water").boolean(pass.open_water);
  write_kinds(json, pass.kinds);
  write_texts(json, "feature_ids", pass.feature_ids);
  write_presentations(json, pass.presentations);
  write_texts(json, "cautions", pass_cautions(plan, pass));
  json.key("reason").text(pass.reason_words);
  collection.end_feature();
}

}  // namespace

std::string passes_geojson(const Plan& plan) {
  Collection collection(plan);
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    for (const Pass& pass : phase->passes) write_pass(collection, plan, pass);
  }
  return collection.text();
}

}  // namespace castplan
