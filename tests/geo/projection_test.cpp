// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/projection.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <sstream>
#include <thread>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/geo/geodesic.hpp"
#include "support/programs.hpp"

using namespace castplan;
using Catch::Matchers::Contains;

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kWgs84A = 6378137.0;
constexpr double kWgs84E2 = (2.0 - 1.0 / 298.257223563) / 298.257223563;

LonLat at(double lat, double lon) { return {.lon = Longitude{lon}, .lat = Latitude{lat}}; }

/// Radius of the parallel over cos, and of the meridian: closed forms of the ellipsoid.
double east_west_radius(double lat) {
  return kWgs84A / std::sqrt(1.0 - kWgs84E2 * std::pow(std::sin(lat * kDegree), 2));
}
double north_south_radius(double lat) {
  return kWgs84A * (1.0 - kWgs84E2) / std::pow(1.0 - kWgs84E2 * std::pow(std::sin(lat * kDegree), 2), 1.5);
}

double apart(Degrees a, Degrees b) { return std::abs(std::remainder(a.value() - b.value(), 360.0)); }

}  // namespace

TEST_CASE("web Mercator is 1.44 times too large at 46 N, and not quite conformal", "[projection]") {
  // Closed form: x = a lon and y = a ln tan(45 + lat/2), so k = a / (N cos lat) and h = a / (M cos lat).
  // Source: EPSG Guidance Note 7-2, Popular Visualisation Pseudo-Mercator.
  const Projection web = Projection::from_text("EPSG:3857");
  const Projection::Scale scale = web.scale_at(at(46.0, -92.0));
  CHECK(scale.parallel == Approx(kWgs84A / (east_west_radius(46.0) * std::cos(46.0 * kDegree))).epsilon(1e-9));
  CHECK(scale.meridian == Approx(kWgs84A / (north_south_radius(46.0) * std::cos(46.0 * kDegree))).epsilon(1e-9));
  CHECK(scale.parallel == Approx(1.4371).epsilon(1e-4));
  CHECK_FALSE(scale.conformal);
  CHECK(std::abs(scale.convergence.value()) <= 1e-7);
}

TEST_CASE("UTM has scale 0.9996 and no convergence on its central meridian", "[projection]") {
  // Source: the definition of UTM (EPSG method 9807 with k0 0.9996), easting 500 000 m.
  const Projection utm = Projection::from_text("EPSG:32615");
  const Projection::Scale scale = utm.scale_at(at(46.0, -93.0));
  CHECK(scale.parallel == Approx(0.9996).epsilon(1e-9));
  CHECK(scale.meridian == Approx(0.9996).epsilon(1e-9));
  CHECK(scale.conformal);
  CHECK(std::abs(scale.convergence.value()) <= 1e-7);
  CHECK(utm.from_lonlat(at(46.0, -93.0)).x == Approx(500000.0).epsilon(1e-12));
}

TEST_CASE("the transverse Mercator example of Snyder", "[projection]") {
  // Source: Snyder (1987), USGS Prof. Paper 1395, numerical examples: Clarke 1866, lat 40.5, lon -73.5 from -75:
  // x 127 106.5 m, y 4 484 124.4 m, k 0.9997989 (values from memory).
  const Projection snyder =
      Projection::from_text("+proj=tmerc +lat_0=0 +lon_0=-75 +k=0.9996 +x_0=0 +y_0=0 +ellps=clrk66 +units=m");
  const XY place = snyder.from_lonlat(at(40.5, -73.5));
  CHECK(std::abs(place.x - 127106.5) <= 0.06);
  CHECK(std::abs(place.y - 4484124.4) <= 0.06);
  const Projection::Scale scale = snyder.scale_at(at(40.5, -73.5));
  CHECK(std::abs(scale.parallel - 0.9997989) <= 6e-8);
  CHECK(std::abs(scale.meridian - 0.9997989) <= 6e-8);
  CHECK(scale.conformal);
}

TEST_CASE("convergence far from the UTM meridian turns grid bearings into true ones", "[projection]") {
  const Projection utm = Projection::from_text("EPSG:32615");
  for (const double lon : {-101.0, -97.5, -89.0, -84.0}) {
    const LonLat place = at(47.0, lon);
    const Degrees convergence = utm.scale_at(place).convergence;
    // Closed form on the sphere: tan(convergence) = tan(lon - lon0) sin(lat); the ellipsoid changes it by less than
    // e^2 of itself. Source: Snyder (1987), chapter 8 (spherical transverse Mercator).
    const double sphere = std::atan(std::tan((lon + 93.0) * kDegree) * std::sin(47.0 * kDegree)) / kDegree;
    CHECK(convergence.value() == Approx(sphere).epsilon(kWgs84E2));
    // and the geodesic over 20 m must run where the convergence says (its own bend is below 1e-4 degree there)
    const XY from = utm.from_lonlat(place);
    for (double grid = 0.0; grid < 360.0; grid += 30.0) {
      const XY to = offset(from, Degrees(grid), Metres(20.0));
      CHECK(apart(grid_bearing(from, to), Degrees(grid)) <= 1e-6);
      CHECK(apart(true_bearing(utm, from, to), Degrees(grid) + convergence) <= 2e-4);
    }
  }
}

TEST_CASE("a grid in US survey feet comes out in metres", "[projection]") {
  // Source: cs2cs of PROJ 9.1.1: echo "40 -121" | cs2cs -f %.6f EPSG:4269 +to EPSG:2225 gives 6841823.597838
  // 1884884.510832 feet of 1200/3937 m. NAD 83 to WGS 84 is taken as no shift (EPSG operation 1188).
  const Projection feet = Projection::from_text("EPSG:2225");
  CHECK(feet.metres_per_unit() == Approx(1200.0 / 3937.0).epsilon(1e-12));
  const XY place = feet.from_lonlat(at(40.0, -121.0));
  CHECK(std::abs(place.x - 6841823.597838 * 1200.0 / 3937.0) <= 2e-4);
  CHECK(std::abs(place.y - 1884884.510832 * 1200.0 / 3937.0) <= 2e-4);
  const LonLat back = feet.to_lonlat(place);
  CHECK(std::abs(back.lon.degrees + 121.0) <= 1e-9);
  CHECK(std::abs(back.lat.degrees - 40.0) <= 1e-9);
  // scale 1 on the standard parallels 40 N and 41 2/3 N of the zone (EPSG definition)
  CHECK(feet.scale_at(at(40.0, -121.0)).meridian == Approx(1.0).epsilon(1e-8));
  CHECK(feet.scale_at(at(40.0, -121.0)).conformal);
}

TEST_CASE("a plane of our own is true around its centre", "[projection]") {
  const LonLat centre = at(45.5, -40.0);
  const Projection plane = Projection::transverse_mercator(centre);
  CHECK_FALSE(plane.is_geographic());
  CHECK(std::abs(plane.from_lonlat(centre).x) <= 1e-9);
  CHECK(std::abs(plane.from_lonlat(centre).y) <= 1e-9);
  for (double bearing = 0.0; bearing < 360.0; bearing += 15.0) {
    const LonLat place = geodesic_destination(centre, Degrees(bearing), Metres(10000.0));
    const Projection::Scale scale = plane.scale_at(place);
    CHECK(scale.conformal);
    CHECK(std::abs(scale.parallel - 1.0) <= 2e-6);
    CHECK(std::abs(distance(plane.from_lonlat(place), {0.0, 0.0}).value() - 10000.0) <= 10000.0 * 2e-6);
  }
}

TEST_CASE("geographic coordinates are degrees east, then north", "[projection]") {
  for (const char* text : {"EPSG:4326", "OGC:CRS84", "+proj=longlat +datum=WGS84"}) {
    const Projection degrees = Projection::from_text(text);
    INFO(text);
    CHECK(degrees.is_geographic());
    const XY place = degrees.from_lonlat(at(46.0, -92.0));
    CHECK(place.x == Approx(-92.0));
    CHECK(place.y == Approx(46.0));
    CHECK(degrees.to_lonlat({-92.0, 46.0}).lat.degrees == Approx(46.0));
    // Closed form: one degree of a parallel is N cos lat pi/180 metres, of a meridian M pi/180.
    const Projection::Scale scale = degrees.scale_at(at(46.0, -92.0));
    CHECK(1.0 / scale.parallel == Approx(east_west_radius(46.0) * std::cos(46.0 * kDegree) * kDegree).epsilon(1e-12));
    CHECK(1.0 / scale.meridian == Approx(north_south_radius(46.0) * kDegree).epsilon(1e-12));
    CHECK_FALSE(scale.conformal);
  }
  CHECK(Projection::geographic().is_geographic());
}

TEST_CASE("all ways to write the same system give the same place", "[projection]") {
  const LonLat place = at(46.0, -92.0);
  const XY expected = Projection::from_text("EPSG:26915").from_lonlat(place);
  const std::string wkt1 =
      R"(PROJCS["a county grid",GEOGCS["NAD83",DATUM["North_American_Datum_1983",SPHEROID["GRS 1980",6378137,)"
      R"(298.257222101]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],)"
      R"(PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",-93],PARAMETER["scale_factor",0.9996],)"
      R"(PARAMETER["false_easting",500000],PARAMETER["false_northing",0],UNIT["metre",1]])";
  for (const std::string& text : std::vector<std::string>{
           "epsg:26915", " EPSG:26915\n", "EPSG:26915+5703", "+proj=utm +zone=15 +datum=NAD83", "+init=epsg:26915",
           "urn:ogc:def:crs:EPSG::26915", wkt1, Projection::from_text(wkt1).definition()}) {
    INFO(text);
    const XY found = Projection::from_text(text).from_lonlat(place);
    CHECK(std::abs(found.x - expected.x) <= 1e-6);
    CHECK(std::abs(found.y - expected.y) <= 1e-6);
  }
  CHECK(Projection::from_text(wkt1).name() == "a county grid");
}

TEST_CASE("a definition rebuilds its projection", "[projection]") {
  for (const char* text : {"EPSG:2225", "EPSG:3857", "EPSG:27572", "EPSG:3027", "EPSG:26715", "EPSG:4269",
                           "+proj=utm +zone=33 +ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7"}) {
    INFO(text);
    const Projection first = Projection::from_text(text);
    const Projection again = Projection::from_text(first.definition());
    const LonLat place = at(50.0, 12.0);
    CHECK(distance(first.from_lonlat(place), again.from_lonlat(place)).value() <= 1e-6);
    CHECK(first.metres_per_unit() == again.metres_per_unit());
  }
}

TEST_CASE("systems with swapped axes and off Greenwich keep their scale", "[projection]") {
  // Source: the zone's own definition: Lambert zone II has scale 0.99987742 on 52 grads north (46.8 degrees);
  // RT38 2.5 gon V has scale 1 on its central meridian 15 48 29.8 E (EPSG registry). Datum shifts move both slightly.
  const Projection::Scale lambert = Projection::from_text("EPSG:27572").scale_at(at(46.8, 2.3));
  CHECK(lambert.parallel == Approx(0.99987742).epsilon(1e-7));
  CHECK(lambert.conformal);
  const Projection::Scale rt38 = Projection::from_text("EPSG:3027").scale_at(at(59.0, 15.808278));
  CHECK(rt38.meridian == Approx(1.0).epsilon(1e-7));
  CHECK(std::abs(rt38.convergence.value()) <= 1e-4);
}

TEST_CASE("a datum shift is one operation for all places", "[projection]") {
  // Property: the shift from NAD 27 is metres large, but along a parallel it changes by centimetres from one place to
  // the next; another operation taken on the way would make it jump by metres.
  const Projection nad27 = Projection::from_text("EPSG:26715");
  const Projection bare = Projection::from_text("+proj=utm +zone=15 +ellps=clrk66");
  XY before = nad27.from_lonlat(at(46.0, -96.0)) - bare.from_lonlat(at(46.0, -96.0));
  CHECK(std::hypot(before.x, before.y) > 5.0);
  for (double lon = -95.99; lon < -88.0; lon += 0.01) {
    const XY shift = nad27.from_lonlat(at(46.0, lon)) - bare.from_lonlat(at(46.0, lon));
    REQUIRE(distance(before, shift).value() <= 0.1);
    before = shift;
  }
}

// An old datum is shifted otherwise in each part of the continent: Wisconsin, Alberta and Mexico, against gdaltransform
// (Debian package gdal-bin), which asks PROJ for each point. 1e-9 degree is 0.1 mm.
TEST_CASE("the way to WGS 84 is the one for the place of the data", "[projection]") {
  const Projection nad27 = Projection::from_text("EPSG:4267");
  int other_ways = 0;
  for (const XY place : {XY{-89.65, 46.02}, XY{-114, 54}, XY{-99.5, 19.3}}) {
    std::ostringstream point;
    point << place.x << ' ' << place.y;
    const auto moved = castplan::programs::run("echo " + point.str() +
                                               " | gdaltransform -s_srs EPSG:4267 -t_srs EPSG:4326 -output_xy");
    std::istringstream numbers(moved.text);
    XY expected{};
    REQUIRE(numbers >> expected.x >> expected.y);
    const LonLat here = nad27.near(place).to_lonlat(place);
    CHECK(here.lon.degrees == Approx(expected.x).margin(1e-9));
    CHECK(here.lat.degrees == Approx(expected.y).margin(1e-9));
    const LonLat anywhere = nad27.to_lonlat(place);
    if (std::abs(anywhere.lon.degrees - expected.x) > 1e-6) ++other_ways;
  }
  CHECK(other_ways > 0);
  // no such place: as it was
  CHECK(nad27.near({1e9, 1e9}).accuracy() == nad27.accuracy());
}

TEST_CASE("places without an answer are NaN", "[projection]") {
  const Projection plane = Projection::transverse_mercator(at(45.0, -93.0));
  CHECK(std::isnan(plane.from_lonlat(at(95.0, 10.0)).x));
  CHECK(std::isnan(plane.to_lonlat({1e12, 1e12}).lat.degrees));
  CHECK(std::isfinite(plane.from_lonlat(at(45.0, -93.0)).x));
}

TEST_CASE("clones give the same answers on other threads", "[projection]") {
  const Projection first = Projection::from_text("EPSG:2225");
  std::vector<XY> expected;
  for (int i = 0; i < 1000; ++i) expected.push_back(first.from_lonlat(at(40.0 + i * 1e-3, -121.0)));
  std::vector<int> wrong(4, 0);
  std::vector<Projection> own;
  for (int t = 0; t < 4; ++t) own.push_back(first.clone());
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t) {
    threads.emplace_back([&, t] {
      for (int i = 0; i < 1000; ++i) wrong[t] += own[t].from_lonlat(at(40.0 + i * 1e-3, -121.0)) != expected[i] ? 1 : 0;
    });
  }
  for (std::thread& thread : threads) thread.join();
  CHECK(wrong == std::vector<int>(4, 0));
  CHECK(own[0].definition() == first.definition());
  CHECK(own[0].scale_at(at(40.0, -121.0)).meridian == first.scale_at(at(40.0, -121.0)).meridian);
}

TEST_CASE("text that is no map projection is refused by name, with what is accepted", "[projection]") {
  const auto refused = [](const std::string& text, const std::string& reason) {
    INFO(text);
    CHECK_THROWS_AS(Projection::from_text(text), InputError);
    CHECK_THROWS_WITH(Projection::from_text(text),
                      Contains("\"" + text + "\"") && Contains(reason) && Contains("EPSG:32615") && Contains("WKT"));
  };
  refused("foo", "not understood");  // PROJ itself takes this for a name
  refused("", "empty");
  refused("26915", "is EPSG:26915 meant?");
  refused("EPSG:99999", "not understood");
  refused("EPSG:4978", "geocentric");
  refused("EPSG:5703", "vertical");
  refused("EPSG:2053", "run west");
  refused("EPSG:4807", "grad");
  refused(R"(LOCAL_CS["site",UNIT["metre",1]])", "local");
  refused(R"(PROJCS["broken")", "not understood");
  refused("+proj=nosuch +datum=WGS84", "not understood");
}

// Regression: PROJ 9.1 never came back from looking for a way near a place whose longitude is 180.
TEST_CASE("a system has a way to WGS 84 near a place on the 180th meridian") {
  for (const char* lon : {"180", "-180"}) {
    const Projection plane = Projection::from_text(std::string("+proj=tmerc +lat_0=-17 +lon_0=") + lon +
                                                   " +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs +type=crs");
    const LonLat place = plane.near({0.0, 0.0}).to_lonlat({0.0, 0.0});
    CHECK(std::abs(place.lon.degrees) == Approx(180.0));
    CHECK(place.lat.degrees == Approx(-17.0));
  }
}
