// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/verb.hpp"

namespace castplan {

std::span<const Verb> verbs() {
  static constexpr Verb kVerbs[] = {
      {"scout", "read a lake, find its features, rank spots, write the plan", declare_scout},
      {"grid", "make a depth grid from soundings and contours, with its error", declare_grid},
      {"inspect", "read data only: what they are, what looks wrong, how to mend it", declare_inspect},
      {"publish", "make a club's static site from scouted lakes, places coarsened", declare_publish},
      {"species", "list the species profiles, or show one with its sources", declare_species},
  };
  return kVerbs;
}

}  // namespace castplan
