// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "castplan/write/plain_text.hpp"
#include "publish/public_lake.hpp"

namespace castplan {
namespace {

/// What a spot may not name.
struct Guarded {
  std::set<std::string> ids;
  std::set<std::string> kinds;  ///< of these none leaves
  bool by_people = false;       ///< some were placed or seen by people: reasons that lean on them do not leave
};

Guarded guarded_in(const Json& features) {
  Guarded out;
  std::set<std::string> shown;
  for (const Json& feature : features.at("features")) {
    const std::string kind = text_in(feature["properties"], "kind");
    if (leaves(feature, true) == Leaves::shape) {
      shown.insert(kind);
      continue;
    }
    out.ids.insert(text_in(feature["properties"], "id"));
    out.kinds.insert(kind);
    if (kind_of(feature) != Kind::spawning_ground) out.by_people = true;
  }
  for (const std::string& kind : shown) out.kinds.erase(kind);
  return out;
}

Json without(const Json& texts, const std::set<std::string>& taken) {
  Json out = Json::array();
  for (const Json& text : texts) {
    if (!taken.contains(text.get<std::string>())) out.push_back(text);
  }
  return out;
}

// Its target may be the very place: then no part of it may leave.
bool casts_at_guarded(const Json& known, const Json& features, const Guarded& guarded) {
  const std::vector<std::string> ids = texts_in(known, "feature_ids");
  for (const Json& feature : features.at("features")) {
    const std::string id = text_in(feature["properties"], "id");
    const auto kind = kind_of(feature);
    const bool placed = kind && *kind != Kind::weed_line && *kind != Kind::weeds && *kind != Kind::spawning_ground;
    if (placed && guarded.ids.contains(id) && std::find(ids.begin(), ids.end(), id) != ids.end()) return true;
  }
  return false;
}

// Distances to cover, and sentences that name it, would lead to it from a few spots.
std::string reprinted(Json feature, const Guarded& guarded) {
  Json& known = feature["properties"];
  if (known.contains("feature_ids")) known["feature_ids"] = without(known["feature_ids"], guarded.ids);
  if (known.contains("kinds")) known["kinds"] = without(known["kinds"], guarded.kinds);
  if (guarded.by_people) {
    for (const char* key : {"why", "reason", "not_assessed"}) known.erase(key);
  }
  return feature.dump();
}

std::string lures_text(const Json& known) {
  std::string out;
  for (const Json& lure : known.value("presentations", Json::array())) {
    const std::string name = one_line(text_in(lure, "lure"));
    out += (out.empty() ? "" : "; ") + name;
  }
  return out;
}

ExactSpot exact_spot(const Json& feature, const Guarded& guarded) {
  const Json& known = feature["properties"];
  ExactSpot out;
  out.phase = text_in(known, "phase");
  out.rank = known.at("rank").get<int>();
  out.boat = place_of(feature.at("geometry").at("coordinates"));
  out.target = place_of(known.at("target"));
  out.hold = one_line(text_in(known, "hold"));
  out.lures = lures_text(known);
  if (!guarded.by_people) out.reason = text_in(known, "reason");
  out.boat_depth_m = known.at("boat_depth_m").get<double>();
  out.target_depth_m = known.at("target_depth_m").get<double>();
  out.bearing_deg = known.at("bearing_deg").get<double>();
  out.cast_m = known.at("cast_m").get<double>();
  out.cautions = texts_in(known, "cautions");
  out.json = reprinted(feature, guarded);
  return out;
}

ExactPass exact_pass(const Json& feature, const Guarded& guarded) {
  const Json& known = feature["properties"];
  ExactPass out;
  out.phase = text_in(known, "phase");
  out.rank = known.at("rank").get<int>();
  out.side = text_in(known, "cast_side");
  out.length_m = known.at("length_m").get<double>();
  const Geometry shape = degrees_of(feature.at("geometry"));
  if (const auto* lines = std::get_if<Lines>(&shape)) out.lane = *lines;
  out.cautions = texts_in(known, "cautions");
  out.json = reprinted(feature, guarded);
  return out;
}

}  // namespace

ExactPlaces exact_places(const Scouted& scouted, bool small) {
  ExactPlaces out;
  if (small || scouted.stopped()) return out;
  const Guarded guarded = guarded_in(scouted.features);
  for (const Json& spot : scouted.spots["features"]) {
    if (casts_at_guarded(spot["properties"], scouted.features, guarded)) {
      ++out.left_out;
    } else {
      out.spots.push_back(exact_spot(spot, guarded));
    }
  }
  for (const Json& pass : scouted.passes["features"]) {
    if (casts_at_guarded(pass["properties"], scouted.features, guarded)) {
      ++out.left_out;
    } else {
      out.passes.push_back(exact_pass(pass, guarded));
    }
  }
  return out;
}

}  // namespace castplan
