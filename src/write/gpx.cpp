// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/gpx.hpp"

#include "write/carried.hpp"
#include "write/plain_text.hpp"
#include "write/xml_text.hpp"

namespace castplan {
namespace {

void add_text(pugi::xml_node parent, const char* name, const std::string& text) {
  if (!text.empty()) parent.append_child(name).text().set(text.c_str());
}

MicroPlace in_range(MicroPlace place) {
  if (place.lon == 180'000'000) place.lon = -180'000'000;
  return place;
}

void add_bounds(pugi::xml_node metadata, const GpxFile& file) {
  Extent extent;
  for (const Waypoint& waypoint : file.waypoints) extent.add(in_range(waypoint.place));
  for (const auto* ways : {&file.routes, &file.tracks}) {
    for (const GpxWay& way : *ways) {
      for (const MicroPlace place : way.places) extent.add(in_range(place));
    }
  }
  const auto box = extent.box();
  if (!box) return;
  pugi::xml_node bounds = metadata.append_child("bounds");
  bounds.append_attribute("minlat") = micro_degrees(box->south_west.lat).c_str();
  bounds.append_attribute("minlon") = micro_degrees(box->south_west.lon).c_str();
  bounds.append_attribute("maxlat") = micro_degrees(box->north_east.lat).c_str();
  bounds.append_attribute("maxlon") = micro_degrees(box->north_east.lon).c_str();
}

pugi::xml_node add_point(pugi::xml_node parent, const char* element, MicroPlace given) {
  const MicroPlace place = in_range(given);
  pugi::xml_node point = parent.append_child(element);
  point.append_attribute("lat") = micro_degrees(place.lat).c_str();
  point.append_attribute("lon") = micro_degrees(place.lon).c_str();
  return point;
}

pugi::xml_node add_way(pugi::xml_node gpx, const char* element, const GpxWay& way) {
  pugi::xml_node node = gpx.append_child(element);
  add_text(node, "name", way.name);
  add_text(node, "cmt", way.cmt);
  add_text(node, "desc", way.desc);
  add_text(node, "type", way.type);
  return node;
}

}  // namespace

std::string gpx_text(const GpxFile& file) {
  pugi::xml_document document;
  pugi::xml_node gpx = begun(document, "gpx");
  gpx.append_attribute("version") = "1.1";
  gpx.append_attribute("creator") = program_text().c_str();
  gpx.append_attribute("xmlns") = "http://www.topografix.com/GPX/1/1";

  // the order of the children is the schema's (metadataType, wptType, rteType, trkType)
  pugi::xml_node metadata = gpx.append_child("metadata");
  add_text(metadata, "name", file.name);
  add_text(metadata, "desc", file.desc);
  add_text(metadata, "keywords", file.keywords);
  add_bounds(metadata, file);
  for (const Waypoint& waypoint : file.waypoints) {
    const pugi::xml_node point = add_point(gpx, "wpt", waypoint.place);
    add_text(point, "name", waypoint.name);
    add_text(point, "cmt", waypoint.cmt);
    add_text(point, "desc", waypoint.desc);
    add_text(point, "sym", waypoint.sym);
    add_text(point, "type", waypoint.type);
  }
  for (const GpxWay& way : file.routes) {
    const pugi::xml_node route = add_way(gpx, "rte", way);
    for (std::size_t at = 0; at < way.places.size(); ++at) {
      add_text(add_point(route, "rtept", way.places[at]), "name", way.names[at]);
    }
  }
  for (const GpxWay& way : file.tracks) {
    pugi::xml_node segment = add_way(gpx, "trk", way).append_child("trkseg");
    for (const MicroPlace place : way.places) add_point(segment, "trkpt", place);
  }
  return xml_text(document);
}

}  // namespace castplan
