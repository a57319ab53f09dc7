// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/survey/error.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "castplan/grid/sample.hpp"
#include "castplan/survey/surface.hpp"
#include "survey/known_surfaces.hpp"

using namespace castplan;
using namespace castplan::known;

namespace {

/// Share of places where the surface is within 1.645 standard errors of the depth: 90 % of a normal law.
double covered(const Surface& surface, const std::vector<Sounding>& held) {
  double within = 0.0;
  double all = 0.0;
  for (const Sounding& sounding : held) {
    const double read = static_cast<double>(bilinear(surface.depth, sounding.at));
    const double error = static_cast<double>(surface.error[surface.error.frame().cell_at(sounding.at)].value());
    if (!std::isfinite(read)) continue;
    all += 1.0;
    if (std::abs(read - static_cast<double>(sounding.depth.value())) <= 1.645 * error) within += 1.0;
  }
  return within / all;
}

/// The true depth at every cell's centre.
std::vector<Sounding> truth(const KnownLake& lake) {
  std::vector<Sounding> places;
  const Frame frame = frame_of();
  for (int row = 0; row < frame.rows; ++row) {
    for (int col = 0; col < frame.cols; ++col) {
      const XY at = frame.centre({row, col});
      if (in_water(lake, at)) places.push_back(sounding(at, lake.depth(at)));
    }
  }
  return places;
}

}  // namespace

// Another boat's tracks, across the first one's, with the same noise; they took no part in the fit.
TEST_CASE("nine tenths of held-back soundings lie within 1.645 standard errors") {
  for (const KnownLake& lake : {paraboloid(), lobed(), holes(), ridge()}) {
    const auto held = tracks(lake, {.apart = 37.0, .step = 4.0, .heading = 113.0, .seed = 99});
    for (const double apart : {40.0, 70.0, 100.0}) {
      const Surface surface = fit_surface(frame_of(), shoreline(lake), tracks(lake, {.apart = apart}), {});
      INFO(lake.name << ", tracks " << apart << " m apart");
      CHECK(covered(surface, held) == Approx(0.90).margin(0.08));
    }
    const Surface both = fit_surface(frame_of(), shoreline(lake), tracks(lake, {.apart = 150.0}), contours(lake));
    INFO(lake.name << ", contours and tracks");
    CHECK(covered(both, held) == Approx(0.90).margin(0.08));
  }
}

// Contours digitised to a few millimetres, told so; the truth at all cells is held back.
TEST_CASE("nine tenths of the lake lie within 1.645 standard errors of a surface from contours") {
  for (const KnownLake& lake : {paraboloid(), lobed(), holes(), ridge()}) {
    const Surface surface =
        fit_surface(frame_of(), shoreline(lake), {}, contours(lake), {.contour_error = Metres(0.005)});
    INFO(lake.name);
    CHECK(covered(surface, truth(lake)) == Approx(0.90).margin(0.08));
  }
}

TEST_CASE("the error never falls with distance and never below the data's own") {
  for (const KnownLake& lake : {holes(), ridge()}) {
    const Surface surface = fit_surface(frame_of(), shoreline(lake), tracks(lake, {.apart = 100.0}), {});
    double before = 0.0;
    for (double away = 0.0; away < 500.0; away += 1.0) {
      const double error = surface.check.curve.at(Metres(away)).value();
      REQUIRE(error >= before);
      REQUIRE(error >= 0.1);
      before = error;
    }
    CHECK(surface.check.curve.at(Metres(300.0)) > surface.check.curve.at(Metres(0.0)));
  }
}

TEST_CASE("the curve is straight between its knots and goes on in proportion") {
  const ErrorCurve curve{.knots = {{Metres(10.0), Metres(0.2)}, {Metres(30.0), Metres(0.6)}}, .least = Metres(0.1)};
  CHECK(curve.at(Metres(0.0)).value() == Approx(0.2));
  CHECK(curve.at(Metres(20.0)).value() == Approx(0.4));
  CHECK(curve.at(Metres(60.0)).value() == Approx(1.2));
  const ErrorCurve low{.knots = {{Metres(10.0), Metres(0.01)}}, .least = Metres(0.1)};
  CHECK(low.at(Metres(5.0)).value() == Approx(0.1));
}

TEST_CASE("cross-validation says what it did") {
  const KnownLake lake = holes();
  const auto soundings = tracks(lake, {.apart = 70.0});
  const Surface surface = fit_surface(frame_of(), shoreline(lake), soundings, {});
  const CrossValidation& check = surface.check;
  CHECK(check.folds == 5);
  CHECK(check.block > Metres(35.0));
  CHECK(check.all.count > soundings.size() * 99 / 100);  // each sounding is held back once
  CHECK(check.all.count <= soundings.size());
  CHECK(check.all.rmse > Metres(0.095));  // their own noise is in it
  CHECK(check.all.rmse < Metres(0.5));
  CHECK(std::abs(check.all.bias.value()) < 0.05);
  CHECK(check.all.p95 > check.all.rmse);
  std::size_t sum = 0;
  for (const HeldBackByDepth& depth_class : check.by_depth) sum += depth_class.result.count;
  CHECK(check.by_depth.size() == 5);
  CHECK(sum == check.all.count);
}

// A systematic error shows as bias: a surface cannot know it, but a second, wrong boat is seen where they overlap.
TEST_CASE("disagreeing boats raise the error") {
  const KnownLake lake = lobed();
  std::vector<Sounding> agree = tracks(lake, {.apart = 80.0});
  std::vector<Sounding> differ = agree;
  const auto second = tracks(lake, {.apart = 80.0, .heading = 110.0, .seed = 8});
  for (Sounding sounding : second) {
    agree.push_back(sounding);
    sounding.depth = sounding.depth + Metres32(0.6F);
    differ.push_back(sounding);
  }
  const Surface good = fit_surface(frame_of(), shoreline(lake), agree, {});
  const Surface bad = fit_surface(frame_of(), shoreline(lake), differ, {});
  CHECK(bad.check.all.rmse > 2.0 * good.check.all.rmse);
  CHECK(bad.check.curve.at(Metres(10.0)) > 1.5 * good.check.curve.at(Metres(10.0)));
}
