// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// gdal_grid (Debian package gdal-bin) on the same points, for comparison.

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"
#include "castplan/grid/soundings.hpp"
#include "support/programs.hpp"

namespace castplan::known {

struct Point {
  XY place;
  double depth;
};

/// All that the surface is given, as points: soundings, vertices of the contours and of the shoreline. Every third
/// vertex of a contour, which leaves about one a cell here: the search of neighbours takes minutes otherwise.
inline std::vector<Point> as_points(const Polygons& shoreline, const std::vector<Sounding>& soundings,
                                    const std::vector<DepthContour>& contours) {
  std::vector<Point> points;
  for (const Sounding& sounding : soundings)
    points.push_back({sounding.at, static_cast<double>(sounding.depth.value())});
  for (const DepthContour& contour : contours) {
    for (std::size_t i = 0; i < contour.line.size(); i += 3) points.push_back({contour.line[i], contour.depth.value()});
  }
  for (const Polygon& polygon : shoreline) {
    for (const XY place : polygon.outer) points.push_back({place, 0.0});
  }
  return points;
}

/// algorithm: as gdal_grid's option -a reads it.
inline Grid<Metres32> gdal_grid(const std::vector<Point>& points, const Frame& frame, const std::string& algorithm) {
  const programs::Scratch scratch;
  std::ostringstream table;
  table << "x,y,z\n";
  table.precision(12);
  for (const Point& point : points) table << point.place.x << ',' << point.place.y << ',' << point.depth << '\n';
  const std::string csv = scratch.write("points.csv", table.str());
  const std::string vrt = scratch.write(
      "points.vrt", "<OGRVRTDataSource><OGRVRTLayer name=\"points\"><SrcDataSource>" + csv +
                        "</SrcDataSource><GeometryType>wkbPoint25D</GeometryType><GeometryField "
                        "encoding=\"PointFromColumns\" x=\"x\" y=\"y\" z=\"z\"/></OGRVRTLayer></OGRVRTDataSource>");
  std::ostringstream command;
  command.precision(12);
  const double east = frame.corner.x + frame.cols * frame.cell.value();
  const double south = frame.corner.y - frame.rows * frame.cell.value();
  command << "gdal_grid -q -l points -of ENVI -ot Float32 -a " << algorithm << " -txe " << frame.corner.x << ' ' << east
          << " -tye " << frame.corner.y << ' ' << south << " -outsize " << frame.cols << ' ' << frame.rows << ' ' << vrt
          << ' ' << scratch.path("grid.bin");
  const programs::Result result = programs::run(command.str());
  INFO(command.str() << ": " << result.text);
  REQUIRE(result.code == 0);
  Grid<Metres32> grid(frame);
  std::ifstream file(scratch.path("grid.bin"), std::ios::binary);
  file.read(reinterpret_cast<char*>(grid.cells().data()), static_cast<std::streamsize>(grid.size() * 4));
  REQUIRE(file.gcount() == static_cast<std::streamsize>(grid.size() * 4));
  return grid;
}

}  // namespace castplan::known
