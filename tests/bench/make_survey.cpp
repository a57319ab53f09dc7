// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// bench_make_survey COUNT FOLDER: the tracks of a boat over a lobed lake of 80 ha with a ridge, about COUNT soundings
// with 0.1 m of noise, each a fifth of its step off a straight course, as soundings.csv; its shoreline as
// shore.geojson; and both as points for gdal_grid, points.csv with points.vrt. All in metres on a transverse Mercator
// at 45.5 N 40 W, but the shoreline, which is in degrees.
#include <fmt/format.h>

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <random>
#include <string>

#include "castplan/geo/projection.hpp"
#include "survey/known_surfaces.hpp"

namespace {

using namespace castplan;

/// Distance between soundings that gives about so many: lines lie five times as far apart as soundings along them.
double step_for(double count, double area_m2) { return std::sqrt(area_m2 / (5 * count)); }

/// No helmsman keeps a lattice, which would be the worst case of a triangulation.
std::vector<Sounding> sounded(const known::KnownLake& lake, double step) {
  std::mt19937_64 random(11);
  std::normal_distribution<double> astray(0.0, 0.2 * step), noise(0.0, 0.1);
  std::vector<Sounding> soundings = known::tracks(lake, {.apart = 5 * step, .step = step, .noise = 0});
  for (Sounding& each : soundings) {
    each.at = each.at + XY{astray(random), astray(random)};
    each.depth = Metres32(static_cast<float>(std::max(0.05, lake.depth(each.at) + noise(random))));
  }
  return soundings;
}

void write_tables(const std::string& folder, const std::vector<Sounding>& soundings, const Ring& shore) {
  std::ofstream given(folder + "/soundings.csv"), points(folder + "/points.csv");
  given << "x,y,depth_m\n";
  points << "x,y,z\n";
  for (const Sounding& sounding : soundings) {
    const std::string row = fmt::format("{:.3f},{:.3f},{:.3f}\n", sounding.at.x, sounding.at.y, sounding.depth.value());
    given << row;
    points << row;
  }
  for (const XY at : shore) points << fmt::format("{:.3f},{:.3f},0\n", at.x, at.y);
  std::ofstream(folder + "/points.vrt")
      << "<OGRVRTDataSource><OGRVRTLayer name=\"points\"><SrcDataSource relativeToVRT=\"1\">points.csv</SrcDataSource>"
         "<GeometryType>wkbPoint25D</GeometryType><GeometryField encoding=\"PointFromColumns\" x=\"x\" y=\"y\" "
         "z=\"z\"/></OGRVRTLayer></OGRVRTDataSource>";
}

void write_shore(const std::string& folder, const Ring& shore) {
  const Projection plane = Projection::transverse_mercator({{-40.0}, {45.5}});
  std::ofstream file(folder + "/shore.geojson");
  file << R"({"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[)";
  const char* comma = "";
  for (const XY at : shore) {
    const LonLat place = plane.to_lonlat(at);
    file << fmt::format("{}[{:.9f},{:.9f}]", comma, place.lon.degrees, place.lat.degrees);
    comma = ",";
  }
  file << "]]}}\n";
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) {
    std::cerr << "bench_make_survey COUNT FOLDER\n";
    return 2;
  }
  const known::KnownLake lake = known::ridge();
  write_tables(words[2], sounded(lake, step_for(std::atof(words[1]), 8.0e5)), known::shore_ring(lake));
  write_shore(words[2], known::shore_ring(lake));
}
