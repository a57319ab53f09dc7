// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/geodesic.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace castplan;

namespace {

LonLat at(double lat, double lon) { return {.lon = Longitude{lon}, .lat = Latitude{lat}}; }

struct Known {
  double lat1, lon1, bearing, lat2, lon2, distance;
};

// Source: Karney (2010), test set for geodesics, doi:10.5281/zenodo.32156, as quoted in the test programs of
// GeographicLib and PROJ (geodtest, the first six of testcases): computed there with high-precision arithmetic.
constexpr Known kKarney[] = {
    {35.60777, -139.44815, 111.098748429560326, -11.17491, -69.95921, 8935244.5604818305},
    {55.52454, 106.05087, 22.020059880982801, 77.03196, 197.18234, 4105086.1713924406},
    {-21.97856, 142.59065, -32.44456876433189, 41.84138, 98.56635, 8394328.894657671},
    {-66.99028, 112.2363, 173.73491240878403, -12.70631, 285.90344, 11150344.2312080241},
    {-17.42761, 173.34268, -159.033557661192928, -15.84784, 5.93557, 16076603.1631180673},
    {32.84994, 48.28919, 150.492927788121982, -56.28556, 202.29132, 16727068.9438164461},
};

double turned(double degrees) { return degrees < 0.0 ? degrees + 360.0 : degrees; }

}  // namespace

TEST_CASE("distance and bearing agree with the published geodesics to the promised 15 nm", "[geodesic]") {
  for (const Known& known : kKarney) {
    const Geodesic found = geodesic(at(known.lat1, known.lon1), at(known.lat2, known.lon2));
    CHECK(std::abs(found.distance.value() - known.distance) <= 15e-9);
    CHECK(std::abs(found.bearing.value() - turned(known.bearing)) <= 1e-12);
  }
}

TEST_CASE("a destination agrees with the published geodesics", "[geodesic]") {
  for (const Known& known : kKarney) {
    const LonLat found =
        geodesic_destination(at(known.lat1, known.lon1), Degrees(known.bearing), Metres(known.distance));
    const double lon_apart = std::remainder(found.lon.degrees - known.lon2, 360.0);
    CHECK(std::abs(found.lat.degrees - known.lat2) <= 1e-12);
    CHECK(std::abs(lon_apart) <= 1e-12);
    CHECK(std::abs(found.lon.degrees) <= 180.0);
  }
}

TEST_CASE("New York to Singapore as the GeodSolve manual prints it", "[geodesic]") {
  // Source: GeographicLib, man/GeodSolve.pod, EXAMPLES: 003:18:29.9 and 15347628 m (tolerance: half the last digit).
  const Geodesic found = geodesic(at(40.0 + 38.0 / 60 + 23.0 / 3600, -(73.0 + 46.0 / 60 + 44.0 / 3600)),
                                  at(1.0 + 21.0 / 60 + 33.0 / 3600, 103.0 + 59.0 / 60 + 22.0 / 3600));
  CHECK(std::abs(found.distance.value() - 15347628.0) <= 0.5);
  CHECK(std::abs(found.bearing.value() - (3.0 + 18.0 / 60 + 29.9 / 3600)) <= 0.05 / 3600);
}

TEST_CASE("the equator is a circle of the semi-major axis", "[geodesic]") {
  // Closed form: an arc of the equator is a * angle.
  const Geodesic east = geodesic(at(0.0, 10.0), at(0.0, 11.0));
  CHECK(east.distance.value() == Approx(6378137.0 * std::numbers::pi / 180.0).epsilon(1e-14));
  CHECK(east.bearing.value() == Approx(90.0).epsilon(1e-14));
  CHECK(geodesic(at(0.0, 11.0), at(0.0, 10.0)).bearing.value() == Approx(270.0).epsilon(1e-14));
}

TEST_CASE("the quarter meridian of WGS 84", "[geodesic]") {
  // Source: 10 001 965.729 m, the meridian quadrant of WGS 84 (Wikipedia, "Earth ellipsoid"; value from memory), and
  // the series of Bessel, pi/4 (a+b) (1 + n^2/4 + n^4/64 + n^6/256), n = (a-b)/(a+b), computed here.
  const double a = 6378137.0;
  const double b = a * (1.0 - 1.0 / 298.257223563);
  const double n = (a - b) / (a + b);
  const double series =
      std::numbers::pi / 4.0 * (a + b) * (1.0 + n * n / 4 + std::pow(n, 4) / 64 + std::pow(n, 6) / 256);
  const Geodesic north = geodesic(at(0.0, 25.0), at(90.0, 25.0));
  CHECK(std::abs(north.distance.value() - series) <= 1e-6);
  CHECK(std::abs(north.distance.value() - 10001965.729) <= 5e-4);
  CHECK(north.bearing.value() == 0.0);
}

TEST_CASE("there and back over a cast's length", "[geodesic]") {
  for (double bearing = 0.0; bearing < 360.0; bearing += 7.5) {
    const LonLat boat = at(45.5, -40.0);
    const LonLat target = geodesic_destination(boat, Degrees(bearing), Metres(20.0));
    const Geodesic cast = geodesic(boat, target);
    CHECK(std::abs(cast.distance.value() - 20.0) <= 1e-8);
    CHECK(std::abs(std::remainder(cast.bearing.value() - bearing, 360.0)) <= 1e-6);
  }
}
