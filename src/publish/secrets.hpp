// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/geo/coordinate.hpp"
#include "publish/scouted.hpp"

namespace castplan {

/// What must not stand in any byte of a site.
struct Secrets {
  struct Place {
    LonLat at;
    std::string what;   ///< "a spot", "a target"
    bool alone = true;  ///< one coordinate of it, finely printed, gives it away; else only both together
  };
  std::vector<Place> places;
  struct Text {
    std::string text;
    std::string what;  ///< "the id of a spot", "the hash of an input"
  };
  std::vector<Text> texts;
};

/// Of one plan: hashes of inputs and options always; places and ids of what does not leave. exact: spots and passes
/// may.
Secrets secrets_of(const Scouted& scouted, bool exact);

}  // namespace castplan
