// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Cootes Paradise, Ontario, a marsh: Fisheries and Oceans Canada, doi 10.5281/zenodo.18675473 (MIT). See README.md.
#include <catch2/catch.hpp>

#include "castplan/geo/planar.hpp"
#include "real/real_lakes.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() { return folder("cootes-paradise-marsh-on", {"emergent_marsh.shp"}); }

}  // namespace

TEST_CASE("Cootes Paradise: a marsh with hundreds of holes and touching rings is read and made valid") {
  const auto data = lake_data();
  if (!data) return;
  const Projection utm = Projection::from_text("EPSG:26917");
  const VectorOptions file{*data + "/emergent_marsh.shp", "", ""};
  const auto records = read_vector(file, utm);
  REQUIRE(records.size() == 1);
  CHECK(records[0].attributes.at("COMMUNITY1") == "Meadow Marsh");

  const Polygons marsh = read_polygons(file, utm);
  std::size_t holes = 0;
  for (const Polygon& polygon : marsh) holes += polygon.holes.size();
  note("Cootes Paradise: {} polygons, {} holes", marsh.size(), holes);
  CHECK(invalidity(marsh).empty());
  // four parts, the largest with 647 holes (data folder's README); rings that touch come apart as more holes
  CHECK(marsh.size() == 4);
  CHECK(holes >= 647);
  // by the coordinates, with other software (data folder's README); the file's own Shape_Area is wrong
  CHECK(std::abs(percent_off("Cootes Paradise: marsh", 264.97, area(marsh).value() / 1e4, "ha")) <= 0.5);
}
