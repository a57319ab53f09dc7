// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/quantity.hpp"

#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <locale>
#include <random>
#include <type_traits>

#include "castplan/geo/error.hpp"
#include "castplan/geo/quantity_text.hpp"

using namespace castplan;
using Catch::Matchers::Contains;

namespace {

struct CommaPoint : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

}  // namespace

template <class A, class B>
concept CanAdd = requires(A a, B b) {
  a + b;
};

// What must not compile.
static_assert(!CanAdd<Metres, Degrees>);
static_assert(!CanAdd<Celsius, Celsius>);
static_assert(!std::is_convertible_v<double, Metres>);
static_assert(!std::is_convertible_v<Metres, double>);
static_assert(std::is_same_v<decltype(Metres(2) * Metres(3)), SquareMetres>);
static_assert(std::is_same_v<decltype(Metres(2) * Metres(3) * Metres(4)), CubicMetres>);
static_assert(std::is_same_v<decltype(Metres(2) / Metres(3)), double>);
static_assert(std::is_same_v<decltype(Celsius(2) - Celsius(1)), CelsiusStep>);

TEST_CASE("feet and fathoms are exact", "[quantity]") {
  // Source: international yard and pound agreement 1959, foot = 0.3048 m; fathom = 6 ft; US survey foot = 1200/3937 m
  // (US Federal Register 1959-07-01).
  CHECK(feet(1.0).value() == 0.3048);
  CHECK(fathoms(1.0).value() == Approx(6 * 0.3048).epsilon(1e-15));
  CHECK(to_feet(Metres(3.048)) == Approx(10.0).epsilon(1e-15));
  CHECK(metres_per(DepthUnit::foot) == 0.3048);
  CHECK(metres_per(DepthUnit::us_foot) == 1200.0 / 3937.0);
  CHECK(metres_per(DepthUnit::fathom) == Approx(1.8288).epsilon(1e-15));
  CHECK(metres_per(DepthUnit::metre) == 1.0);
}

TEST_CASE("temperatures of the trade", "[quantity]") {
  // Source: rows TR-SPAWN-LO, TR-SPAWN-HI and TR-HEAT-STOP of the project's table of checks (the limits themselves:
  // common practice, no source); the fixed points 32 F = 0 C and 212 F = 100 C by definition.
  CHECK(parse_temperature("50 F").value() == Approx(10.0).margin(0.01));
  CHECK(parse_temperature("60F").value() == Approx(15.5556).margin(0.01));
  CHECK(parse_temperature("75F").value() == Approx(23.8889).margin(0.01));
  // Rows FW-COLD (cold water, 46 CFR as quoted there) and SP-80F (benchmark of the trade: common practice).
  CHECK(parse_temperature("59 F").value() == Approx(15.0).margin(0.01));
  CHECK(parse_temperature("80 F").value() == Approx(26.6667).margin(0.001));
  CHECK(parse_temperature("32 degF").value() == 0.0);
  CHECK(parse_temperature("212 Fahrenheit").value() == 100.0);
  CHECK(parse_temperature("-40F").value() == Approx(-40.0));
  CHECK(to_fahrenheit(Celsius(100.0)) == Approx(212.0));
  CHECK(parse_temperature(" 14.5 C ").value() == 14.5);
  CHECK(parse_temperature("14.5\u00b0C").value() == 14.5);
  CHECK(parse_temperature("14.5celsius").value() == 14.5);
}

TEST_CASE("lengths are read with their unit", "[quantity]") {
  CHECK(parse_length("9ft").value() == Approx(2.7432));
  CHECK(parse_length("2.7 m").value() == 2.7);
  CHECK(parse_length("1.5 fathom").value() == Approx(2.7432));
  CHECK(parse_length("12.5 km").value() == 12500.0);
  CHECK(parse_length("40 yd").value() == Approx(36.576));
  CHECK(parse_length("+3 Feet").value() == Approx(0.9144));
  CHECK(parse_length("1e2 M").value() == 100.0);
  CHECK(parse_length("-0.5m").value() == -0.5);
  CHECK(parse_length("3937 US survey feet").value() == Approx(1200.0));
  CHECK(parse_length("2 mi").value() == Approx(3218.688));
}

TEST_CASE("a bare number is refused with the units and an example", "[quantity]") {
  CHECK_THROWS_AS(parse_length("9"), InputError);
  CHECK_THROWS_WITH(parse_length("9"), Contains("\"9\"") && Contains("bare number 9") &&
                                           Contains("m, km, cm, mm, ft") && Contains("9ft or 2.7 m"));
  CHECK_THROWS_WITH(parse_temperature("58"),
                    Contains("bare number 58") && Contains("known are C, F") && Contains("58F or 14.5C"));
}

TEST_CASE("text that is no quantity is refused", "[quantity]") {
  for (const char* text : {"", "  ", "ft", "abc", ". m", "inf m", "nan m", "1e999 m", "- 3 m", "+-3 m"}) {
    INFO(text);
    CHECK_THROWS_WITH(parse_length(text), Contains("no number at its start"));
  }
  CHECK_THROWS_WITH(parse_length("2,7 m"), Contains("comma inside the number"));
  CHECK_THROWS_WITH(parse_length("3 metrs"), Contains("unknown unit \"metrs\"") && Contains("did you mean metre?"));
  CHECK_THROWS_WITH(parse_temperature("58 K"), Contains("unknown unit \"K\""));
  CHECK_THROWS_AS(parse_length("12m-25m"), InputError);
}

TEST_CASE("depth units as users and files write them", "[quantity]") {
  for (const char* name : {"m", "M", "metre", "meter", "metres", "Meters", " m "}) {
    CHECK(parse_depth_unit(name) == DepthUnit::metre);
  }
  for (const char* name : {"ft", "FT", "feet", "Foot", "foot", "international foot"}) {
    CHECK(parse_depth_unit(name) == DepthUnit::foot);
  }
  for (const char* name : {"US survey foot", "us survey foot", "ftUS", "us-ft", "Foot_US", "US survey feet"}) {
    CHECK(parse_depth_unit(name) == DepthUnit::us_foot);
  }
  for (const char* name : {"fathom", "fathoms", "fm", "FM"}) CHECK(parse_depth_unit(name) == DepthUnit::fathom);
  CHECK_THROWS_WITH(parse_depth_unit("cubit"), Contains("\"cubit\"") && Contains("m, ft, US survey foot, fathom"));
  CHECK_THROWS_WITH(parse_depth_unit("fathms"), Contains("did you mean"));
  CHECK_THROWS_AS(parse_depth_unit(""), InputError);
}

TEST_CASE("quantities as people read them", "[quantity]") {
  CHECK(length_text(Metres(3.4), Units::metric) == "3.4 m");
  CHECK(length_text(Metres(3.4), Units::imperial) == "11 ft");  // 11.15 ft
  CHECK(length_text(Metres(0.6096), Units::imperial) == "2 ft");
  CHECK(length_text(Metres(-0.01), Units::metric) == "0.0 m");
  CHECK(length_text(Metres(-0.01), Units::imperial) == "0 ft");
  CHECK(length_text(Metres(-1.26), Units::metric) == "-1.3 m");
  CHECK(length_text(Metres(1234.5), Units::metric) == "1234.5 m");
  CHECK(temperature_text(fahrenheit(58.0), Units::metric) == "14.4 C");
  CHECK(temperature_text(fahrenheit(58.0), Units::imperial) == "58 F");
  CHECK(temperature_text(Celsius(-0.01), Units::metric) == "0.0 C");
}

TEST_CASE("what is printed can be read back to half its last digit", "[quantity]") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> depth(-20.0, 120.0);
  for (int i = 0; i < 2000; ++i) {
    const Metres length(depth(random));
    const Celsius water(depth(random) / 4.0);
    INFO("seed 11, " << length.value() << " m, " << water.value() << " C");
    REQUIRE(std::abs(parse_length(length_text(length, Units::metric)).value() - length.value()) <= 0.05 + 1e-9);
    REQUIRE(std::abs(parse_length(length_text(length, Units::imperial)).value() - length.value()) <= 0.1524 + 1e-9);
    REQUIRE(std::abs((parse_temperature(temperature_text(water, Units::metric)) - water).value()) <= 0.05 + 1e-9);
    REQUIRE(std::abs((parse_temperature(temperature_text(water, Units::imperial)) - water).value()) <= 2.5 / 9 + 1e-9);
  }
}

TEST_CASE("a comma locale changes neither reading nor printing", "[quantity]") {
  const std::string c_before = std::setlocale(LC_ALL, nullptr);
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new CommaPoint));
  if (std::setlocale(LC_ALL, "de_DE.UTF-8") == nullptr) WARN("no de_DE.UTF-8 here: only the C++ locale has a comma");
  const double read = parse_length("2.7 m").value();
  const std::string small = length_text(Metres(3.4), Units::metric);
  const std::string large = length_text(Metres(1234.5), Units::metric);
  std::locale::global(before);
  std::setlocale(LC_ALL, c_before.c_str());
  CHECK(read == 2.7);
  CHECK(small == "3.4 m");
  CHECK(large == "1234.5 m");
}

TEST_CASE("sixteen names of the compass", "[quantity]") {
  const char* const names[] = {"north", "north-northeast", "northeast", "east-northeast",
                               "east",  "east-southeast",  "southeast", "south-southeast",
                               "south", "south-southwest", "southwest", "west-southwest",
                               "west",  "west-northwest",  "northwest", "north-northwest"};
  for (int i = 0; i < 16; ++i) {
    for (const double off : {-11.2, 0.0, 11.2}) CHECK(compass_words(Degrees(22.5 * i + off)) == names[i]);
    CHECK(compass_words(Degrees(22.5 * i + 360.0)) == names[i]);
  }
  CHECK(compass_words(Degrees(359.9)) == "north");
}

TEST_CASE("distances for people are whole units") {
  CHECK(distance_text(Metres(18.4), Units::metric) == "18 m");
  CHECK(distance_text(feet(61.2), Units::imperial) == "61 ft");
}
