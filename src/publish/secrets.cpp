// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/secrets.hpp"

#include <fmt/format.h>

namespace castplan {
namespace {

void add_place(Secrets& secrets, LonLat at, const std::string& what, bool alone) {
  secrets.places.push_back({at, what, alone});
}

void add_id(Secrets& secrets, const Json& feature, const std::string& what) {
  const std::string id = text_in(feature["properties"], "id");
  if (!id.empty()) secrets.texts.push_back({id, "the id of " + what});
}

void add_spots(Secrets& secrets, const Scouted& scouted) {
  for (const Json& spot : scouted.spots["features"]) {
    add_id(secrets, spot, "a spot");
    for (const LonLat at : places_of(spot["geometry"])) add_place(secrets, at, "a spot", true);
    if (const auto target = spot["properties"].find("target"); target != spot["properties"].end()) {
      add_place(secrets, place_of(*target), "a target", true);
    }
  }
  for (const Json& pass : scouted.passes["features"]) {
    add_id(secrets, pass, "a pass");
    for (const LonLat at : places_of(pass["geometry"])) add_place(secrets, at, "a pass", false);
  }
}

void add_guarded(Secrets& secrets, const Scouted& scouted, bool exact) {
  for (const Json& feature : scouted.features["features"]) {
    if (leaves(feature, exact) == Leaves::shape) continue;
    const std::string what = fmt::format("a feature that does not leave ({})", text_in(feature["properties"], "kind"));
    add_id(secrets, feature, what);
    for (const LonLat at : places_of(feature["geometry"])) add_place(secrets, at, what, false);
  }
}

}  // namespace

Secrets secrets_of(const Scouted& scouted, bool exact) {
  Secrets out;
  for (const Json& input : scouted.summary["provenance"].value("inputs", Json::array())) {
    const std::string hash = text_in(input, "sha256");
    if (hash.size() >= 16) out.texts.push_back({hash, "the hash of an input"});
  }
  if (!exact) add_spots(out, scouted);
  add_guarded(out, scouted, exact);
  return out;
}

}  // namespace castplan
