// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Every reason of a score is doubted as what it is: the curve that its doubt goes by gives the suitability that the
// score was made of.
#include "spots/doubt.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

TEST_CASE("each reason is doubted by its own curve, whatever the factor is called") {
  const Lake lake = lake_of(ring_break(Metres(200), Metres(2.5), Metres(9), Metres(20), Metres(330), Metres(5)));
  const std::vector<MappedStructure> wood{{"wood", "", "", "wood.shp", Points{{205, 0}, {-190, 30}}}};
  const auto features = find_features(Ground{lake, {}, {}, {}, wood, {}, {}}, {});
  const Surroundings surroundings(lake, features, SpotOptions{}.reach);
  std::set<Factor> seen;
  for (const Phase& phase : species("muskellunge").phases) {
    for (Target& target : targets(lake, surroundings, phase, {})) {
      judge(target, lake, surroundings, phase);
      const TargetDoubt doubt = doubt_of(target, lake, surroundings, phase);
      REQUIRE(doubt.doubts.size() == target.why.size());
      for (std::size_t i = 0; i < target.why.size(); ++i) {
        const Reason& reason = target.why[i];
        const Doubt& each = doubt.doubts[i];
        CAPTURE(phase.name, reason.factor);
        seen.insert(each.factor);
        CHECK(words_of(each.factor) == reason.factor);
        REQUIRE(each.curve != nullptr);
        CHECK((*each.curve)(reason.value) == Approx(reason.suitability).margin(6e-5));  // printed to 1e-4
      }
    }
  }
  for (const Factor factor : {Factor::depth, Factor::edge, Factor::cover, Factor::deep_water, Factor::meeting_edges}) {
    CAPTURE(words_of(factor));
    CHECK(seen.count(factor) == 1);
  }
}

TEST_CASE("no two factors go by the same words") {
  std::set<std::string_view> words;
  for (const Factor factor :
       {Factor::depth, Factor::edge, Factor::cover, Factor::deep_water, Factor::meeting_edges, Factor::light}) {
    CHECK(words.insert(words_of(factor)).second);
  }
}
