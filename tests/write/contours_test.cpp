// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <nlohmann/json.hpp>
#include <set>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"

using namespace castplan;
using nlohmann::json;

namespace {

XY on_plane(const Plan& plan, const json& at) {
  return plan.lake->projection.from_lonlat({Longitude{at[0].get<double>()}, Latitude{at[1].get<double>()}});
}

void each_place(const json& geometry, const std::function<void(const json&)>& look) {
  const std::function<void(const json&)> walk = [&](const json& part) {
    if (part[0].is_number()) return look(part);
    for (const json& inner : part) walk(inner);
  };
  walk(geometry["coordinates"]);
}

}  // namespace

// The bowl's line of depth d is a circle of radius R sqrt(1 - d / 6): closed form. Cells are 10 m and lines straight
// between their centres, so that a metre of radius is near enough.
TEST_CASE("contours lie where the closed form has them, and carry their depth") {
  const Plan plan = sample::plan();
  const json all = json::parse(contours_geojson(plan));
  CHECK(all["type"] == "FeatureCollection");
  CHECK(all["metadata"] == json::parse(summary_json(plan)));
  std::set<double> depths;
  for (const json& feature : all["features"]) {
    const double depth = feature["properties"]["depth_m"];
    INFO(feature["id"]);
    CHECK(depths.insert(depth).second);
    CHECK(feature["properties"]["kind"] == (depth == 0.0 ? "shoreline" : "contour"));
    const double wanted = sample::kRadius * std::sqrt(1.0 - depth / sample::kDepth);
    each_place(feature["geometry"], [&](const json& at) {
      const XY place = on_plane(plan, at);
      CHECK(std::hypot(place.x, place.y) == Approx(wanted).margin(1.5));
    });
  }
  // whole metres: half a metre would make more than eleven lines
  CHECK(depths == std::set<double>{0, 1, 2, 3, 4, 5});
}

TEST_CASE("contours hold no spot, and no spot moves a line") {
  Plan plan = sample::plan();
  const json before = json::parse(contours_geojson(plan))["features"];
  plan.phases[0].spots[0].boat = {900.0, 900.0};
  CHECK(json::parse(contours_geojson(plan))["features"] == before);
  const std::string text = before.dump();
  CHECK(text.find("spot") == std::string::npos);
}
