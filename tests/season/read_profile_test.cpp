// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "castplan/geo/error.hpp"
#include "castplan/season/profile.hpp"

using namespace castplan;

namespace {

// An invented fish, as small as a profile can be.
const std::string kFish = R"(name = "test-fish"
title = "Test fish"
latin = "Piscis probandus"
caution_from = { value = "68 F", source = "guess" }
stop_from = { value = "77 F", source = "guess" }
handling = [ { text = "Be kind.", source = "recalled" } ]

[sources]
guess = { text = "made up for a test", mark = "design" }
recalled = { text = "an old book", mark = "memory" }

[[phase]]
name = "cool"
title = "Cool"
rising = { to = "77 F", source = "guess" }
falling = { to = "25 C", source = "guess" }
what = "It swims."
where = "In the water."
depth = { unit = "m", points = [[1, 0.1], [2, 1]], source = "recalled" }
meeting = { unit = "kinds", points = [[1, 0.5], [3, 1]], source = "guess" }
weights = { depth = 0.75, meeting_edges = 0.25, source = "guess" }
lures = [ { lure = "jerkbait", run = ["0.5 m", "8 ft"], retrieve = "steady", source = "guess" } ]

[[phase]]
name = "hot"
title = "Hot"
fishable = false
stop_reason = "It is hot."
look_again = "when it is not."
ranked_as = "cool"
rising = { from = "77 F", source = "guess" }
falling = { from = "25 C", source = "guess" }
what = "It pants."
where = "Nowhere."
)";

std::string with(const std::string& old_text, const std::string& new_text) {
  std::string text = kFish;
  const auto at = text.find(old_text);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old_text.size(), new_text);
}

// The file is always named, and the exception is always bad input.
void refuses(const std::string& old_text, const std::string& new_text, const std::string& because) {
  const std::string text = with(old_text, new_text);
  INFO("instead of: " << old_text << "\nread: " << new_text);
  CHECK_THROWS_AS(read_profile(text, "fish.toml"), InputError);
  CHECK_THROWS_WITH(read_profile(text, "fish.toml"), Catch::StartsWith("fish.toml") && Catch::Contains(because));
}

}  // namespace

TEST_CASE("a profile is read as written") {
  const Profile fish = read_profile(kFish, "fish.toml");
  CHECK(fish.name == "test-fish");
  CHECK(fish.latin == "Piscis probandus");
  CHECK(fish.caution_from->value.value() == Approx(20.0));
  CHECK(fish.stop_from->value == fahrenheit(77));
  CHECK(fish.stop_text == "77 F");
  CHECK(fish.text == kFish);
  REQUIRE(fish.phases.size() == 2);
  const Phase& cool = fish.phases[0];
  CHECK(cool.fishable);
  CHECK(cool.rising->to == fahrenheit(77));
  CHECK(cool.depth(1.5) == Approx(0.55));
  CHECK(cool.depth.source.mark == "memory");
  REQUIRE(cool.weights.size() == 2);
  CHECK(cool.weights[0].first == Factor::depth);
  CHECK(cool.weights[0].second.value == 0.75);
  CHECK(cool.weights[1].first == Factor::meeting_edges);
  REQUIRE(cool.lures.size() == 1);
  CHECK(cool.lures[0].lure == LureClass::jerkbait);
  CHECK(cool.lures[0].run_to.value() == Approx(2.4384));
  CHECK(cool.interval_sources[0].first == "rising to");
}

TEST_CASE("catch rates are kept as fish and hours, and those from memory are named") {
  const std::string before = "handling =";
  const std::string rates =
      "catch_rates = [ { fish = 3, hours = 100.5, counted = \"long ones\", source = \"recalled\" } ]\n";
  const Profile fish = read_profile(with(before, rates + before), "fish.toml");
  REQUIRE(fish.catch_surveys.size() == 1);
  CHECK(fish.catch_surveys[0].fish == 3);
  CHECK(fish.catch_surveys[0].hours == 100.5);
  CHECK(fish.catch_surveys[0].counted == "long ones");
  CHECK(std::count(fish.unverified.begin(), fish.unverified.end(), "catch rate (an old book)") == 1);
  CHECK(read_profile(kFish, "fish.toml").catch_surveys.empty());
  const auto refused = [&](const std::string& row, const std::string& because) {
    refuses(before, "catch_rates = [ " + row + " ]\n" + before, because);
  };
  refused("{ fish = 3, hours = 0, source = \"guess\" }", "hours: expected angler-hours");
  refused("{ fish = -1, hours = 10, source = \"guess\" }", "fish: expected how many");
  refused("{ fish = 1, hours = 10 }", "\"source\" is missing");
  refused("{ fish = 1, hour = 10, source = \"guess\" }", "did you mean \"hours\"?");
}

TEST_CASE("welfare advice carries its source, and memory is named") {
  const Profile fish = read_profile(kFish, "fish.toml");
  CHECK(fish.handling == std::vector<std::string>{"Be kind (an old book, from memory)."});
  REQUIRE(fish.unverified.size() >= 2);
  CHECK(fish.unverified[0] == "cool, depth (an old book)");
  CHECK(fish.unverified.back() == "Be kind. (an old book)");
}

TEST_CASE("a closed phase can be ranked like another when its stop is set aside") {
  const Profile fish = read_profile(kFish, "fish.toml");
  const Phase& hot = fish.phases[1];
  CHECK_FALSE(hot.fishable);
  CHECK(hot.stop_reason == "It is hot.");
  CHECK(hot.weights.size() == 2);
  CHECK(hot.depth(1.5) == Approx(0.55));
  CHECK(hot.lures.size() == 1);
}

TEST_CASE("malformed profiles: keys") {
  refuses("latin =", "latn =", "line 3: unknown key \"latn\", did you mean \"latin\"?");
  refuses("weights =", "wieghts =", "phase cool: unknown key \"wieghts\", did you mean \"weights\"?");
  refuses("retrieve =", "retreive =", "did you mean \"retrieve\"?");
  refuses("points = [[1, 0.1]", "point = [[1, 0.1]", "phase cool, depth: unknown key \"point\"");
  refuses("title = \"Test fish\"\n", "", "\"title\" is missing");
  refuses("where = \"Nowhere.\"\n", "", "phase hot: \"where\" is missing");
  refuses("what = \"It swims.\"", "what = 7", "what is a bare number; expected a text");
  refuses("what = \"It swims.\"", "what = \"\"", "what is empty");
  refuses("name = \"test-fish\"", "name = \"Test Fish\"", "small letters, digits and hyphens");
  refuses("title = \"Hot\"", "title = ", "line 26: not TOML");
}

TEST_CASE("malformed profiles: numbers without unit or source") {
  refuses("value = \"68 F\"", "value = 68",
          "caution_from: value is a bare number; expected a temperature with its unit");
  refuses("value = \"68 F\"", "value = \"68\"", "caution_from: value: ");
  refuses("value = \"68 F\", source = \"guess\"", "value = \"68 F\"", "caution_from: \"source\" is missing");
  refuses("to = \"77 F\", source = \"guess\"", "to = \"77 F\", source = \"gess\"",
          "phase cool, rising: source \"gess\" does not stand in [sources], did you mean \"guess\"?");
  refuses("where = \"In the water.\"", "where = \"At 3 m.\"",
          "\"At 3 m.\" holds a number; say whence with prose_source");
  refuses("mark = \"memory\"", "mark = \"hearsay\"", "mark \"hearsay\" is unknown; known are published");
  refuses("mark = \"memory\"", "mark = \"\"", "mark is empty");
  refuses("unit = \"m\"", "unit = \"ft\"", "unit \"ft\"; expected \"m\"");
  refuses("[\"0.5 m\", \"8 ft\"]", "[0.5, 2]", "expected a length with its unit");
  refuses("[\"0.5 m\", \"8 ft\"]", "[\"3 m\", \"8 ft\"]", "shallowest first");
  refuses("[\"0.5 m\", \"8 ft\"]", "[\"0.5 m\"]", "expected two depths");
}

TEST_CASE("malformed profiles: curves, weights and lures") {
  refuses("[2, 1]]", "[1, 1]]", "points must ascend");
  refuses("[2, 1]]", "[2, 1.2]]", "suitability 1.2; expected 0 to 1");
  refuses("[2, 1]]", "[2, -0.1]]", "suitability -0.1; expected 0 to 1");
  refuses("[2, 1]]", "[2, nan]]", "expected a number");
  refuses("[2, 1]]", "[2]]", "expected a point");
  refuses("[[1, 0.1], [2, 1]]", "[]", "points is empty");
  refuses("depth = 0.75", "depth = 0.7", "weights sum to 0.95; expected 1");
  refuses("depth = 0.75", "depth = 1.25, edge = -0.5", "a weight is more than 0");
  refuses("depth = 0.75", "depth = 0.5, cover = 0.25", "cover has a weight but the curve \"cover\" is missing");
  refuses("meeting_edges = 0.25", "light = 0.25", "unknown key \"light\"");
  refuses("depth = 0.75, meeting_edges = 0.25", "depth = 1", "the curve \"meeting\" counts for nothing");
  refuses("lure = \"jerkbait\"", "lure = \"jerkbiat\"", "did you mean \"jerkbait\"?");
  refuses("lures = [ {", "lures = []\nx = [ {", "unknown key \"x\"");
}

TEST_CASE("malformed profiles: intervals") {
  refuses("rising = { to = \"77 F\"", "rising = { to = \"76 F\"",
          "rising: 24.4444 to 25 C, between cool and hot, belongs to no phase");
  refuses("falling = { from = \"25 C\"", "falling = { from = \"24 C\"", "falling: 24 C belongs to both cool and hot");
  refuses("rising = { from = \"77 F\", source", "rising = { from = \"77 F\", to = \"30 C\", source",
          "rising: 30 to 35 C belongs to no phase");
  refuses("falling = { to = \"25 C\"", "falling = { from = \"2 C\", to = \"25 C\"",
          "falling: 0 to 2 C belongs to no phase");
  refuses("rising = { to = \"77 F\"", "rising = { from = \"80 F\", to = \"77 F\"", "from must be colder than to");
  refuses("rising = { to = \"77 F\"", "rising = { from_source = \"guess\", to = \"77 F\"", "from_source without from");
  refuses("name = \"hot\"", "name = \"cool\"", "two phases are called cool");
}

TEST_CASE("malformed profiles: stops") {
  refuses("value = \"77 F\"", "value = \"76 F\"", "phase cool is fishable and reaches beyond stop_from, 76 F");
  refuses("value = \"68 F\"", "value = \"77 F\"", "caution_from must lie below stop_from");
  refuses("look_again = \"when it is not.\"\n", "", "phase hot: \"look_again\" is missing");
  refuses("ranked_as = \"cool\"", "ranked_as = \"cold\"", "expected the name of a fishable phase");
  refuses("ranked_as = \"cool\"\n", "", "phase hot: give ranked_as");
  refuses("fishable = false\n", "", "belongs to a phase with fishable = false");
  refuses("fishable = false", "fishable = \"no\"", "fishable is a text; expected true or false");
  refuses("handling = [ { text = \"Be kind.\", source = \"recalled\" } ]", "handling = []", "handling");
}

TEST_CASE("limits of two scales that mean the same meet") {
  // 77 F and 25 C are the same temperature
  const Profile fish = read_profile(with("falling = { from = \"25 C\"", "falling = { from = \"77 F\""), "fish.toml");
  CHECK(phase_at(fish, Celsius(25), Trend::falling).name == "hot");
  CHECK(phase_at(fish, Celsius(24.999), Trend::falling).name == "cool");
}

TEST_CASE("limits that not every fish has are read and checked") {
  const std::string more =
      "deep_release = { value = \"30 ft\", source = \"guess\" }\nreach = { value = \"12 m\", source = \"guess\" }\n"
      "least_oxygen = { value = 4, source = \"recalled\" }\nhandling = [";
  const Profile fish = read_profile(with("handling = [", more), "fish.toml");
  CHECK(fish.deep_release->value.value() == Approx(9.144));
  CHECK(fish.reach->value == Metres(12));
  CHECK(fish.least_oxygen->value == 4.0);
  CHECK(std::find(fish.unverified.begin(), fish.unverified.end(), "least_oxygen (an old book)") !=
        fish.unverified.end());
  CHECK_FALSE(read_profile(kFish, "fish.toml").deep_release);
  refuses("handling = [", "deep_release = { value = 10, source = \"guess\" }\nhandling = [",
          "expected a length with its unit");
  refuses("handling = [", "reach = { value = \"-1 m\", source = \"guess\" }\nhandling = [", "more than 0");
  refuses("handling = [", "least_oxygen = { value = 40, source = \"guess\" }\nhandling = [", "less than 15");
}

TEST_CASE("depths may be counted from the thermocline") {
  const std::string curve =
      "depth_below_thermocline = { unit = \"m\", points = [[-2, 0.2], [1, 1]], source = \"guess\" }\n";
  const Profile fish = read_profile(with("meeting = {", curve + "meeting = {"), "fish.toml");
  CHECK(fish.phases[0].depth_below_thermocline(-0.5) == Approx(0.6));
  CHECK(fish.phases[1].depth_below_thermocline(1) == 1.0);  // ranked as the first
  refuses("ranked_as = \"cool\"\n", "ranked_as = \"cool\"\n" + curve, "exclude each other");
}

TEST_CASE("the edge of the weeds and waves may weigh something") {
  const std::string curve =
      "depth_below_weed_edge = { unit = \"m\", points = [[-2, 0.2], [1, 1]], weight = 0.2, source = \"guess\" }\n";
  const std::string waves =
      "waves = { unit = \"m\", points = [[0, 0.5], [0.2, 1]], weight = 0.1, source = \"guess\" }\n";
  const Profile fish = read_profile(with("meeting = {", curve + waves + "meeting = {"), "fish.toml");
  CHECK(fish.phases[0].depth_below_weed_edge(-0.5) == Approx(0.6));
  CHECK(fish.phases[1].depth_below_weed_edge(1) == 1.0);  // ranked as the first
  CHECK(fish.phases[0].weed_edge_weight == 0.2);
  CHECK(fish.phases[1].weed_edge_weight == 0.2);
  CHECK(fish.phases[0].waves(0.1) == Approx(0.75));
  CHECK(fish.phases[0].waves_weight == 0.1);
  CHECK(fish.phases[1].waves_weight == 0.1);
  refuses("meeting = {", "waves = { unit = \"m\", points = [[0, 1]], weight = 1, source = \"guess\" }\nmeeting = {",
          "less than 1");
  refuses("meeting = {", "waves = { unit = \"ft\", points = [[0, 1]], weight = 0.1, source = \"guess\" }\nmeeting = {",
          "expected \"m\"");
  refuses("ranked_as = \"cool\"\n", "ranked_as = \"cool\"\n" + waves, "exclude each other");
}

TEST_CASE("spawning ground is read whole or refused") {
  const std::string ground = R"([spawning_ground]
free_from = { value = "17 C", source = "guess" }
depth = { from = "1 ft", to = "2 m", source = "guess" }
grade = { from = 1, to = 12, unit = "%", source = "guess" }
area = { from = 500, to = 60000, unit = "m2", source = "guess" }
fetch = { to = "0.5 km", source = "recalled" }
concave = { value = true, source = "guess" }
reason = "Made up."
reason_source = "guess"

[sources])";
  const auto fish_with = [&](const std::string& old_text, const std::string& new_text) {
    std::string text = with("[sources]", ground);
    const auto name = text.find("name = \"hot\"");
    text.replace(name, 12, "name = \"spawn\"");
    text.replace(text.find(old_text), old_text.size(), new_text);
    return text;
  };
  const auto refused = [&](const std::string& old_text, const std::string& new_text, const std::string& because) {
    CHECK_THROWS_WITH(read_profile(fish_with(old_text, new_text), "fish.toml"), Catch::Contains(because));
  };
  // that spawn has no upper end, so that nothing can lie beyond it
  refused("Made up.", "Made up.", "17 C lies before the end of the spawn");
  refused("grade = { from = 1", "grade = { from = 20", "from below to");
  refused("unit = \"m2\"", "unit = \"ha\"", "unit \"ha\"; expected \"m2\"");
  refused("from = \"1 ft\"", "from = \"9 ft\"", "expected two depths");
  refused("concave = {", "convex = {", "unknown key \"convex\"");
  refused("reason = \"Made up.\"\n", "", "\"reason\" is missing");
  const Profile musky = species("muskellunge");
  REQUIRE(musky.spawning);
  CHECK(musky.spawning->free_from.value == Celsius(17));
  CHECK(musky.spawning->habitat.plants);
  for (const auto& [key, source] : musky.spawning->sources) CHECK_FALSE(source.text.empty());
}
