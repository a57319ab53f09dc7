// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <vector>

#include "castplan/geo/shape.hpp"

namespace castplan {

/// The line through places.
template <class Place>
Line line_of(const std::vector<Place>& places) {
  Line line;
  for (const Place& place : places) line.push_back(place.at);
  return line;
}

/// Runs of the places along a line that are good; up to `gap` others do not part a run, and are in it.
template <class Place>
std::vector<std::vector<Place>> runs(const std::vector<Place>& places, const std::vector<bool>& good, int gap) {
  std::vector<std::vector<Place>> found;
  int last = -gap - 2;
  for (int i = 0; i < static_cast<int>(places.size()); ++i) {
    if (!good[i]) continue;
    if (i - last > gap + 1) found.emplace_back();
    for (int k = found.back().empty() ? i : last + 1; k <= i; ++k) found.back().push_back(places[k]);
    last = i;
  }
  return found;
}

/// So many parts of equal numbers of places; neighbours share the place where they meet.
template <class Place>
std::vector<std::vector<Place>> parts(const std::vector<Place>& run, int count) {
  const auto steps = static_cast<int>(run.size()) - 1;
  std::vector<std::vector<Place>> found;
  for (int part = 0; part < count; ++part) {
    found.emplace_back(run.begin() + steps * part / count, run.begin() + steps * (part + 1) / count + 1);
  }
  return found;
}

/// The parts between some places, given by their numbers, ascending; neighbours share the place where they meet.
template <class Place>
std::vector<std::vector<Place>> parted_at(const std::vector<Place>& run, const std::vector<std::size_t>& at) {
  std::vector<std::vector<Place>> found;
  std::size_t first = 0;
  for (const std::size_t last : at) {
    found.emplace_back(run.begin() + static_cast<std::ptrdiff_t>(first),
                       run.begin() + static_cast<std::ptrdiff_t>(last) + 1);
    first = last;
  }
  found.emplace_back(run.begin() + static_cast<std::ptrdiff_t>(first), run.end());
  return found;
}

}  // namespace castplan
