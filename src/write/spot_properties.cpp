// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/json_lists.hpp"
#include "write/plain_text.hpp"
#include "write/properties.hpp"

namespace castplan {
namespace {

void put_cast(PropertySink& sink, const Spot& spot, const PrintedCast& cast) {
  sink.number("boat_depth_m", spot.boat_depth.value(), 2);
  sink.text("hold", spot.hold);
  sink.number("approach_deg", rounded_bearing(spot.approach.value(), 1), 1);
  JsonText target(JsonText::Lines::one);
  write_place(target, cast.target);
  sink.list("target", target.str());
  sink.number("bearing_deg", cast.bearing_deg, 1);
  sink.number("cast_m", cast.cast_m, 2);
  sink.list("strike_m", range_list(spot.strike));
  sink.number("target_depth_m", spot.target_depth.value(), 2);
}

}  // namespace

void JsonSink::number(std::string_view name, std::optional<double> value, int decimals) {
  json_.key(name);
  value ? json_.number(*value, decimals) : json_.null();
}

void put_properties(PropertySink& sink, const Plan& plan, const Spot& spot, const PrintedCast& cast) {
  sink.text("kind", "spot");
  sink.text("phase", spot.phase);
  sink.integer("rank", spot.rank);
  sink.integer("rank_low", spot.rank_low);
  sink.integer("rank_high", spot.rank_high);
  sink.number("score", printed_score(spot), 4);
  put_cast(sink, spot, cast);
  sink.list("kinds", kind_list(spot.kinds));
  sink.list("feature_ids", text_list(spot.feature_ids));
  sink.list("why", why_list(spot.why));
  sink.list("not_assessed", text_list(spot.not_assessed));
  sink.list("presentations", presentation_list(spot.presentations));
  sink.integer("casts", spot.casts);
  sink.number("minutes", spot.minutes, 1);
  sink.list("cautions", text_list(spot_cautions(plan, spot)));
  sink.text("reason", spot.reason_words);
}

void put_properties(PropertySink& sink, const Plan& plan, const Pass& pass) {
  sink.text("kind", "pass");
  sink.text("phase", pass.phase);
  sink.integer("rank", pass.rank);
  sink.number("score", pass.score, 4);
  sink.number("confidence", pass.confidence, 4);
  sink.list("why", why_list(pass.why));
  sink.list("not_assessed", text_list(pass.not_assessed));
  sink.number("length_m", pass.length.value(), 2);
  sink.number("heading_deg", rounded_bearing(pass.heading.value(), 1), 1);
  sink.integer("casts", pass.casts);
  sink.number("minutes", pass.minutes, 1);
  sink.text("cast_side", name_of(pass.cast_side));
  sink.list("cast_m", range_list(pass.cast));
  sink.list("boat_depth_m", range_list(pass.boat_depth));
  sink.list("target_depth_m", range_list(pass.target_depth));
  sink.boolean("open_water", pass.open_water);
  sink.list("kinds", kind_list(pass.kinds));
  sink.list("feature_ids", text_list(pass.feature_ids));
  sink.list("presentations", presentation_list(pass.presentations));
  sink.list("cautions", text_list(pass_cautions(plan, pass)));
  sink.text("reason", pass.reason_words);
}

}  // namespace castplan
