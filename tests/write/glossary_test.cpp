// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <string>

#include "write/glossary_terms.hpp"

using namespace castplan::sheet;

namespace {

const Term& term(const std::string& name) {
  for (const Term& one : terms()) {
    if (one.name == name) return one;
  }
  FAIL("no term " << name);
  return terms().front();
}

double along(const Term& one, double share) {
  return one.depth(one.from.x + share * (one.to.x - one.from.x), one.from.y + share * (one.to.y - one.from.y));
}

// Depth in eight directions about the middle, at a distance.
std::vector<double> about_middle(const Term& one, double away) {
  std::vector<double> out;
  for (int i = 0; i < 8; ++i) {
    const double turn = i * 3.14159265358979323846 / 4.0;
    out.push_back(one.depth(0.5 + away * std::cos(turn), 0.5 + away * std::sin(turn)));
  }
  return out;
}

// Hundredths of the way from north to south that are water.
int wet_across(const Term& one, double x) {
  int wet = 0;
  for (int i = 0; i < 100; ++i) wet += one.depth(x, i / 100.0) > 0 ? 1 : 0;
  return wet;
}

}  // namespace

TEST_CASE("there are twelve terms, and each has all of its parts, in its own words") {
  REQUIRE(terms().size() == 12);
  std::map<std::string_view, int> seen;
  for (const Term& one : terms()) {
    INFO(one.name);
    for (const std::string_view text : {one.name, one.what, one.sounder, one.why}) {
      CHECK_FALSE(text.empty());
      CHECK(++seen[text] == 1);
    }
    for (const std::string_view text : {one.what, one.sounder, one.why}) CHECK(text.back() == '.');
  }
}

// The shape of a term is its definition: the drawing is held to it by the function that it is drawn from.
TEST_CASE("the floor that a term is drawn from is what the term says") {
  for (const double depth : about_middle(term("Pool"), 0.4)) CHECK(depth < term("Pool").depth(0.5, 0.5) - 2);
  for (const double depth : about_middle(term("Hump"), 0.35)) CHECK(depth > term("Hump").depth(0.5, 0.5) + 2);
  CHECK(term("Hump").depth(0.5, 0.5) > 0.5);
  const Term& drop = term("Drop-off");
  CHECK(along(drop, 0.7) - along(drop, 0.3) > 5);
  CHECK(along(drop, 0.25) - along(drop, 0.0) < 0.5);
  // between its tops a saddle is the deepest place of the way, and across the way the shallowest
  const Term& saddle = term("Saddle");
  CHECK(along(saddle, 0.5) > along(saddle, 0.24) + 1);
  CHECK(along(saddle, 0.5) > along(saddle, 0.76) + 1);
  CHECK(saddle.depth(0.5, 0.5) < saddle.depth(0.5, 0.2) - 0.5);
  CHECK(saddle.depth(0.5, 0.5) < saddle.depth(0.5, 0.8) - 0.5);
  const Term& flat = term("Flat");
  CHECK(std::abs(along(flat, 0.6) - along(flat, 0.25)) < 0.4);
  CHECK(along(flat, 0.95) > along(flat, 0.6) + 3);
  const Term& channel = term("Channel");
  for (const double y : {0.1, 0.25, 0.5, 0.75, 0.9}) {
    const double bed = 0.5 + 0.16 * std::sin(6.3 * y);
    CHECK(channel.depth(bed, y) > channel.depth(bed - 0.25, y) + 2);
    CHECK(channel.depth(bed, y) > channel.depth(bed + 0.25, y) + 2);
  }
  // a point is shallower along its crest than beside it, an inside turn deeper
  for (const double x : {0.4, 0.5, 0.6}) {
    CHECK(term("Point").depth(x, 0.5) < term("Point").depth(x, 0.15) - 1);
    CHECK(term("Point").depth(x, 0.5) < term("Point").depth(x, 0.85) - 1);
    CHECK(term("Inside turn").depth(x, 0.5) > term("Inside turn").depth(x, 0.15) + 1);
    CHECK(term("Inside turn").depth(x, 0.5) > term("Inside turn").depth(x, 0.85) + 1);
  }
  CHECK(wet_across(term("Narrows"), 0.5) < wet_across(term("Narrows"), 0.1) / 2);
  CHECK(wet_across(term("Narrows"), 0.5) < wet_across(term("Narrows"), 0.9) / 2);
  CHECK(wet_across(term("Bay"), 0.34) > 2 * wet_across(term("Bay"), 0.66));
  CHECK(wet_across(term("Bay"), 0.66) > 10);
  CHECK(wet_across(term("Bay"), 0.9) > 90);
  for (int i = 12; i <= 100; ++i) CHECK(term("Bay").depth(i / 100.0, 0.5) > 0.8);
  CHECK(term("Bay").depth(0.05, 0.5) < 0);
}

TEST_CASE("fish are drawn in the water, above the floor") {
  for (const Term& one : terms()) {
    INFO(one.name);
    CHECK(one.fish.y > 0.4);
    // from tail to nose, with a hand's breadth to spare
    for (const double behind : {-0.09, -0.03, 0.0, 0.03, 0.06})
      CHECK(one.fish.y + 0.3 < along(one, one.fish.x + behind));
    if (!one.layers) CHECK(one.depth(one.fish_on_map.x, one.fish_on_map.y) > 0.4);
    for (const SectionNote& note : one.notes) CHECK(note.along > 0);
  }
}
