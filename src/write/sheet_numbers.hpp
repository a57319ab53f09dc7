// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "write/sheet_canvas.hpp"

namespace castplan::sheet {

/// A place on the paper and the box of its number.
struct Numbered {
  std::string label;
  Place at;
  Area box;
};

/// True when an area lies inside another and clear of all that are taken.
bool is_free(Area area, Area inside, const std::vector<Area>& taken);

/// Finds each number a box near its place, clear of the other boxes and places, away from the middle of them all
/// first. What is crowded gets a longer line. Returns all that is taken now.
std::vector<Area> place_numbers(const Canvas& canvas, Area inside, std::vector<Numbered>& numbers);

void draw_numbers(Canvas& canvas, const std::vector<Numbered>& numbers);

}  // namespace castplan::sheet
