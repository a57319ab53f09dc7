// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/grid/isoline.hpp"
#include "write/glossary_terms.hpp"

namespace castplan::sheet {
namespace {

constexpr Font kWords{9.0};
constexpr Font kEnds{9.0, true};
constexpr int kCells = 64;        // along a side of the map
constexpr int kRim = 4;           // cells beyond it, so that areas close outside the box
constexpr int kSteps = 120;       // along the section
constexpr double kDeepest = 9.4;  // metres at the foot of the section
constexpr double kSky = 0.17;     // of its height, above the water
constexpr double kLetterIn = 0.055;

/// The floor of a term on a square of the paper.
struct Chart {
  Canvas& canvas;
  const Term& term;
  Area box;

  [[nodiscard]] Place at(double x, double y) const { return {box.left + x * box.width, box.top + y * box.height}; }
  [[nodiscard]] Outline outline(const Line& line) const {
    Outline out;
    for (const XY place : line) out.push_back(at(place.x, -place.y));
    return out;
  }
  [[nodiscard]] Grid<Metres32> field() const {
    constexpr double kCell = 1.0 / kCells;
    Grid<Metres32> out(Frame{{-kRim * kCell, kRim * kCell}, Metres(kCell), kCells + 2 * kRim, kCells + 2 * kRim});
    for (std::size_t i = 0; i < out.size(); ++i) {
      const XY middle = out.frame().centre(out.cell_of(i));
      out[i] = Metres32(static_cast<float>(term.depth(middle.x, -middle.y)));
    }
    return out;
  }
};

/// The water along the way from A to B.
struct Section {
  Canvas& canvas;
  const Term& term;
  Area box;

  [[nodiscard]] double depth(double along) const {
    return term.depth(term.from.x + along * (term.to.x - term.from.x), term.from.y + along * (term.to.y - term.from.y));
  }
  [[nodiscard]] Place at(double along, double metres) const {
    return {box.left + along * box.width, box.top + box.height * (kSky + (1.0 - kSky) * metres / kDeepest)};
  }
};

// Body and tail, with a white rim; it looks to the right.
void draw_fish(Canvas& canvas, Place middle) {
  constexpr double kLong = 7.0;
  constexpr double kHigh = 2.7;
  Outline body;
  for (int i = 0; i <= 32; ++i) {
    const double turn = i * 3.14159265358979323846 / 16.0;
    body.push_back({middle.x + kLong * std::cos(turn), middle.y + kHigh * std::sin(turn)});
  }
  const Outline tail{{middle.x - kLong + 2.0, middle.y},
                     {middle.x - kLong - 4.0, middle.y - 3.4},
                     {middle.x - kLong - 2.6, middle.y},
                     {middle.x - kLong - 4.0, middle.y + 3.4},
                     {middle.x - kLong + 2.0, middle.y}};
  canvas.stroke({body, tail}, {2.6, 1.0});
  canvas.fill({body}, 0.0);
  canvas.fill({tail}, 0.0);
  canvas.disc({middle.x + 0.62 * kLong, middle.y - 0.5}, 0.7, 1.0);
}

void draw_plants_on(const Chart& chart) {
  std::vector<Outline> tufts;
  constexpr int kRows = 11;
  for (int row = 0; row < kRows; ++row) {
    for (int col = 0; col < kRows; ++col) {
      const double x = (col + (row % 2 == 0 ? 0.3 : 0.8)) / kRows;
      const double y = (row + 0.5) / kRows;
      const double metres = chart.term.depth(x, y);
      if (metres < 0.9 || metres > kPlantsEnd - 0.25) continue;
      const Place foot = chart.at(x, y);
      tufts.push_back({{foot.x - 1.8, foot.y - 3.2}, foot, {foot.x + 1.8, foot.y - 3.2}});
    }
  }
  chart.canvas.stroke(tufts, {0.7});
}

void draw_chart(const Chart& chart) {
  Canvas& canvas = chart.canvas;
  const Grid<Metres32> field = chart.field();
  canvas.clip(chart.box);
  const Outline whole{chart.at(0, 0), chart.at(1, 0), chart.at(1, 1), chart.at(0, 1), chart.at(0, 0)};
  canvas.hatch({whole}, 5.0, {0.4, 0.55});
  for (int metres = 0; metres < 9; ++metres) {
    std::vector<Outline> rings;
    for (const Polygon& polygon : area_above(field, static_cast<float>(metres))) {
      rings.push_back(chart.outline(polygon.outer));
      for (const Ring& hole : polygon.holes) rings.push_back(chart.outline(hole));
    }
    canvas.fill(rings, 0.98 - 0.045 * metres);
  }
  for (int metres = 0; metres < 9; ++metres) {
    std::vector<Outline> lines;
    for (const Line& line : isolines(field, static_cast<float>(metres))) lines.push_back(chart.outline(line));
    canvas.stroke(lines, {metres == 0 ? 1.3 : 0.45, metres == 0 ? 0.0 : 0.2});
  }
  if (chart.term.plants) {
    draw_plants_on(chart);
    std::vector<Outline> edge;
    for (const Line& line : isolines(field, static_cast<float>(kPlantsEnd))) edge.push_back(chart.outline(line));
    canvas.stroke(edge, {1.6, 0.0, {4.0, 2.0}});
  }
  const Place from = chart.at(chart.term.from.x, chart.term.from.y);
  const Place to = chart.at(chart.term.to.x, chart.term.to.y);
  canvas.line(from, to, {0.8, 0.0, {1.5, 2.0}});
  const auto inwards = [&](Place end, Place other) {
    return Place{end.x + kLetterIn * (other.x - end.x), end.y + kLetterIn * (other.y - end.y)};
  };
  canvas.label(inwards(from, to), "A", kEnds);
  canvas.label(inwards(to, from), "B", kEnds);
  draw_fish(canvas, chart.at(chart.term.fish_on_map.x, chart.term.fish_on_map.y));
  canvas.unclip();
  canvas.frame(chart.box, {0.6, 0.4});
}

// The water's temperature against depth: warm above, cold below.
void draw_curve(const Chart& chart, const Section& section) {
  Canvas& canvas = chart.canvas;
  const auto at = [&](double share, double metres) {
    return Place{chart.box.left + chart.box.width * share, section.at(0.0, metres).y};
  };
  canvas.line(at(0.0, 0.0), at(1.0, 0.0), {0.8});
  for (const double metres : {kLayerTop, kLayerBase})
    canvas.line(at(0.0, metres), at(1.0, metres), {0.6, 0.2, {2.5, 2.0}});
  Outline curve;
  for (int i = 0; i <= kSteps; ++i) {
    const double metres = kDeepest * i / kSteps;
    curve.push_back(at(0.2 + 0.62 / (1.0 + std::exp((metres - 6.0) / 0.35)), metres));
  }
  canvas.stroke({curve}, {1.6});
  canvas.centred({chart.box.left + chart.box.width / 2.0, at(0.0, 0.0).y - 3.5}, "temperature", kWords);
  canvas.label(at(0.48, 2.6), "warm", kWords);
  canvas.label(at(0.55, 8.4), "cold", kWords);
  canvas.frame(chart.box, {0.6, 0.4});
}

void draw_layers_in(const Section& section, const Outline& floor) {
  const auto band = [&](double from, double to, double grey) {
    section.canvas.fill(
        Area{section.box.left, section.at(0, from).y, section.box.width, section.at(0, to).y - section.at(0, from).y},
        grey);
  };
  band(kLayerTop, kLayerBase, 0.86);
  band(kLayerBase, kDeepest, 0.74);
  section.canvas.fill({floor}, 0.55);
  for (const double metres : {kLayerTop, kLayerBase}) {
    section.canvas.line(section.at(0.0, metres), section.at(1.0, metres), {0.6, 0.2, {2.5, 2.0}});
  }
}

void draw_plants_in(const Section& section) {
  std::vector<Outline> plants;
  constexpr int kCount = 26;
  for (int i = 0; i < kCount; ++i) {
    const double along = (i + 0.5) / kCount;
    const double metres = section.depth(along);
    if (metres < 0.9 || metres > kPlantsEnd) continue;
    const double tall = std::min(metres - 0.3, 1.1 + 0.4 * std::sin(2.4 * i));
    plants.push_back({section.at(along, metres), section.at(along + 0.006, metres - 0.5 * tall),
                      section.at(along - 0.004, metres - tall)});
  }
  section.canvas.stroke(plants, {1.0, 0.1});
}

void draw_section(const Section& section) {
  Canvas& canvas = section.canvas;
  canvas.clip(section.box);
  Outline floor;
  for (int i = 0; i <= kSteps; ++i) {
    const double along = static_cast<double>(i) / kSteps;
    floor.push_back(section.at(along, std::max(-0.35, section.depth(along))));
  }
  Outline ground = floor;
  ground.push_back(section.at(1.0, kDeepest + 1.0));
  ground.push_back(section.at(0.0, kDeepest + 1.0));
  canvas.line(section.at(0.0, 0.0), section.at(1.0, 0.0), {0.8});
  if (section.term.layers) draw_layers_in(section, ground);
  canvas.fill({ground}, 0.55);
  canvas.stroke({floor}, {1.2});
  if (section.term.plants) draw_plants_in(section);
  draw_fish(canvas, section.at(section.term.fish.x, section.term.fish.y));
  for (const SectionNote& note : section.term.notes)
    canvas.label(section.at(note.along, note.depth), note.words, kWords);
  canvas.unclip();
  canvas.frame(section.box, {0.6, 0.4});
  if (section.term.layers) return;
  const double y = section.box.top + 0.5 * kSky * section.box.height;
  canvas.label({section.box.left + 6.0, y}, "A", kEnds);
  canvas.label({section.box.right() - 6.0, y}, "B", kEnds);
}

}  // namespace

void draw_term(Canvas& canvas, const Term& term, Area area) {
  constexpr double kBetween = 3.0 * kMm;
  const Chart chart{canvas, term, {area.left, area.top, area.height, area.height}};
  const double left = chart.box.right() + kBetween;
  const Section section{canvas, term, {left, area.top, area.right() - left, area.height}};
  term.layers ? draw_curve(chart, section) : draw_chart(chart);
  draw_section(section);
}

}  // namespace castplan::sheet
