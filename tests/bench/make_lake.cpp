// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// bench_make_lake SIDE BASE: writes BASE.flt, BASE.hdr and BASE.prj, a raw float raster that GDAL reads (EHdr).
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <string>

#include "bench/synthetic.hpp"

int main(int count, char** words) {
  if (count != 3) {
    std::cerr << "bench_make_lake SIDE BASE\n";
    return 2;
  }
  const int side = std::atoi(words[1]);
  const std::string base = words[2];
  const auto lake = castplan::bench::synthetic_lake(side, castplan::Metres(2));
  std::ofstream data(base + ".flt", std::ios::binary);
  for (const castplan::Metres32 depth : lake.cells()) {
    const float value = depth.value() > 0 ? depth.value() : -9999.0F;
    data.write(reinterpret_cast<const char*>(&value), sizeof value);
  }
  std::ofstream(base + ".hdr") << "ncols " << side << "\nnrows " << side
                               << "\nxllcorner 400000\nyllcorner 5032000\ncellsize 2\nNODATA_value -9999\n"
                                  "byteorder LSBFIRST\nnbits 32\npixeltype float\n";
  std::ofstream(base + ".prj")
      << "PROJCS[\"WGS 84 / UTM zone 24N\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,"
         "298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_"
         "Mercator\"],"
         "PARAMETER[\"latitude_of_origin\",0],PARAMETER[\"central_meridian\",-39],PARAMETER[\"scale_factor\",0.9996],"
         "PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]\n";
  return data ? 0 : 1;
}
