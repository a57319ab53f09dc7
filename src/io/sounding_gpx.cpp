// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <pugixml.hpp>

#include "castplan/geo/error.hpp"
#include "io/depth_collector.hpp"
#include "io/number_text.hpp"
#include "io/sounding_readers.hpp"

namespace castplan {
namespace {

std::string_view local_name(const pugi::xml_node& node) {
  const std::string_view name = node.name();
  const auto colon = name.find(':');
  return colon == name.npos ? name : name.substr(colon + 1);
}

/// The first element named depth below a node, in document order.
pugi::xml_node depth_below(const pugi::xml_node& node) {
  return node.find_node([](const pugi::xml_node& one) { return lower(local_name(one)) == "depth"; });
}

pugi::xml_node extensions_of(const pugi::xml_node& point) {
  for (const pugi::xml_node& child : point.children()) {
    if (local_name(child) == "extensions") return child;
  }
  return {};
}

/// Walks through the points of a file.
class Walk {
 public:
  Walk(DepthAccount& account, SoundingCollector& collector, Numbers numbers)
      : account_(account), collector_(collector), numbers_(numbers) {}

  void all(const pugi::xml_node& gpx) {
    for (const pugi::xml_node& child : gpx.children()) {
      if (local_name(child) == "wpt") point(child, -1);
      if (local_name(child) != "trk") continue;
      for (const pugi::xml_node& segment : child.children()) {
        if (local_name(segment) == "trkseg") track(segment);
      }
    }
  }
  [[nodiscard]] int tracks() const { return tracks_; }

 private:
  void track(const pugi::xml_node& segment) {
    const int number = numbers_.first_track + tracks_++;
    for (const pugi::xml_node& child : segment.children()) {
      if (local_name(child) == "trkpt") point(child, number);
    }
  }

  void point(const pugi::xml_node& node, int track) {
    const std::size_t place = ++account_.source().rows;
    const auto lon = number_of(node.attribute("lon").value(), '.');
    const auto lat = number_of(node.attribute("lat").value(), '.');
    if (!lon || !lat) {
      account_.unread(place, "its lon and lat are not two numbers");
      return;
    }
    const pugi::xml_node depth = depth_below(extensions_of(node));
    const auto metres = account_.metres(std::string_view(depth.text().get()), '.', place);
    if (metres) collector_.add({*lon, *lat}, *metres, track, place);
  }

  DepthAccount& account_;
  SoundingCollector& collector_;
  Numbers numbers_;
  int tracks_ = 0;
};

}  // namespace

SoundingsRead read_gpx(const SoundingOptions& options, const Projection& target, Numbers numbers,
                       const std::string& shown) {
  SoundingsRead out;
  pugi::xml_document document;
  const pugi::xml_parse_result parsed = document.load_file(options.path.c_str());
  if (!parsed) {
    throw InputError(
        fmt::format("{}: cannot be read as GPX ({} at byte {})", shown, parsed.description(), parsed.offset));
  }
  const pugi::xml_node gpx = document.document_element();
  if (local_name(gpx) != "gpx") {
    throw InputError(fmt::format("{}: its root element is {}, expected gpx", shown, gpx.name()));
  }
  out.source.format = "GPX";
  out.source.row_name = "point";
  out.source.columns = {"lon", "lat", "depth", ""};
  // GPX 1.1, type wptType: lat and lon are WGS 84 degrees
  out.source.crs = "WGS 84";
  out.source.crs_from = "GPX";
  DepthAccount account(options, shown, out.source);
  account.settle_unit(options.unit ? std::nullopt : std::optional(DepthUnit::metre),
                      "GPX, where lengths are in metres");
  const Mover mover = Mover::between(Projection::geographic(), target);
  SoundingCollector collector(account, mover, numbers.file, "write the file anew with lat and lon the right way round",
                              out.soundings);
  Walk walk(account, collector, numbers);
  walk.all(gpx);
  out.source.tracks = walk.tracks();
  if (out.source.rows > 0 && out.source.reasons["it has no depth"] == out.source.rows) {
    throw InputError(fmt::format(
        "{}: none of its {} points has a depth; expected an element named depth within each point's extensions (ele "
        "is a height, not a depth)",
        shown, out.source.rows));
  }
  collector.finish(options);
  std::erase_if(out.source.reasons, [](const auto& reason) { return reason.second == 0; });
  return out;
}

}  // namespace castplan
