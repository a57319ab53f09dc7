// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ogr_spatialref.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/geo/geodesic.hpp"
#include "io/inspect_parts.hpp"
#include "io/reference.hpp"

namespace castplan {
namespace {

constexpr double kPoorAccuracy = 5;  ///< metres: further off than a boat is held; design choice
constexpr double kPoorScale = 0.01;  ///< a zone away from its own a UTM grid is 0.5 % off
constexpr double kNearZero = 1;      ///< degrees from 0 N, 0 E, where coordinates without meaning end up
constexpr double kPolar = 80;        ///< degrees; no muskellunge, but swapped coordinates
constexpr int kEdgeSteps = 8;        ///< places a side when the extent is moved to degrees

std::string crs_line(const FileFacts& facts) {
  if (facts.key.empty() && facts.kind == "raster") return "crs = \"EPSG:...\" under [depth], or --crs EPSG:...";
  if (facts.key.empty()) return "crs = \"EPSG:...\" beside the file's name, or --crs EPSG:...";
  if (facts.key == "depth.raster") return "crs = \"EPSG:...\" under [depth]";
  return "crs = \"EPSG:...\" beside the file's name";
}

bool finite(LonLat place) { return std::isfinite(place.lon.degrees) && std::isfinite(place.lat.degrees); }

void take_extent(const Projection& projection, const std::function<XY(XY)>& to_plane, FileFacts& facts) {
  const double unit = projection.metres_per_unit();
  LonLat low{Longitude{180}, Latitude{90}};
  LonLat high{Longitude{-180}, Latitude{-90}};
  bool any = false;
  for (int i = 0; i <= kEdgeSteps; ++i) {
    const double share = static_cast<double>(i) / kEdgeSteps;
    for (const XY at : {XY{share, 0}, XY{share, 1}, XY{0, share}, XY{1, share}}) {
      const LonLat place = projection.to_lonlat(to_plane(at) * unit);
      if (!finite(place)) continue;
      any = true;
      low = {Longitude{std::min(low.lon.degrees, place.lon.degrees)},
             Latitude{std::min(low.lat.degrees, place.lat.degrees)}};
      high = {Longitude{std::max(high.lon.degrees, place.lon.degrees)},
              Latitude{std::max(high.lat.degrees, place.lat.degrees)}};
    }
  }
  if (!any) return;
  facts.south_west = low;
  facts.north_east = high;
}

void judge_accuracy(const FileFacts& facts, Inspection& out) {
  if (!facts.crs_accuracy || facts.crs_accuracy->value() < kPoorAccuracy) return;
  out.findings.push_back(
      {Severity::warning, "crs-accuracy",
       fmt::format("{}: the way from {} to WGS 84 is good to {:.0f} m only (so PROJ says, without further grids); a "
                   "spot may lie that far off",
                   facts.name, facts.crs, facts.crs_accuracy->value()),
       "projsync --all fetches the grids that PROJ wants; else get the data on WGS 84 or NAD83"});
}

void judge_scale(const Projection& projection, LonLat centre, const FileFacts& facts, Inspection& out) {
  if (projection.is_geographic()) return;
  const auto scale = projection.scale_at(centre);
  const double off = std::max(std::fabs(scale.parallel - 1), std::fabs(scale.meridian - 1));
  if (!(off > kPoorScale)) return;
  out.findings.push_back(
      {Severity::note, "crs-scale",
       fmt::format("{}: a metre on the ground is {:.2f} by {:.2f} m in {} here; the data are brought "
                   "to true scale when read, but a CRS made for this place keeps their own cells",
                   facts.name, scale.parallel, scale.meridian, facts.crs),
       ""});
}

void judge_area(const Projection& projection, LonLat centre, const FileFacts& facts, Inspection& out) {
  const auto area = projection.area_of_use();
  if (!area || area->holds(centre)) return;
  out.findings.push_back(
      {Severity::warning, "outside-crs-area",
       fmt::format("{}: its centre, {}, lies outside the area that {} is made for ({} to {}); is that the right CRS?",
                   facts.name, place_text(centre), facts.crs, place_text(area->south_west),
                   place_text(area->north_east)),
       facts.crs_given ? crs_line(facts) : "correct the CRS in the file (gdal_edit.py -a_srs, or its .prj)"});
}

/// True when the centre can be a place on the earth.
bool judge_centre(const Projection& projection, XY own, LonLat centre, const FileFacts& facts, Inspection& out) {
  const std::string mend =
      facts.crs_given ? crs_line(facts) : "correct the CRS in the file (gdal_edit.py -a_srs, or its .prj)";
  const bool degrees_off =
      projection.is_geographic() && (std::fabs(own.y) > 90 || std::fabs(own.x) > 360 || !finite(centre));
  if (degrees_off && std::fabs(own.y) <= 180 && std::fabs(own.x) <= 90) {
    out.findings.push_back({Severity::error, "swapped",
                            fmt::format("{}: its centre is {:.4f} east, {:.4f} north, which is no place on the earth; "
                                        "longitude and latitude look swapped",
                                        facts.name, own.x, own.y),
                            "swap the two in the file: x is the longitude, y the latitude"});
    return false;
  }
  if (degrees_off || !finite(centre)) {
    out.findings.push_back({Severity::error, "off-earth",
                            fmt::format("{}: its centre ({:.1f}, {:.1f}) is no place on the earth in {}", facts.name,
                                        own.x, own.y, facts.crs),
                            mend});
    return false;
  }
  const double lat = std::fabs(centre.lat.degrees);
  if (lat < kNearZero && std::fabs(centre.lon.degrees) < kNearZero) {
    out.findings.push_back(
        {Severity::warning, "near-zero",
         fmt::format("{}: its centre is {}, in the Gulf of Guinea, where data end up whose place was lost", facts.name,
                     place_text(centre)),
         mend});
  } else if (lat > kPolar) {
    out.findings.push_back(
        {Severity::warning, "polar",
         fmt::format("{}: its centre is {}, near a pole; is the CRS right?", facts.name, place_text(centre)), mend});
  }
  return true;
}

}  // namespace

std::string place_text(LonLat place) {
  return fmt::format("{:.4f} {}, {:.4f} {}", std::fabs(place.lat.degrees), place.lat.degrees < 0 ? 'S' : 'N',
                     std::fabs(place.lon.degrees), place.lon.degrees < 0 ? 'W' : 'E');
}

std::string share_text(double share) {
  const double percent = 100 * share;
  if (percent > 0 && percent < 0.1) return "under 0.1 %";
  return percent < 10 ? fmt::format("{:.1f} %", percent) : fmt::format("{:.0f} %", percent);
}

std::optional<Projection> inspect_crs(const OGRSpatialReference* reference, const std::string& given, FileFacts& facts,
                                      Inspection& out) {
  const std::string stated = reference_text(reference);
  if (stated.empty() && given.empty()) {
    out.findings.push_back({Severity::error, "no-crs",
                            fmt::format("{}: states no CRS, so its place on the earth is not known", facts.name),
                            crs_line(facts)});
    return std::nullopt;
  }
  facts.crs_given = stated.empty();
  try {
    Projection projection = Projection::from_text(stated.empty() ? given : stated);
    facts.crs = projection.name();
    facts.crs_accuracy = projection.accuracy();
    if (!stated.empty() && !given.empty() && Projection::from_text(given).name() != projection.name()) {
      out.findings.push_back({Severity::note, "crs-kept",
                              fmt::format("{}: the file states its CRS ({}), so the one given ({}) is not used",
                                          facts.name, projection.name(), given),
                              ""});
    }
    return projection;
  } catch (const InputError& error) {
    out.findings.push_back({Severity::error, "bad-crs",
                            fmt::format("{}: its CRS cannot be used: {}", facts.name, error.what()),
                            stated.empty() ? crs_line(facts) : "reproject the data (gdalwarp, ogr2ogr -t_srs)"});
    return std::nullopt;
  }
}

void inspect_place(const Projection& stated, const std::function<XY(XY)>& to_plane, FileFacts& facts, Inspection& out) {
  const XY own = to_plane({0.5, 0.5});
  const Projection projection = stated.near(own * stated.metres_per_unit());
  facts.crs_accuracy = projection.accuracy();
  const LonLat centre = projection.to_lonlat(own * projection.metres_per_unit());
  if (!judge_centre(projection, own, centre, facts, out)) return;
  facts.centre = centre;
  take_extent(projection, to_plane, facts);
  judge_area(projection, centre, facts, out);
  judge_scale(projection, centre, facts, out);
  judge_accuracy(facts, out);
}

void inspect_overlap(const FileFacts& depths, const FileFacts& other, Inspection& out) {
  if (!depths.south_west || !other.south_west) return;
  const auto apart = [](double low, double high, double other_low, double other_high) {
    return high < other_low || other_high < low;
  };
  if (!apart(depths.south_west->lon.degrees, depths.north_east->lon.degrees, other.south_west->lon.degrees,
             other.north_east->lon.degrees) &&
      !apart(depths.south_west->lat.degrees, depths.north_east->lat.degrees, other.south_west->lat.degrees,
             other.north_east->lat.degrees)) {
    return;
  }
  out.findings.push_back({Severity::warning, "no-overlap",
                          fmt::format("{} ({}) does not overlap {} ({}): their centres are {:.1f} km apart", other.name,
                                      place_text(*other.centre), depths.name, place_text(*depths.centre),
                                      geodesic(*depths.centre, *other.centre).distance.value() / 1000),
                          "check that both are the same lake and that each states the right CRS"});
}

}  // namespace castplan
