// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/survey/clean.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <set>
#include <vector>

#include "survey/known_surfaces.hpp"

using namespace castplan;
using namespace castplan::known;

namespace {

Sounding sounding(double x, double y, double depth) { return known::sounding(XY{x, y}, depth); }

/// Straight track with the depth as a function of the way in metres, and noise.
template <class Depth>
std::vector<Sounding> track(const Depth& depth, int count, double step, double noise, unsigned seed = 5) {
  std::mt19937 random(seed);
  std::normal_distribution<double> law(0.0, noise);
  std::vector<Sounding> result;
  for (int i = 0; i < count; ++i) result.push_back(sounding(i * step, 0.0, depth(i * step) + law(random)));
  return result;
}

std::set<std::size_t> rejected(const Cleaned& cleaned, Rejection reason) {
  std::set<std::size_t> numbers;
  for (const Rejected& r : cleaned.rejected) {
    if (r.reason == reason) numbers.insert(r.number);
  }
  return numbers;
}

}  // namespace

TEST_CASE("every sounding is kept or rejected with its reason") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const KnownLake lake = paraboloid();
  std::vector<Sounding> soundings = tracks(lake);
  const std::size_t good = soundings.size();
  soundings.push_back(sounding(0, 0, nan));
  soundings.push_back(sounding(INFINITY, 0, 3));
  soundings.push_back(sounding(10, 10, -4));
  soundings.push_back(sounding(600, 0, 4));
  soundings.push_back(soundings[100]);
  const Cleaned cleaned = clean_soundings(soundings, shoreline(lake));
  CHECK(rejected(cleaned, Rejection::not_finite) == std::set<std::size_t>{good, good + 1});
  CHECK(rejected(cleaned, Rejection::above_water) == std::set<std::size_t>{good + 2});
  CHECK(rejected(cleaned, Rejection::on_land) == std::set<std::size_t>{good + 3});
  CHECK(cleaned.count(Rejection::duplicate) == 1);
  CHECK(cleaned.count(Rejection::spike) == 0);
  CHECK(cleaned.count(Rejection::outlier) == 0);
  CHECK(cleaned.kept.size() + cleaned.rejected.size() == soundings.size());
  std::size_t sum = 0;
  for (const std::size_t count : cleaned.counts) sum += count;
  CHECK(sum == cleaned.rejected.size());
}

TEST_CASE("spikes along a track are found, single and in pairs") {
  std::vector<Sounding> soundings = track([](double x) { return 8.0 + 2.0 * std::sin(x / 60.0); }, 400, 3.0, 0.05);
  const std::set<std::size_t> spiked{40, 120, 121, 250, 333};
  for (const std::size_t i : spiked) soundings[i].depth = soundings[i].depth + Metres32(i % 2 ? 4.0F : -3.0F);
  soundings[121].depth = soundings[120].depth;
  const Cleaned cleaned = clean_soundings(soundings, {});
  CHECK(rejected(cleaned, Rejection::spike) == spiked);
  CHECK(cleaned.kept.size() == soundings.size() - spiked.size());
}

TEST_CASE("half a thousand random spikes on four lakes, nothing else") {
  for (const KnownLake& lake : {paraboloid(), lobed(), holes(), ridge()}) {
    std::vector<Sounding> soundings = tracks(lake);
    std::mt19937 random(11);
    std::uniform_int_distribution<std::size_t> which(0, soundings.size() - 1);
    std::uniform_real_distribution<float> size(2.5F, 12.0F);
    std::set<std::size_t> spiked;
    while (spiked.size() < 120) spiked.insert(which(random));
    for (const std::size_t i : spiked) soundings[i].depth = soundings[i].depth + Metres32(size(random));
    const Cleaned cleaned = clean_soundings(soundings, shoreline(lake));
    std::size_t found = 0;
    std::size_t wrong = 0;
    for (const Rejected& r : cleaned.rejected) ++(spiked.contains(r.number) ? found : wrong);
    INFO(lake.name << ": found " << found << ", wrong " << wrong);
    CHECK(found >= 114);  // 95 %
    CHECK(wrong <= soundings.size() / 1000);
  }
}

TEST_CASE("steep ground is no spike") {
  const auto none = [](const std::vector<Sounding>& soundings) {
    return clean_soundings(soundings, {}).rejected.empty();
  };
  // a wall of 12 m within one step, a slope of 45 degrees, a sharp ridge and a trench of 30 degrees, a step up and down
  CHECK(none(track([](double x) { return x < 300 ? 3.0 : 15.0; }, 200, 3.0, 0.05)));
  CHECK(none(track([](double x) { return 2.0 + std::max(0.0, x - 150.0); }, 100, 3.0, 0.05)));
  CHECK(none(track([](double x) { return 4.0 + 0.58 * std::abs(x - 300.0); }, 200, 3.0, 0.05)));
  CHECK(none(track([](double x) { return 250.0 - 0.58 * std::abs(x - 300.0); }, 200, 3.0, 0.05)));
  CHECK(none(track([](double x) { return x > 200 && x < 230 ? 12.0 : 4.0; }, 200, 3.0, 0.05)));
}

TEST_CASE("a depth that all neighbours contradict is an outlier, a hump that others confirm is not") {
  std::mt19937 random(2);
  std::uniform_real_distribution<double> place(0.0, 200.0);
  std::normal_distribution<double> noise(0.0, 0.1);
  std::vector<Sounding> soundings;
  for (int i = 0; i < 4000; ++i) {
    const double x = place(random);
    const double y = place(random);
    const double hump = std::hypot(x - 50, y - 50) < 6.0 ? 4.0 : 0.0;  // a rock pile, a few soundings wide
    soundings.push_back(sounding(x, y, 9.0 + 0.05 * x - hump + noise(random)));
  }
  // at random places the order is no track, and each sounding can only be judged by its neighbours
  soundings[1000] = sounding(120.0, 120.0, 30.0);
  const Cleaned cleaned = clean_soundings(soundings, {}, {.same_place = Metres(0.0)});
  CHECK((rejected(cleaned, Rejection::outlier).contains(1000) || rejected(cleaned, Rejection::spike).contains(1000)));
  std::size_t on_hump = 0;
  for (const Rejected& r : cleaned.rejected) {
    if (std::hypot(r.sounding.at.x - 50, r.sounding.at.y - 50) < 6.0) ++on_hump;
  }
  CHECK(on_hump == 0);
  CHECK(cleaned.rejected.size() == 1);
}

TEST_CASE("of soundings at one place the middle one stays") {
  std::vector<Sounding> soundings;
  for (const double depth : {5.0, 5.3, 5.1}) soundings.push_back(sounding(100.01, 50.01, depth));
  soundings.push_back(sounding(140.0, 50.0, 6.0));
  const Cleaned cleaned = clean_soundings(soundings, {});
  REQUIRE(cleaned.kept.size() == 2);
  CHECK(cleaned.kept.front().depth.value() == Approx(5.1));
  CHECK(cleaned.count(Rejection::duplicate) == 2);
}

TEST_CASE("the reasons have names and nothing is no trouble") {
  CHECK(text(Rejection::on_land) == "on land");
  CHECK(text(Rejection::duplicate) == "duplicate");
  const Cleaned cleaned = clean_soundings({}, {});
  CHECK(cleaned.kept.empty());
  CHECK(cleaned.rejected.empty());
}
