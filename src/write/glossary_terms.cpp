// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/glossary_terms.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace castplan::sheet {
namespace {

// A round hill of height 1 about a place, and a ramp from 0 to 1 about a value.
double hill(double x, double y, double at_x, double at_y, double width) {
  return std::exp(-((x - at_x) * (x - at_x) + (y - at_y) * (y - at_y)) / (width * width));
}
double ridge(double away, double width) { return std::exp(-away * away / (width * width)); }
double ramp(double value, double at, double width) { return 1.0 / (1.0 + std::exp(-(value - at) / width)); }

double pool(double x, double y) { return 2.0 + 6.0 * hill(x, y, 0.5, 0.5, 0.26); }
double drop_off(double x, double y) { return 1.5 + 6.5 * ramp(x, 0.5 + 0.05 * std::sin(6.0 * y), 0.05); }
double weed_line(double x, double y) { return 0.8 + 6.0 * x + 0.5 * std::sin(5.0 * y); }
double hump(double x, double y) { return 7.5 - 5.0 * hill(x, y, 0.5, 0.5, 0.22); }
double saddle(double x, double y) {
  return 8.0 - 5.5 * hill(x, y, 0.24, 0.5, 0.22) - 5.5 * hill(x, y, 0.76, 0.5, 0.22);
}
double flat(double x, double y) {
  return 0.4 + 1.9 * ramp(x, 0.08, 0.03) + 5.5 * ramp(x, 0.76 + 0.06 * std::sin(5.0 * y), 0.04);
}
double channel(double x, double y) { return 2.5 + 4.0 * ridge(x - 0.5 - 0.16 * std::sin(6.3 * y), 0.12); }
// The crest falls a third as fast as the slope, as far as the tip.
double point(double x, double y) {
  return 9.0 * (x - 0.2) * (1.0 - 0.65 * ridge(y - 0.5, 0.15) * ramp(0.7 - x, 0.0, 0.04)) - 0.5 * ridge(y - 0.5, 0.2);
}
double inside_turn(double x, double y) { return 8.0 * (x - 0.28) + 3.5 * ridge(y - 0.5, 0.16) * ramp(x, 0.36, 0.04); }
double narrows(double x, double y) {
  const double half = 0.46 - 0.32 * ridge(x - 0.5, 0.2);
  return 7.0 * (1.0 - (y - 0.5) * (y - 0.5) / (half * half)) * (0.4 + 0.6 * half / 0.46);
}
// The deepest of a round arm, its mouth and the open lake.
double bay(double x, double y) {
  const double arm = 2.4 * (1.0 - std::pow((x - 0.34) / 0.26, 4) - std::pow((y - 0.5) / 0.27, 4));
  const double outside = 20.0 * (x - 0.74) + 0.4 * std::sin(7.0 * y);
  const double to_arm = std::max(0.0, 0.4 - x);
  const double mouth = 1.4 * (1.0 - std::pow((y - 0.5) / 0.11, 2)) - 60.0 * to_arm * to_arm;
  return std::max({arm, mouth, outside, -2.0});
}
double basin(double x, double y) { return 11.0 * (1.0 - std::pow(2.0 * x - 1.0, 4)) - 1.0 + 0.0 * y; }

constexpr std::array kPool{SectionNote{0.2, 0.9, "sill"}};
constexpr std::array kDropOff{SectionNote{0.2, 0.7, "lip"}, SectionNote{0.46, 8.3, "base"}};
constexpr std::array kWeedLine{SectionNote{0.6, 1.2, "edge"}};
constexpr std::array kHump{SectionNote{0.5, 1.2, "top"}};
constexpr std::array kFlat{SectionNote{0.42, 1.1, "flat"}};
constexpr std::array kChannel{SectionNote{0.16, 1.2, "bank"}, SectionNote{0.84, 1.2, "bank"}};
constexpr std::array kPoint{SectionNote{0.62, 3.4, "tip"}};
constexpr std::array kBay{SectionNote{0.62, 2.9, "mouth"}};
constexpr std::array kLayers{SectionNote{0.5, 2.5, "warm"}, SectionNote{0.5, 8.5, "cold"}};

const std::array<Term, 12> kTerms{
    Term{"Pool",
         "A closed hole in the floor: from its deepest place the way out goes up on every side. The lowest part of its "
         "rim is the sill.",
         "The floor sinks, and rises again whichever way you leave.",
         "It keeps the steadiest water in cold and in heat. Fish rest in it and come up its side to feed.",
         pool,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.4, 4.2},
         {0.4, 0.5},
         false,
         false,
         kPool},
    Term{"Drop-off",
         "Where the floor breaks from shallow to deep within a few boat lengths. Its upper edge is the lip, its lower "
         "edge the base; on the map the contours crowd together.",
         "Metres of depth are gained while the boat hardly moves: the line of the floor turns into a wall.",
         "Deep water to rest in and shallow water to feed in lie one short swim apart.",
         drop_off,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.64, 3.6},
         {0.58, 0.3},
         false,
         false,
         kDropOff},
    Term{"Weed line",
         "The edge where rooted plants end. The outside edge is set by light: the clearer the water, the deeper it "
         "lies.",
         "A ragged band stands on the floor and ends within a boat length.",
         "Small fish live in the plants. At the edge a hunter is hidden and still sees the open water.",
         weed_line,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.6, 3.2},
         {0.52, 0.3},
         true,
         false,
         kWeedLine},
    Term{"Hump",
         "A rise that stays under water, with deeper water all round it.",
         "The floor climbs to a top and falls away again, from whichever side you cross it.",
         "Food gathers on top and depth is near on every side: fish come by again and again.",
         hump,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.8, 4.2},
         {0.79, 0.5},
         false,
         false,
         kHump},
    Term{"Saddle",
         "A low bridge between two rises, or between two holes: the easiest way across.",
         "From top to top the floor dips and rises; across that way it is a crest that falls off on both sides.",
         "What moves from one side to the other goes over it.",
         saddle,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.5, 3.9},
         {0.5, 0.5},
         false,
         false,
         {}},
    Term{"Flat",
         "A wide shelf of nearly even depth beside deeper water.",
         "A level line for many boat lengths, then a break.",
         "In low light fish spread over it to feed; by day they slide back to its deep edge.",
         flat,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.84, 2.5},
         {0.8, 0.3},
         false,
         false,
         kFlat},
    Term{"Channel",
         "An old creek or river bed in the floor: a long trench between two banks.",
         "Crossing it, the floor falls off one bank, runs level and climbs the other.",
         "It is a road with depth. Fish rest in its bends and leave it where a bank comes close to food.",
         channel,
         {0.02, 0.25},
         {0.98, 0.25},
         {0.66, 4.0},
         {0.65, 0.25},
         false,
         false,
         kChannel},
    Term{"Point",
         "A bar that runs out from the shore under water; the contours bulge towards the deep.",
         "Along its crest the depth grows slowly, off either side fast.",
         "Fish that follow the shore must come round its tip, and wind drives food against it.",
         point,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.88, 3.2},
         {0.76, 0.5},
         false,
         false,
         kPoint},
    Term{"Inside turn",
         "A notch in a slope, the opposite of a point: the contours bend in towards the shore.",
         "Kept at one depth along the edge, the boat has to turn in, then out again.",
         "Edges from two sides meet in it, close to shore, and depth reaches in between.",
         inside_turn,
         {0.45, 0.02},
         {0.45, 0.98},
         {0.5, 2.6},
         {0.45, 0.5},
         false,
         false,
         {}},
    Term{"Narrows",
         "A waist where two basins join, between two shores or two contours that come close.",
         "The shores close in, the floor often rises, and both give way again behind it.",
         "All that swims from one basin to the other passes here, and moving water brings food.",
         narrows,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.38, 3.3},
         {0.38, 0.5},
         false,
         false,
         {}},
    Term{"Bay",
         "A sheltered arm of the lake whose mouth is narrower than what lies behind it.",
         "Shallow and even inside; the depth grows outside the mouth.",
         "It warms first in spring and draws food. Some bays are spawning grounds: those are left alone until the fish "
         "are done.",
         bay,
         {0.02, 0.5},
         {0.98, 0.5},
         {0.9, 1.05},
         {0.87, 0.38},
         false,
         false,
         kBay},
    Term{
        "Thermocline",
        "In summer, the layer in which the water turns from warm to cold within a few metres. Wind mixes what lies "
        "above "
        "it; below it oxygen may run out.",
        "With much gain a faint grey band hangs at one depth all over the lake. A thermometer on a marked line is "
        "surer.",
        "Prey hangs just above it, and fish with it, over deep water. A fish hooked deep may not recover: fish higher.",
        basin,
        {0.0, 0.5},
        {1.0, 0.5},
        {0.3, 4.3},
        {0.5, 0.5},
        false,
        true,
        kLayers},
};

}  // namespace

std::span<const Term> terms() { return kTerms; }

}  // namespace castplan::sheet
