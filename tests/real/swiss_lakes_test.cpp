// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// 54 Swiss lakes: lake table of Simstrat-WorkflowModellingSwissLakes, Eawag (MIT). See README.md.
#include <catch2/catch.hpp>
#include <numbers>

#include "real/real_lakes.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() { return folder("swiss-lakes", {"shorelines.shp"}); }

}  // namespace

TEST_CASE("Swiss lakes: 54 shorelines, their areas and their development") {
  const auto data = lake_data();
  if (!data) return;
  const Projection lv95 = Projection::from_text("EPSG:2056");
  const auto records = read_vector({*data + "/shorelines.shp", "", ""}, lv95);
  CHECK(records.size() == 54);

  int with_area = 0, below = 0, near_below = 0;
  double roundest = 1e9, least_round = 0;
  for (const Record& record : records) {
    const auto& polygons = std::get<Polygons>(record.geometry);
    REQUIRE(!polygons.empty());
    for (const Polygon& polygon : polygons) {
      // a circle has the shortest outline for its area (isoperimetric inequality)
      const double inside = signed_area(polygon.outer).value();
      REQUIRE(inside > 0);  // outer rings run anticlockwise
      const double development = length(polygon.outer).value() / (2.0 * std::sqrt(std::numbers::pi * inside));
      CHECK(development >= 1.0);
      roundest = std::min(roundest, development);
      least_round = std::max(least_round, development);
    }
    if (record.attributes.count("area_km2") == 0) continue;
    const double published = std::stod(record.attributes.at("area_km2"));
    if (published <= 0) continue;
    ++with_area;
    const double off =
        percent_off("Swiss lakes: " + record.attributes.at("name"), published, area(polygons).value() / 1e6, "km2");
    if (off < 0.0) ++below;
    if (off <= -2.0 && off >= -10.0) ++near_below;
  }
  note("Swiss lakes: {} of {} areas lie below the published one, {} of them by 2 to 10 %; development {:.3f} to {:.3f}",
       below, with_area, near_below, roundest, least_round);
  CHECK(with_area == 54);
  // The outlines are coarse, "2-10 % below the published area for most lakes" (data folder's README): most is over
  // half.
  CHECK(2 * near_below > with_area);
}
