// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "write/sheet_map_view.hpp"
#include "write/sheet_numbers.hpp"

namespace castplan::sheet {
namespace {

constexpr Font kLetter{10.0, true};
constexpr double kHalf = 5.6;            // of the box of a letter
constexpr double kAlong = 4.0 * kMm;     // between places along a line that a letter may stand at
constexpr std::size_t kMostPlaces = 40;  // of one feature, nearest first
constexpr int kTurns = 12;
constexpr double kTurn = 3.14159265358979323846 / 6.0;

/// A letter and what it points at.
struct LetterBox {
  std::string letter;
  Place at, middle;
};

void draw_shape(const Map& map, const Feature& feature) {
  if (const auto* polygons = std::get_if<Polygons>(&feature.geometry)) {
    map.canvas.stroke(map.outlines(*polygons), {1.2, 0.0, {3.0, 1.8}});
  } else if (const auto* lines = std::get_if<Lines>(&feature.geometry)) {
    std::vector<Outline> outlines;
    for (const Line& line : *lines) outlines.push_back(map.outline(simplified(line, map.speck())));
    map.canvas.stroke(outlines, {1.6, 0.0});
  } else if (const auto* points = std::get_if<Points>(&feature.geometry)) {
    for (const XY point : *points) {
      map.canvas.disc(map.on_paper(point), 2.4, 1.0);
      map.canvas.disc(map.on_paper(point), 1.6, 0.0);
    }
  }
}

// Places of a feature that its letter may stand at, nearest to what it is shown for first.
std::vector<XY> places_of(const Map& map, const Feature& feature, XY near) {
  std::vector<XY> places{feature.anchor};
  const auto add = [&](const Line& line) {
    const Line steps = resampled(line, Metres(kAlong / map.scale));
    places.insert(places.end(), steps.begin(), steps.end());
  };
  if (const auto* polygons = std::get_if<Polygons>(&feature.geometry)) {
    for (const Polygon& polygon : *polygons) add(polygon.outer);
  } else if (const auto* lines = std::get_if<Lines>(&feature.geometry)) {
    places.clear();
    for (const Line& line : *lines) add(line);
    if (places.empty()) places.push_back(feature.anchor);
  } else if (const auto* points = std::get_if<Points>(&feature.geometry)) {
    places.insert(places.end(), points->begin(), points->end());
  }
  std::stable_sort(places.begin(), places.end(), [&](XY a, XY b) { return distance(a, near) < distance(b, near); });
  places.resize(std::min(places.size(), kMostPlaces));
  return places;
}

Area letter_room(Place middle) { return {middle.x - kHalf, middle.y - kHalf, 2.0 * kHalf, 2.0 * kHalf}; }

// Beside the feature first, further away with a line where that is crowded; on the nearest place where nothing is free.
LetterBox placed(const Map& map, const Lettered& lettered, const std::vector<Area>& taken) {
  const std::vector<XY> places = places_of(map, *lettered.feature, lettered.near);
  for (const double away : {0.0, 9.0, 14.0, 20.0, 28.0, 40.0}) {
    const std::size_t tried = away > 0.0 ? std::min<std::size_t>(places.size(), 6) : places.size();
    for (std::size_t i = 0; i < tried; ++i) {
      const Place at = map.on_paper(places[i]);
      for (int turn = 0; turn < (away > 0.0 ? kTurns : 1); ++turn) {
        const Place middle{at.x + away * std::cos(turn * kTurn), at.y + away * std::sin(turn * kTurn)};
        if (is_free(letter_room(middle), map.area, taken)) return {lettered.letter, at, middle};
      }
    }
  }
  const Place at = map.on_paper(places.front());
  return {lettered.letter, at, at};
}

}  // namespace

void draw_lettered(const Map& map, const std::vector<Lettered>& features, std::vector<Area>& taken) {
  for (const Lettered& one : features) draw_shape(map, *one.feature);
  std::vector<LetterBox> boxes;
  for (const Lettered& one : features) {
    boxes.push_back(placed(map, one, taken));
    taken.push_back(letter_room(boxes.back().middle));
  }
  for (const LetterBox& box : boxes) {
    map.canvas.line(box.at, box.middle, {2.2, 1.0});
    map.canvas.line(box.at, box.middle, {0.7});
  }
  for (const LetterBox& box : boxes) {
    map.canvas.disc(box.middle, kHalf, 1.0);
    map.canvas.centred({box.middle.x, box.middle.y + 3.4}, box.letter, kLetter);
  }
}

}  // namespace castplan::sheet
