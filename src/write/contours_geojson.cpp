// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "castplan/geo/planar.hpp"
#include "write/collection.hpp"
#include "write/depth_picture.hpp"

namespace castplan {
namespace {

void write_shape(Collection& collection, std::string_view kind, double depth_m, const std::string& name,
                 const GroundShape& shape) {
  if (is_empty(shape)) return;
  JsonText& json = collection.begin_feature(name, shape);
  json.key("kind").text(kind);
  json.key("name").text(name);
  json.key("depth_m").number(depth_m, 2);
  collection.end_feature();
}

}  // namespace

std::string contours_geojson(const Plan& plan) {
  const Lake& lake = *plan.lake;
  // of the lake alone, so that no spot moves a line
  const MapView view = view_of(lake, {});
  Collection collection(plan);
  write_shape(collection, "shoreline", 0.0, "shoreline",
              ground_shape(simplified(lake.outline, view.pixel()), lake.projection));
  const std::vector<Contour> contours = depth_contours(lake, view, Units::metric);
  for (std::size_t at = 0; at < contours.size();) {
    const double depth = contours[at].in_unit;
    Lines lines;
    for (; at < contours.size() && contours[at].in_unit == depth; ++at) {
      lines.push_back(simplified(contours[at].line, view.pixel()));
    }
    write_shape(collection, "contour", depth, fmt::format("{} m", depth), ground_shape(lines, lake.projection));
  }
  return collection.text();
}

}  // namespace castplan
