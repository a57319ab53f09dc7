// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <map>
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
  std::map<std::string, std::set<double>> depths;
  for (const json& feature : all["features"]) {
    const double depth = feature["properties"]["depth_m"];
    INFO(feature["id"]);
    const std::string kind = feature["properties"]["kind"];
    CHECK(depths[kind].insert(depth).second);
    const double wanted = sample::kRadius * std::sqrt(1.0 - depth / sample::kDepth);
    each_place(feature["geometry"], [&](const json& at) {
      const XY place = on_plane(plan, at);
      CHECK(std::hypot(place.x, place.y) == Approx(wanted).margin(1.5));
    });
  }
  // whole metres: half a metre would make more than eleven lines
  CHECK(depths["shoreline"] == std::set<double>{0});
  CHECK(depths["contour"] == std::set<double>{1, 2, 3, 4, 5});
  CHECK(depths["depth-area"] == depths["contour"]);
}

// A lake whose survey ends in deep water: its lines are open there, its areas are not.
TEST_CASE("areas are whole where a survey ends, and a shoal is cut out of them") {
  Plan plan = sample::plan();
  Lake lake = *plan.lake;
  for (std::size_t at = 0; at < lake.depth.size(); ++at) {
    const XY place = lake.depth.frame().centre(lake.depth.cell_of(at));
    if (place.x > 100.0) {
      lake.depth[at] = Metres32(NAN);
      lake.cover[at] = Cover::unknown;
    }
    if (std::hypot(place.x + 60.0, place.y) < 40.0) lake.depth[at] = Metres32(1.0F);
  }
  plan.lake = &lake;
  const json all = json::parse(contours_geojson(plan))["features"];
  std::size_t looked_at = 0;
  for (const json& feature : all) {
    if (feature["id"] != "depth-area-3m") continue;
    ++looked_at;
    // half of the bowl and a third: the circle of 3 m has the radius R sqrt(1/2), cut at x = 100
    const double radius = sample::kRadius * std::sqrt(0.5), cut = 100.0;
    const double segment = radius * radius * std::acos(cut / radius) - cut * std::sqrt(radius * radius - cut * cut);
    const double wanted = M_PI * (radius * radius - 40.0 * 40.0) - segment;
    REQUIRE(feature["geometry"]["type"] == "Polygon");
    double sum = 0.0;
    for (const json& ring : feature["geometry"]["coordinates"]) {
      for (std::size_t i = 1; i < ring.size(); ++i)
        sum += cross(on_plane(plan, ring[i - 1]), on_plane(plan, ring[i])) / 2;
    }
    CHECK(sum == Approx(wanted).epsilon(0.03));
  }
  CHECK(looked_at == 1);
}

TEST_CASE("contours hold no spot, and no spot moves a line") {
  Plan plan = sample::plan();
  const json before = json::parse(contours_geojson(plan))["features"];
  plan.phases[0].spots[0].boat = {900.0, 900.0};
  CHECK(json::parse(contours_geojson(plan))["features"] == before);
  const std::string text = before.dump();
  CHECK(text.find("spot") == std::string::npos);
}
