// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "castplan/write/plan.hpp"

namespace castplan {

/// JSON text built front to back, with numbers in fixed notation (no exponent, never NaN or infinity: those become
/// null) and names in the order in which they were written. Two spaces of indent for the outermost object and what it
/// holds; deeper values (with Lines::one: all) stand on one line. Texts are escaped, and bytes that are not UTF-8
/// become U+FFFD.
class JsonText {
 public:
  enum class Lines { several, one };
  explicit JsonText(Lines lines = Lines::several) : spread_(lines == Lines::several ? 2 : 0) {}
  JsonText& begin_object();
  JsonText& end_object();
  JsonText& begin_array();
  JsonText& end_array();
  JsonText& key(std::string_view name);
  JsonText& text(std::string_view value);
  JsonText& number(double value, int decimals);  ///< fixed; -0.00 becomes 0.00
  JsonText& integer(long long value);
  JsonText& boolean(bool value);
  JsonText& null();
  JsonText& raw(std::string_view json);  ///< a value that is JSON already
  [[nodiscard]] const std::string& str() const { return out_; }

 private:
  void before_value(bool container);
  void new_line();
  std::size_t spread_;  // so many outermost levels stand over several lines
  std::string out_;
  std::string stack_;  // one letter a level: o or a, upper case once it has a member, B an array over several lines
  bool after_key_ = false;
};

std::string features_geojson(const Plan& plan);
std::string spots_geojson(const Plan& plan);
std::string passes_geojson(const Plan& plan);
/// The lake's outline, the picture's own depth contours in metres, and where the water is that deep or deeper, each
/// with `kind` (shoreline, contour, depth-area) and `depth_m`; no feature and no spot.
std::string contours_geojson(const Plan& plan);
std::string summary_json(const Plan& plan);  ///< an object, with a line end
std::string spots_csv(const Plan& plan);
/// A catch log to fill in, a row a spot: effort (a visit without a fish counts), water, fish, release.
std::string log_csv(const Plan& plan);
std::string map_html(const Plan& plan);
/// KML 2.2: spots and passes by phase, features by kind.
std::string places_kml(const Plan& plan);
/// A GeoPackage: a table a kind, spots, passes, and what the file carries in `metadata`. Throws OutputError.
std::string castplan_gpkg(const Plan& plan);
/// A still map, the same drawing as PNG and as SVG. Throws OutputError.
std::string map_png(const Plan& plan);
std::string map_svg(const Plan& plan);
/// A part of a page without script, style, ids and addresses.
std::string fragment_html(const Plan& plan);
std::string sheet_pdf(const Plan& plan);                   ///< one printed page; throws OutputError
std::vector<OutputFile> waypoint_files(const Plan& plan);  ///< waypoints.gpx, or one a phase

}  // namespace castplan
