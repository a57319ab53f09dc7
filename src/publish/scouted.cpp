// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/scouted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "castplan/geo/error.hpp"
#include "castplan/write/plain_text.hpp"

namespace castplan {
namespace {

constexpr std::string_view kRemedy = "run `castplan scout` again into that folder, with all its formats";

Json read_json(const std::string& folder, const char* name) {
  const std::string path = (std::filesystem::path(folder) / name).string();
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    throw InputError(
        fmt::format("{}: is missing; a site is made from folders that `castplan scout` wrote: {}", path, kRemedy));
  }
  std::ostringstream bytes;
  bytes << in.rdbuf();
  try {
    return Json::parse(bytes.str());
  } catch (const Json::exception&) {
    throw InputError(fmt::format("{}: is no JSON text that can be read; {}", path, kRemedy));
  }
}

std::string plan_name(const Json& summary) {
  if (!summary.is_object() || !summary.contains("lake") || !summary.contains("conditions")) return "another plan";
  const std::string date = text_in(summary["conditions"], "date");
  return fmt::format("a plan of {}{}", shortened(one_line(text_in(summary["lake"], "name")), 80),
                     date.empty() ? "" : " for " + date);
}

Json collection(const std::string& folder, const char* name, const Json& summary) {
  Json all = read_json(folder, name);
  const std::string path = (std::filesystem::path(folder) / name).string();
  if (!all.is_object() || !all.contains("metadata") || !all.contains("features") || !all["features"].is_array()) {
    throw InputError(fmt::format("{}: is not as castplan writes it; {}", path, kRemedy));
  }
  if (all["metadata"] != summary) {
    throw InputError(fmt::format("{}: belongs to {}, summary.json beside it to {}, of another run; {}", path,
                                 plan_name(all["metadata"]), plan_name(summary), kRemedy));
  }
  for (const Json& feature : all["features"]) {
    if (!feature.is_object() || !feature.contains("geometry") || !feature.contains("properties") ||
        !feature["properties"].is_object()) {
      throw InputError(fmt::format("{}: holds something that is no feature; {}", path, kRemedy));
    }
  }
  return all;
}

void check_summary(const Json& summary, const std::string& folder) {
  const auto object = [&](const char* key) { return summary.contains(key) && summary[key].is_object(); };
  const bool ours = summary.is_object() && summary.value("schema", 0) == 1 && object("lake") && object("conditions") &&
                    object("advisory") && object("provenance") && number_in(summary["lake"], "area_m2");
  if (!ours) throw InputError(fmt::format("{}/summary.json: is not as castplan writes it; {}", folder, kRemedy));
  if (summary["advisory"].value("overridden", false)) {
    throw InputError(fmt::format(
        "{}: this plan of {} has a stop that was set aside with --override-stop; what a stop leaves out is not "
        "published, coarse or exact; run `castplan scout` without --override-stop and publish that",
        folder, shortened(one_line(text_in(summary["lake"], "name")), 80)));
  }
}

Ring ring_of(const Json& positions) {
  Ring ring;
  for (const Json& position : positions) {
    const LonLat place = place_of(position);
    ring.push_back({place.lon.degrees, place.lat.degrees});
  }
  return ring;
}

Polygon polygon_of(const Json& rings) {
  Polygon polygon;
  for (const Json& ring : rings) {
    if (polygon.outer.empty()) {
      polygon.outer = ring_of(ring);
    } else {
      polygon.holes.push_back(ring_of(ring));
    }
  }
  return polygon;
}

bool marked_private(const std::string& file) {
  std::string lower = file;
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return lower.find("private") != std::string::npos;
}

}  // namespace

bool Scouted::stopped() const { return text_in(summary["advisory"], "level") == "stop"; }

Scouted read_scouted(const std::string& folder) {
  if (!std::filesystem::is_directory(folder)) {
    throw InputError(fmt::format("{}: is not a folder; name folders that `castplan scout` wrote", folder));
  }
  Scouted out{folder, read_json(folder, "summary.json"), {}, {}, {}, {}};
  try {
    check_summary(out.summary, folder);
    out.features = collection(folder, "features.geojson", out.summary);
    out.spots = collection(folder, "spots.geojson", out.summary);
    out.passes = collection(folder, "passes.geojson", out.summary);
    out.contours = collection(folder, "contours.geojson", out.summary);
  } catch (const Json::exception& error) {
    throw InputError(fmt::format("{}: is not as castplan writes it ({}); {}", folder, error.what(), kRemedy));
  }
  return out;
}

std::string text_in(const Json& object, const char* key) {
  const auto found = object.find(key);
  return found == object.end() || !found->is_string() ? std::string() : found->get<std::string>();
}

std::optional<double> number_in(const Json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_number()) return std::nullopt;
  return found->get<double>();
}

std::vector<std::string> texts_in(const Json& object, const char* key) {
  std::vector<std::string> out;
  const auto found = object.find(key);
  if (found == object.end() || !found->is_array()) return out;
  for (const Json& text : *found) {
    if (text.is_string()) out.push_back(text.get<std::string>());
  }
  return out;
}

LonLat place_of(const Json& position) {
  return {Longitude{position.at(0).get<double>()}, Latitude{position.at(1).get<double>()}};
}

Geometry degrees_of(const Json& geometry) {
  if (geometry.is_null()) return Points{};
  const std::string type = geometry.at("type").get<std::string>();
  const Json& at = geometry.at("coordinates");
  if (type == "Point") return Points(ring_of(Json::array({at})));
  if (type == "MultiPoint") return Points(ring_of(at));
  if (type == "LineString") return Lines{ring_of(at)};
  if (type == "MultiLineString") {
    Lines lines;
    for (const Json& line : at) lines.push_back(ring_of(line));
    return lines;
  }
  if (type == "Polygon") return Polygons{polygon_of(at)};
  if (type != "MultiPolygon") throw InputError(fmt::format("a shape of type {} is not one that castplan writes", type));
  Polygons polygons;
  for (const Json& polygon : at) polygons.push_back(polygon_of(polygon));
  return polygons;
}

std::vector<LonLat> places_of(const Json& geometry) {
  std::vector<LonLat> out;
  for (const XY place : vertices(degrees_of(geometry))) out.push_back({Longitude{place.x}, Latitude{place.y}});
  return out;
}

std::optional<Kind> kind_of(const Json& feature) { return kind_named(text_in(feature["properties"], "kind")); }

Leaves leaves(const Json& feature, bool exact) {
  const std::optional<Kind> kind = kind_of(feature);
  if (!kind) return Leaves::nothing;
  const bool marked = marked_private(text_in(feature["properties"], "source_file"));
  switch (*kind) {
    case Kind::cover:
    case Kind::weeds:
    case Kind::spawning_ground:
      return Leaves::nothing;
    case Kind::weed_line:
      return text_in(feature["properties"], "source") == "predicted" ? Leaves::shape : Leaves::nothing;
    case Kind::wood:
    case Kind::rock:
      return marked ? Leaves::nothing : exact ? Leaves::shape : Leaves::count;
    case Kind::dock:
    case Kind::inflow:
    case Kind::launch:
      return marked ? Leaves::nothing : Leaves::shape;
    default:
      return Leaves::shape;
  }
}

}  // namespace castplan
