// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "write/collection.hpp"
#include "write/depth_picture.hpp"

namespace castplan {
namespace {

constexpr double kLeastPixels = 40.0;  // pixels of the depth picture: smaller areas are specks

void write_shape(Collection& collection, std::string_view kind, double depth_m, const std::string& id,
                 const std::string& name, const GroundShape& shape) {
  if (is_empty(shape)) return;
  JsonText& json = collection.begin_feature(id, shape);
  json.key("kind").text(kind);
  json.key("name").text(name);
  json.key("depth_m").number(depth_m, 2);
  collection.end_feature();
}

// Where the water is that deep or deeper, so that a map can be shaded where lines end at the edge of a survey too.
void write_areas(Collection& collection, const Lake& lake, const MapView& view) {
  const Grid<Metres32> field = contour_field(lake, view);
  const double step = contour_step(lake.max_depth, Units::metric).metres;
  const double least = kLeastPixels * view.pixel().value() * view.pixel().value();
  for (int i = 1; i * step < lake.max_depth.value(); ++i) {
    Polygons areas = area_above(field, static_cast<float>(i * step));
    std::erase_if(areas, [&](const Polygon& polygon) { return area(polygon).value() < least; });
    const std::string name = fmt::format("{} m and deeper", i * step);
    write_shape(collection, "depth-area", i * step, fmt::format("depth-area-{}m", i * step), name,
                ground_shape(simplified(areas, view.pixel()), lake.projection));
  }
}

}  // namespace

std::string contours_geojson(const Plan& plan) {
  const Lake& lake = *plan.lake;
  // of the lake alone, so that no spot moves a line
  const MapView view = view_of(lake, {});
  Collection collection(plan);
  write_shape(collection, "shoreline", 0.0, "shoreline", "shoreline",
              ground_shape(simplified(lake.outline, view.pixel()), lake.projection));
  write_areas(collection, lake, view);
  const std::vector<Contour> contours = depth_contours(lake, view, Units::metric);
  for (std::size_t at = 0; at < contours.size();) {
    const double depth = contours[at].in_unit;
    Lines lines;
    for (; at < contours.size() && contours[at].in_unit == depth; ++at) {
      lines.push_back(simplified(contours[at].line, view.pixel()));
    }
    write_shape(collection, "contour", depth, fmt::format("contour-{}m", depth), fmt::format("{} m", depth),
                ground_shape(lines, lake.projection));
  }
  return collection.text();
}

}  // namespace castplan
