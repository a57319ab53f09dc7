// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <random>
#include <string>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/survey/surface.hpp"
#include "survey/known_surfaces.hpp"

using namespace castplan;
using namespace castplan::known;

namespace {

bool same_bytes(const Grid<Metres32>& a, const Grid<Metres32>& b) {
  return a.size() == b.size() && std::memcmp(a.cells().data(), b.cells().data(), a.size() * sizeof(Metres32)) == 0;
}

/// Largest difference over cells known in both; infinite where only one knows.
double difference(const Grid<Metres32>& a, const Grid<Metres32>& b, double factor = 1.0) {
  double most = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const double here = static_cast<double>(a[i].value()) * factor;
    const double there = static_cast<double>(b[i].value());
    if (std::isnan(here) != std::isnan(there)) return INFINITY;
    if (std::isfinite(here) && there > 0.2 * factor) most = std::max(most, std::abs(here - there));
  }
  return most;
}

struct Survey {
  Polygons shore;
  std::vector<Sounding> soundings;
  std::vector<DepthContour> contours;
};

Survey survey_of(const KnownLake& lake) { return {shoreline(lake), tracks(lake, {.apart = 90.0}), contours(lake)}; }

template <class Move>
Survey moved(Survey survey, const Move& move) {
  for (Polygon& polygon : survey.shore) {
    for (XY& place : polygon.outer) place = move(place);
  }
  for (Sounding& sounding : survey.soundings) sounding.at = move(sounding.at);
  for (DepthContour& contour : survey.contours) {
    for (XY& place : contour.line) place = move(place);
  }
  return survey;
}

Surface fit(const Survey& survey, const Frame& frame = frame_of()) {
  return fit_surface(frame, survey.shore, survey.soundings, survey.contours);
}

std::string message_of(const Frame& frame, const Survey& survey) {
  try {
    fit(survey, frame);
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

/// Steep walls and a flat floor: the plate, going on with the slope of the walls, would dive far too deep.
KnownLake tub(double floor) {
  return {"tub", round_shore, [floor](XY at) { return std::min(floor, (500.0 - std::hypot(at.x, at.y)) * 0.1); }, 2.0};
}

}  // namespace

TEST_CASE("a shifted lake is the same lake") {
  const Survey survey = survey_of(holes());
  const XY by{512000.0, 5030000.0};
  Frame frame = frame_of();
  frame.corner = frame.corner + by;
  const Surface here = fit(survey);
  const Surface there = fit(moved(survey, [&](XY at) { return at + by; }), frame);
  CHECK(difference(here.depth, there.depth) < 0.001);
}

TEST_CASE("a lake turned by a right angle is the same lake") {
  const Survey survey = survey_of(ridge());
  const Surface here = fit(survey);
  const Surface turned = fit(moved(survey, [](XY at) { return XY{-at.y, at.x}; }));  // anticlockwise
  Grid<Metres32> back(here.depth.frame());
  const int size = back.rows();
  for (int row = 0; row < size; ++row) {
    for (int col = 0; col < size; ++col) back[{row, col}] = turned.depth[{size - 1 - col, row}];
  }
  CHECK(difference(here.depth, back) < 0.01);
}

TEST_CASE("twice the depth is twice the depth") {
  const Survey survey = survey_of(lobed());
  Survey deep = survey;
  for (Sounding& sounding : deep.soundings) sounding.depth = 2.0F * sounding.depth;
  for (DepthContour& contour : deep.contours) contour.depth = 2.0 * contour.depth;
  CHECK(difference(fit(survey).depth, fit(deep).depth, 2.0) < 0.01);
}

TEST_CASE("order and repetition of the data change nothing") {
  const Survey survey = survey_of(holes());
  Survey mixed = survey;
  std::mt19937 random(3);
  std::shuffle(mixed.soundings.begin(), mixed.soundings.end(), random);
  std::shuffle(mixed.contours.begin(), mixed.contours.end(), random);
  mixed.soundings.push_back(mixed.soundings[10]);
  mixed.soundings.push_back(mixed.soundings[200]);
  const Surface one = fit(survey);
  const Surface other = fit(mixed);
  CHECK(same_bytes(one.depth, other.depth));
}

TEST_CASE("the same bytes at one and at two threads") {
  const Survey survey = survey_of(ridge());
  const Frame frame = frame_of(2.0);
  set_threads(1);
  const Surface one = fit(survey, frame);
  set_threads(2);
  const Surface two = fit(survey, frame);
  set_threads(0);
  CHECK(same_bytes(one.depth, two.depth));
  CHECK(same_bytes(one.error, two.error));
  CHECK(one.check.all.rmse == two.check.all.rmse);
}

TEST_CASE("water inside the shoreline only, islands are land") {
  const KnownLake lake = paraboloid();
  Survey survey = survey_of(lake);
  const XY island{150.0, 40.0};
  Ring ring;
  for (const XY at : shore_ring(lake)) ring.push_back(island + at * 0.08);  // 40 m radius
  std::reverse(ring.begin(), ring.end());
  survey.shore.front().holes.push_back(ring);
  survey.contours.clear();
  std::erase_if(survey.soundings, [&](const Sounding& s) { return distance(s.at, island) < Metres(70.0); });
  const Surface surface = fit(survey);
  for (std::size_t i = 0; i < surface.depth.size(); ++i) {
    const XY at = surface.depth.frame().centre(surface.depth.cell_of(i));
    const double from_shore = std::min(500.0 - std::hypot(at.x, at.y), distance(at, island).value() - 40.0);
    if (std::abs(from_shore) < 0.1) continue;  // the ring is a polygon, not a circle
    INFO(at.x << ' ' << at.y);
    REQUIRE(std::isfinite(surface.depth[i].value()) == (from_shore > 0.0));
    REQUIRE(std::isfinite(surface.error[i].value()) == (from_shore > 0.0));
    if (from_shore > 0.0) REQUIRE(surface.depth[i].value() >= 0.01F);
    if (from_shore > 0.0 && from_shore < 5.0) REQUIRE(surface.depth[i].value() < 4.0F);  // of 18 m about it
  }
}

TEST_CASE("a hump rises inside its last contour") {
  // top at 12 - 9.9 = 2.1 m, last contour at 4 m
  const KnownLake lake{"hump", round_shore,
                       [](XY at) {
                         const double share = share_of_radius(round_shore, at);
                         return 12.0 * (1.0 - std::pow(share, 4)) - 9.9 * hill(at, {0, 0}, 80);
                       },
                       2.0};
  std::vector<DepthContour> lines = contours(lake);
  std::erase_if(lines, [](const DepthContour& c) {
    return c.depth < Metres(3.9) && std::hypot(c.line.front().x, c.line.front().y) < 200.0;
  });
  const Surface surface = fit_surface(frame_of(), shoreline(lake), {}, lines);
  const float top = bilinear(surface.depth, {0, 0});
  CHECK(top < 3.5F);
  CHECK(top > 2.0F);  // by less than the whole step, which ends at 2 m
}

TEST_CASE("a hole deepens by less than a step, or to its sounding, and is not cut flat") {
  const KnownLake lake = tub(10.7);
  const std::vector<DepthContour> lines = contours(lake);  // 2, 4 ... 10 m
  const Surface free = fit_surface(frame_of(), shoreline(lake), {}, lines);
  CHECK(free.deepest > Metres(10.3));
  CHECK(free.deepest < Metres(12.0));
  CHECK(free.flat_share < 0.005);
  const Sounding spot = sounding({3.0, 4.0}, 10.7);
  const std::vector<Sounding> spots{spot};
  const Surface held = fit_surface(frame_of(), shoreline(lake), spots, lines);
  CHECK(held.deepest > Metres(10.5));
  CHECK(held.deepest < Metres(10.7 + 0.25));
}

TEST_CASE("no terraces between contours") {
  // a slope that steepens evenly: no cell between two contours may lie at a contour's depth unless on it
  const KnownLake lake = paraboloid();
  const Surface surface = fit_surface(frame_of(), shoreline(lake), {}, contours(lake));
  int at_level = 0;
  int cells = 0;
  for (std::size_t i = 0; i < surface.depth.size(); ++i) {
    const double depth = static_cast<double>(surface.depth[i].value());
    if (!std::isfinite(depth)) continue;
    ++cells;
    if (std::abs(depth - 3.0 * std::round(depth / 3.0)) < 0.15) ++at_level;
  }
  // area of a paraboloid grows evenly with depth: a tenth of it lies within 0.15 m of multiples of 3 m
  CHECK(static_cast<double>(at_level) / cells == Approx(0.1).margin(0.01));
}

TEST_CASE("unusual steps between contours are found") {
  const KnownLake lake = lobed();
  std::vector<DepthContour> lines = contours(lake);
  std::erase_if(lines, [](const DepthContour& c) { return c.depth == Metres(9.0); });
  const Surface surface = fit_surface(frame_of(), shoreline(lake), {}, lines);
  CHECK(surface.interval.value() == Approx(3.0));
  CHECK(score(lake, surface.depth).rmse < 0.2);
}

TEST_CASE("data that cannot make a surface are refused with advice") {
  const Survey survey = survey_of(lobed());
  CHECK_THAT(message_of(frame_of(), {{}, survey.soundings, survey.contours}), Catch::Contains("shoreline"));
  CHECK_THAT(message_of(frame_of(), {survey.shore, {}, {}}), Catch::Contains("no depth") && Catch::Contains("CRS"));
  Frame far = frame_of();
  far.corner = {1e6, 1e6};
  CHECK_THAT(message_of(far, survey), Catch::Contains("no cell") && Catch::Contains("--cell"));
  Survey negative = survey;
  negative.contours[2].depth = Metres(-9.0);
  CHECK_THAT(message_of(frame_of(), negative), Catch::Contains("contour 3") && Catch::Contains("-9"));
}

TEST_CASE("one sounding is enough for a surface that holds it") {
  Survey survey{shoreline(paraboloid()), {}, {}};
  const Sounding spot = sounding({0.0, 0.0}, 8.0);
  survey.soundings = {spot};
  const Surface surface = fit(survey);
  CHECK(surface.deepest.value() == Approx(8.0).margin(0.3));
  CHECK(std::all_of(surface.error.cells().begin(), surface.error.cells().end(),
                    [](Metres32 e) { return std::isnan(e.value()) || e.value() >= 0.1F; }));
}
