// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// What the intervals of ranks are worth: simulated surveys of a lake that is known.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <utility>

#include "castplan/spots/rank.hpp"
#include "support/detecting.hpp"
#include "support/noise.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

#ifdef __SANITIZE_ADDRESS__
constexpr unsigned kSurveys = 2;  // slow under the sanitizers, which look for other faults than the coverage's
#else
constexpr unsigned kSurveys = 12;
#endif

const Phase& phase() { return *phase_named(species("muskellunge"), "early-summer"); }

/// A lake 1.4 km across whose break winds, steepens and flattens from place to place, with humps on its shelf.
Grid<Metres32> true_floor() {
  const std::vector<Gauss> humps{{{380, 120}, Metres(2.5), Metres(35)},
                                 {{-300, 260}, Metres(3), Metres(45)},
                                 {{-150, -420}, Metres(2), Metres(40)},
                                 {{240, -330}, Metres(3.5), Metres(50)}};
  return filled(frame_about(Metres(720), Metres(5)), [&](XY at) {
    const double r = std::hypot(at.x, at.y), turn = std::atan2(at.y, at.x);
    const double shore = 640 + 40 * std::cos(3 * turn) + 20 * std::sin(7 * turn);
    if (r >= shore) return static_cast<double>(kLand.value());
    const double edge = 460 + 50 * std::sin(4 * turn) + 25 * std::cos(9 * turn);  // middle of the break
    const double half = 22 + 14 * std::sin(5 * turn + 1);                         // half of its width
    const double down = std::clamp((edge + half - r) / (2 * half), 0.0, 1.0);
    double depth = std::min(2.2 + 0.4 * std::sin(3 * turn), (shore - r) / 20) + 6 * down;
    for (const Gauss& hump : humps) depth -= gauss_at(hump, at);
    return std::max(depth, 0.3);
  });
}

std::vector<MappedStructure> wood() {
  return {{"wood", "", "", "wood.shp", Points{{430, 140}, {-330, 330}, {20, 470}, {-420, -160}, {210, -390}}}};
}

struct Surveyed {
  Lake lake;
  std::vector<Feature> features;
};

Surveyed surveyed(Grid<Metres32> floor, Metres error, Metres weeds) {
  Surveyed out{lake_of(std::move(floor)), {}};
  out.lake.depth_error = error;
  out.lake.depth_error_known = true;
  const auto structure = wood();
  out.features =
      find_features(Ground{out.lake, {}, {}, WeedKnowledge{weeds, WeedSource::observed}, structure, {}, {}}, {});
  return out;
}

/// Covered and all places, and the widths of the intervals over the number of leading places.
struct Coverage {
  int covered = 0, all = 0;
  std::vector<double> widths;
};

/// One survey with an error that is alike over tens of metres: the ranks of its places on the true lake.
void add_survey(const Surveyed& truth, Metres error, Metres weed_error, unsigned seed, Coverage& coverage) {
  std::mt19937 random(seed + 1000);
  std::normal_distribution<double> normal;
  const Metres weeds = Metres(3.6) + weed_error * normal(random);
  Grid<Metres32> floor = noisy(true_floor(), error.value(), true, seed);
  const auto level = static_cast<float>(0.1 * normal(random));  // the surface on the day, read wrong
  for (Metres32& depth : floor.cells()) depth = depth + Metres32(depth.value() > 0.4F ? level : 0.0F);
  const Surveyed survey = surveyed(std::move(floor), error, weeds);
  SpotOptions options;
  options.most = 30;  // all leading places
  options.weed_error = weed_error;
  const auto spots = rank_spots(survey.lake, survey.features, phase(), options).spots;
  const std::vector<double> worth = worth_of(spots, truth.lake, truth.features, phase(), options);
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const auto rank = 1 + std::count_if(worth.begin(), worth.end(), [&](double other) { return other > worth[i]; });
    coverage.covered += rank >= spots[i].rank_low && rank <= spots[i].rank_high ? 1 : 0;
    ++coverage.all;
    coverage.widths.push_back(static_cast<double>(spots[i].rank_high - spots[i].rank_low) /
                              static_cast<double>(spots.size()));
  }
}

}  // namespace

TEST_CASE("intervals of ranks hold the rank on the true lake as often as they say") {
  const Metres error(GENERATE(0.15, 0.3));
  const Surveyed truth = surveyed(true_floor(), Metres(0.05), Metres(3.6));
  Coverage coverage;
  for (unsigned seed = 1; seed <= kSurveys; ++seed) add_survey(truth, error, Metres(0.3), seed, coverage);
  std::sort(coverage.widths.begin(), coverage.widths.end());
  const double share = static_cast<double>(coverage.covered) / coverage.all;
  const double width = coverage.widths[coverage.widths.size() / 2];
  WARN("depth error " << error.value() << " m: " << coverage.all << " places, covered " << share << ", median width "
                      << width << " of all");
  REQUIRE(coverage.all > 12 * static_cast<int>(kSurveys));
  if (kSurveys < 12) {
    CHECK(share >= 0.7);  // of some thirty places
    return;
  }
  CHECK(share >= 0.85);
  CHECK(share <= 0.97);
  CHECK(width < 1.0 / 3);
}
