// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/error.hpp"

#include <array>
#include <catch2/catch.hpp>

using namespace castplan;

namespace {
constexpr std::array<std::string_view, 4> kVerbs{"scout", "inspect", "grid", "publish"};
}

TEST_CASE("the nearest known name is guessed", "[error]") {
  CHECK(nearest_name("scuot", kVerbs) == "scout");  // two letters changed
  CHECK(nearest_name("inspct", kVerbs) == "inspect");
  CHECK(nearest_name("GRID", kVerbs) == "grid");  // capitals cost nothing
  CHECK(nearest_name("publishing", kVerbs) == "publish");
  CHECK(nearest_name("kitten", std::array<std::string_view, 1>{"sitting"}) == "sitting");  // distance 3 (Levenshtein)
}

TEST_CASE("nothing is guessed from afar", "[error]") {
  CHECK(nearest_name("measure", kVerbs).empty());
  CHECK(nearest_name("", kVerbs).empty());
  CHECK(nearest_name("x", std::array<std::string_view, 1>{"m"}).empty());
  CHECK(nearest_name("scout", std::array<std::string_view, 0>{}).empty());
}

TEST_CASE("the first of equally near names is taken", "[error]") {
  CHECK(nearest_name("rock", std::array<std::string_view, 2>{"lock", "sock"}) == "lock");
}

TEST_CASE("names are listed with commas", "[error]") {
  CHECK(listed(kVerbs) == "scout, inspect, grid, publish");
  CHECK(listed(std::array<std::string_view, 1>{"grid"}) == "grid");
  CHECK(listed(std::array<std::string_view, 0>{}).empty());
}
