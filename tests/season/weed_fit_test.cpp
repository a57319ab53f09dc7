// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/season/weeds.hpp"

using namespace castplan;

namespace {

// Knuth's MMIX generator: the same numbers everywhere.
struct Dice {
  std::uint64_t state;
  double operator()() {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<double>(state >> 11) / 9007199254740992.0;
  }
};

// Presence falls with depth; even odds at edge, a tenth of the way per metre set by steepness.
std::vector<PlantSample> draw(std::uint64_t seed, int count, double edge, double steepness) {
  Dice dice{seed};
  for (int i = 0; i < 10; ++i) dice();
  std::vector<PlantSample> samples;
  for (int i = 0; i < count; ++i) {
    const double z = 8.0 * dice();
    samples.push_back({Metres(z), dice() < 1.0 / (1.0 + std::exp(steepness * (z - edge)))});
  }
  return samples;
}

void add(std::vector<PlantSample>& samples, double depth, int present, int bare) {
  for (int i = 0; i < present; ++i) samples.push_back({Metres(depth), true});
  for (int i = 0; i < bare; ++i) samples.push_back({Metres(depth), false});
}

// Two depths only: the fit passes through both shares, so all of it has a closed form. With l the log odds and v their
// variance (1/present + 1/bare) at each depth, even odds lie at z1 + (z2 - z1) l1 / (l1 - l2).
struct Closed {
  double edge, half;
};
Closed closed_form(double z1, double p1, double b1, double z2, double p2, double b2) {
  const double l1 = std::log(p1 / b1);
  const double l2 = std::log(p2 / b2);
  const double d1 = -(z2 - z1) * l2 / ((l1 - l2) * (l1 - l2));
  const double d2 = (z2 - z1) * l1 / ((l1 - l2) * (l1 - l2));
  const double variance = d1 * d1 * (1 / p1 + 1 / b1) + d2 * d2 * (1 / p2 + 1 / b2);
  return {z1 + (z2 - z1) * l1 / (l1 - l2), 1.6448536 * std::sqrt(variance)};
}

}  // namespace

TEST_CASE("weed edge from two depths has a closed form") {
  std::vector<PlantSample> samples;
  add(samples, 1, 8, 2);
  add(samples, 3, 2, 8);
  const WeedDepth even = fit_weed_depth(samples);
  CHECK(even.expected.value() == Approx(2.0).margin(1e-9));
  CHECK(even.deepest == Metres(3));  // the deepest sample with a plant
  CHECK(even.high.value() - even.expected.value() == Approx(closed_form(1, 8, 2, 3, 2, 8).half).margin(1e-6));

  samples.clear();
  add(samples, 2, 9, 1);
  add(samples, 5, 3, 7);
  const WeedDepth skewed = fit_weed_depth(samples);
  const Closed closed = closed_form(2, 9, 1, 5, 3, 7);
  CHECK(skewed.expected.value() == Approx(closed.edge).margin(1e-8));
  CHECK(skewed.low.value() == Approx(closed.edge - closed.half).margin(1e-6));
  CHECK(skewed.high.value() == Approx(closed.edge + closed.half).margin(1e-6));
}

TEST_CASE("the 90 % interval of the weed edge holds the truth about nine times in ten") {
  int held = 0;
  const int lakes = 400;
  for (int seed = 1; seed <= lakes; ++seed) {
    const WeedDepth fit = fit_weed_depth(draw(static_cast<std::uint64_t>(seed), 200, 3.7, 1.5));
    CHECK(fit.low <= fit.expected);
    CHECK(fit.expected <= fit.high);
    if (fit.low.value() <= 3.7 && 3.7 <= fit.high.value()) ++held;
  }
  // 400 draws at 0.9: standard deviation 6, so 360 +/- 3 of them
  CHECK(held >= 342);
  CHECK(held <= 378);
}

TEST_CASE("many samples find the edge") {
  const WeedDepth fit = fit_weed_depth(draw(7, 20000, 4.2, 2.0));
  CHECK(fit.expected.value() == Approx(4.2).margin(0.05));
  CHECK(fit.high.value() - fit.low.value() < 0.1);
}

TEST_CASE("the fit does not hang on the order or the unit of the samples") {
  auto samples = draw(11, 150, 3.0, 1.2);
  const WeedDepth fit = fit_weed_depth(samples);
  auto scaled = samples;
  for (PlantSample& sample : scaled) sample.depth = sample.depth * 100.0;
  CHECK(fit_weed_depth(scaled).expected.value() == Approx(100.0 * fit.expected.value()));
  std::vector<PlantSample> turned(samples.rbegin(), samples.rend());
  CHECK(fit_weed_depth(turned).expected.value() == Approx(fit.expected.value()).margin(1e-9));
}

TEST_CASE("a clean edge lies between the deepest plant and the shallowest bare sample") {
  std::vector<PlantSample> samples;
  for (int i = 0; i < 6; ++i) add(samples, 0.5 * i + 0.5, 1, 0);  // to 3 m
  for (int i = 0; i < 6; ++i) add(samples, 0.5 * i + 3.8, 0, 1);  // from 3.8 m
  const WeedDepth fit = fit_weed_depth(samples);
  CHECK(fit.low.value() == Approx(3.0));
  CHECK(fit.expected.value() == Approx(3.4));
  CHECK(fit.high.value() == Approx(3.8));
}

TEST_CASE("samples that cannot tell are refused with the reason") {
  std::vector<PlantSample> samples;
  add(samples, 1, 5, 0);
  add(samples, 3, 0, 4);
  CHECK_THROWS_WITH(fit_weed_depth(samples), Catch::Contains("9") && Catch::Contains("at least 10"));
  samples.push_back({Metres(std::nan("")), false});  // unknown depth does not count
  CHECK_THROWS_AS(fit_weed_depth(samples), InputError);

  samples.clear();
  add(samples, 1, 12, 0);
  CHECK_THROWS_WITH(fit_weed_depth(samples), Catch::Contains("all 12") && Catch::Contains("deeper"));
  samples.clear();
  add(samples, 1, 0, 12);
  CHECK_THROWS_WITH(fit_weed_depth(samples), Catch::Contains("all 12") && Catch::Contains("shallower"));

  samples.clear();  // the wrong way about, cleanly and not
  add(samples, 1, 0, 8);
  add(samples, 3, 8, 0);
  CHECK_THROWS_WITH(fit_weed_depth(samples), Catch::Contains("scarcer with depth"));
  add(samples, 2, 4, 4);
  CHECK_THROWS_WITH(fit_weed_depth(samples), Catch::Contains("scarcer with depth"));
  samples.clear();  // no fall at all
  add(samples, 1, 10, 10);
  add(samples, 3, 10, 10);
  CHECK_THROWS_WITH(fit_weed_depth(samples), Catch::Contains("scarcer with depth"));
  samples.clear();
  add(samples, 2, 10, 10);
  CHECK_THROWS_AS(fit_weed_depth(samples), InputError);
  samples.clear();  // plants still grow at the deepest sample
  add(samples, 1, 199, 1);
  add(samples, 3, 160, 40);
  CHECK_THROWS_WITH(fit_weed_depth(samples), Catch::Contains("outside the sampled"));
}
