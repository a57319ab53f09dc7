// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "castplan/geo/error.hpp"
#include "geo/proj_handles.hpp"

namespace castplan {
namespace {

constexpr std::string_view kAccepted =
    "write WKT, a PROJ string such as \"+proj=utm +zone=15 +datum=WGS84\", or an authority code such as EPSG:32615";

void keep_message(void* kept, int /*level*/, const char* message) { *static_cast<std::string*>(kept) = message; }

[[noreturn]] void refuse(const std::string& text, const std::string& why) {
  constexpr std::size_t kShown = 100;
  const std::string shown = text.size() > kShown ? text.substr(0, kShown) + "..." : text;
  throw InputError(fmt::format("coordinate system \"{}\": {}; {}", shown, why, kAccepted));
}

std::string trimmed(const std::string& text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

bool is_code_letter(char letter) {
  return (letter >= '0' && letter <= '9') || (letter >= 'A' && letter <= 'Z') || (letter >= 'a' && letter <= 'z') ||
         letter == '_' || letter == '.' || letter == '-' || letter == '+';
}

/// AUTHORITY:CODE, or AUTHORITY:CODE+CODE for a horizontal and a vertical system.
bool is_authority_code(const std::string& text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string::npos || colon == 0 || colon + 1 == text.size()) return false;
  const auto after = text.begin() + static_cast<std::ptrdiff_t>(colon) + 1;
  return std::all_of(text.begin(), after - 1, is_code_letter) && std::all_of(after, text.end(), is_code_letter);
}

/// The text as PROJ should read it. PROJ also looks up names, and finds "Amersfoort" for "foo": such text is refused.
std::string readable(const std::string& text) {
  const std::string plain = trimmed(text);
  const auto has = [&plain](std::string_view part) { return plain.find(part) != std::string::npos; };
  if (plain.empty()) refuse(text, "the text is empty");
  if (has("[") || plain.front() == '{' || is_authority_code(plain) || plain.starts_with("urn:ogc:def:crs:") ||
      has("://www.opengis.net/def/crs/")) {
    return plain;
  }
  if (has("+proj=") || has("+init=") || plain.starts_with("proj=")) {
    return has("type=crs") ? plain : plain + " +type=crs";
  }
  if (std::all_of(plain.begin(), plain.end(), [](char c) { return c >= '0' && c <= '9'; })) {
    refuse(text, fmt::format("a bare number; is EPSG:{} meant?", plain));
  }
  refuse(text, "not understood");
}

PjPtr horizontal_part(const ProjContext& context, PjPtr crs) {
  if (proj_get_type(crs.get()) == PJ_TYPE_COMPOUND_CRS) crs.reset(proj_crs_get_sub_crs(context.get(), crs.get(), 0));
  return crs;
}

bool is_geographic_type(PJ_TYPE type) { return type == PJ_TYPE_GEOGRAPHIC_2D_CRS || type == PJ_TYPE_GEOGRAPHIC_3D_CRS; }

std::string refused_kind(PJ_TYPE type) {
  switch (type) {
    case PJ_TYPE_ENGINEERING_CRS:
      return "a local system without a place on the earth";
    case PJ_TYPE_GEOCENTRIC_CRS:
      return "a geocentric system (x, y, z from the earth's centre)";
    case PJ_TYPE_VERTICAL_CRS:
      return "a vertical system only, without its horizontal part";
    default:
      return "neither a projected nor a geographic coordinate system";
  }
}

struct Axis {
  std::string direction;
  std::string unit;
  double factor{};  ///< metres or radians a unit
};

Axis read_axis(const ProjContext& context, const PJ* crs, int index) {
  const PjPtr system(proj_crs_get_coordinate_system(context.get(), crs));
  const char* direction = nullptr;
  const char* unit = nullptr;
  Axis axis;
  if (system == nullptr || proj_cs_get_axis_info(context.get(), system.get(), index, nullptr, nullptr, &direction,
                                                 &axis.factor, &unit, nullptr, nullptr) == 0) {
    return axis;
  }
  axis.direction = direction != nullptr ? direction : "";
  axis.unit = unit != nullptr ? unit : "";
  return axis;
}

void read_axes(const ProjContext& context, const std::string& text, HorizontalCrs& read) {
  constexpr double kDegree = 0.017453292519943295;
  const Axis first = read_axis(context, read.bare.get(), 0);
  const Axis second = read_axis(context, read.bare.get(), 1);
  if (first.direction == "west" || second.direction == "west") refuse(text, "its axes run west, not east");
  if (!(first.factor > 0.0) || first.factor != second.factor) refuse(text, "its axes have no common unit");
  if (read.geographic && std::abs(first.factor / kDegree - 1.0) > 1e-9) {
    refuse(text, fmt::format("its unit is {}, not degree; reproject the data", first.unit));
  }
  if (!read.geographic) read.metres_per_unit = first.factor;
  read.radians_per_base_unit = read_axis(context, read.base.get(), 0).factor;
}

void read_ellipsoid(const ProjContext& context, const std::string& text, HorizontalCrs& read) {
  const PjPtr ellipsoid(proj_get_ellipsoid(context.get(), read.base.get()));
  double minor = 0.0;
  if (ellipsoid == nullptr || proj_ellipsoid_get_parameters(context.get(), ellipsoid.get(), &read.semi_major_m, &minor,
                                                            nullptr, nullptr) == 0) {
    refuse(text, "it names no ellipsoid");
  }
  const double ratio = minor / read.semi_major_m;
  read.eccentricity_squared = 1.0 - ratio * ratio;
}

void read_names(const ProjContext& context, const std::string& text, HorizontalCrs& read) {
  const char* name = proj_get_name(read.bare.get());
  const bool named = name != nullptr && *name != '\0' && std::string_view(name) != "unknown";
  read.name = named ? name : text;
  const char* const options[] = {"MULTILINE=NO", nullptr};
  const char* wkt = proj_as_wkt(context.get(), read.crs.get(), PJ_WKT2_2019, options);
  read.definition = wkt != nullptr ? wkt : text;
}

}  // namespace

ProjContext::ProjContext() : handle_(proj_context_create()) {
  proj_context_set_enable_network(handle_, 0);
  proj_context_use_proj4_init_rules(handle_, 1);
  proj_log_func(handle_, &message_, keep_message);
}

ProjContext::~ProjContext() { proj_context_destroy(handle_); }

HorizontalCrs read_crs(const ProjContext& context, const std::string& text) {
  HorizontalCrs read;
  read.crs.reset(proj_create(context.get(), readable(text).c_str()));
  if (read.crs == nullptr) {
    refuse(text, context.message().empty() ? "not understood" : "not understood (" + context.message() + ")");
  }
  read.crs = horizontal_part(context, std::move(read.crs));
  const bool bound = proj_get_type(read.crs.get()) == PJ_TYPE_BOUND_CRS;
  read.bare.reset(bound ? proj_get_source_crs(context.get(), read.crs.get())
                        : proj_clone(context.get(), read.crs.get()));
  if (bound && proj_get_type(read.bare.get()) == PJ_TYPE_COMPOUND_CRS) {
    read.bare = horizontal_part(context, std::move(read.bare));
    read.crs.reset(proj_clone(context.get(), read.bare.get()));
  }
  const PJ_TYPE type = proj_get_type(read.bare.get());
  read.geographic = is_geographic_type(type);
  if (!read.geographic && type != PJ_TYPE_PROJECTED_CRS) refuse(text, refused_kind(type));
  read.base.reset(proj_crs_get_geodetic_crs(context.get(), read.bare.get()));
  if (read.base == nullptr || !is_geographic_type(proj_get_type(read.base.get()))) {
    refuse(text, "it has no geographic system below it");
  }
  read_axes(context, text, read);
  read_ellipsoid(context, text, read);
  read_names(context, trimmed(text), read);
  return read;
}

namespace {

struct FactoryDestroyer {
  void operator()(PJ_OPERATION_FACTORY_CONTEXT* factory) const { proj_operation_factory_context_destroy(factory); }
};
struct ListDestroyer {
  void operator()(PJ_OBJ_LIST* list) const { proj_list_destroy(list); }
};

}  // namespace

PjPtr best_operation(const ProjContext& context, const PJ* from, const PJ* to, const std::optional<LonLat>& place) {
  PJ_CONTEXT* handle = context.get();
  const std::unique_ptr<PJ_OPERATION_FACTORY_CONTEXT, FactoryDestroyer> factory(
      proj_create_operation_factory_context(handle, nullptr));
  proj_operation_factory_context_set_spatial_criterion(handle, factory.get(),
                                                       PROJ_SPATIAL_CRITERION_PARTIAL_INTERSECTION);
  proj_operation_factory_context_set_grid_availability_use(handle, factory.get(),
                                                           PROJ_GRID_AVAILABILITY_DISCARD_OPERATION_IF_MISSING_GRID);
  if (place) {
    // PROJ 9.1 asks itself for ever whether a box on the 180th meridian meets one that crosses it
    const double lon = std::clamp(place->lon.degrees, -179.9999, 179.9999), lat = place->lat.degrees;
    proj_operation_factory_context_set_area_of_interest(handle, factory.get(), lon, lat, lon, lat);
  }
  const std::unique_ptr<PJ_OBJ_LIST, ListDestroyer> list(proj_create_operations(handle, from, to, factory.get()));
  PjPtr best;
  const int count = list != nullptr ? proj_list_get_count(list.get()) : 0;
  for (int i = 0; i < count; ++i) {
    PjPtr operation(proj_list_get(handle, list.get(), i));
    if (operation == nullptr || proj_coordoperation_is_instantiable(handle, operation.get()) == 0) continue;
    const bool rough = proj_coordoperation_has_ballpark_transformation(handle, operation.get()) != 0;
    if (!rough || best == nullptr) best = std::move(operation);
    if (!rough) break;
  }
  if (best != nullptr) best.reset(proj_normalize_for_visualization(handle, best.get()));
  return best;
}

}  // namespace castplan
