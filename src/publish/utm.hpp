// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>

#include "castplan/geo/projection.hpp"

namespace castplan {

/// A place in a zone of UTM.
struct UtmPlace {
  int zone;  ///< 1 to 60
  XY at;     ///< easting and northing in metres
};

/// The zones by their six degrees alone, without the wider ones of Norway and Svalbard.
class Utm {
 public:
  UtmPlace of(LonLat place);

 private:
  std::map<int, Projection> planes_;  ///< by zone, as they are asked for
};

}  // namespace castplan
