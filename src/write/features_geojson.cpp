// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "write/collection.hpp"
#include "write/plain_text.hpp"
#include "write/words.hpp"

namespace castplan {
namespace {

// Writes the properties of one feature, by what is known of it.
class Properties {
 public:
  Properties(JsonText& json, const Projection& projection) : json_(json), projection_(projection) {}

  void operator()(const Pool& pool) {
    metres("max_depth_m", pool.max_depth);
    place("deepest", pool.deepest);
    metres("sill_depth_m", pool.sill_depth);
    metres("relief_m", pool.relief);
    json_.key("area_m2").number(pool.area.value(), 1);
    json_.key("volume_m3").number(pool.volume.value(), 1);
  }
  void operator()(const DropOff& edge) {
    metres("top_depth_m", edge.top_depth);
    metres("base_depth_m", edge.base_depth);
    metres("relief_m", edge.relief);
    json_.key("grade_pct").number(edge.grade_pct, 1);
    metres("length_m", edge.length);
    json_.key("faces_deg").number(rounded_bearing(edge.faces.value(), 1), 1);
  }
  void operator()(const WeedLine& line) {
    json_.key("edge").text(line.edge == WeedEdge::outside ? "outside" : "inside");
    json_.key("source").text(source_name(line.source));
    metres("depth_m", line.depth);
    metres("length_m", line.length);
    json_.key("density").number(line.density, 4);
    losses("lowered_by", line.lowered_by);
    losses("not_assessed", line.not_assessed);
    metres("depth_low_m", line.depth_low);
    metres("depth_high_m", line.depth_high);
    metres("deepest_plant_m", line.deepest);
    json_.key("at_break").boolean(line.at_break);
    text("bare_above", line.bare_above ? name_of(*line.bare_above) : "");
    places("points", line.points);
    places("turns", line.turns);
    json_.key("gaps").begin_array();
    for (const WeedGap& gap : line.gaps) write_gap(gap);
    json_.end_array();
  }
  void operator()(const Hump& hump) {
    metres("top_depth_m", hump.top_depth);
    place("top", hump.top);
    metres("base_depth_m", hump.base_depth);
    metres("relief_m", hump.relief);
    json_.key("area_m2").number(hump.area.value(), 1);
  }
  void operator()(const Saddle& saddle) {
    metres("depth_m", saddle.depth);
    metres("relief_m", saddle.relief);
    json_.key("joins").begin_array();
    for (const SaddleSide& side : saddle.sides) json_.text(side.id.empty() ? joined_name(side.what) : side.id);
    json_.end_array();
  }
  void operator()(const Flat& flat) {
    metres("depth_m", flat.depth);
    json_.key("area_m2").number(flat.area.value(), 1);
    metres("edge_m", flat.edge);
  }
  void operator()(const Channel& channel) {
    metres("depth_m", channel.depth);
    metres("length_m", channel.length);
    metres("relief_m", channel.relief);
    metres("width_m", channel.width);
    places("bends", channel.bends);
    places("near_bank", channel.near_bank);
  }
  void operator()(const Bar& bar) {
    metres("depth_m", bar.depth);
    metres("relief_m", bar.relief);
    json_.key("faces_deg").number(rounded_bearing(bar.faces.value(), 1), 1);
  }
  void operator()(const Narrows& narrows) {
    metres("depth_m", narrows.depth);
    metres("width_m", narrows.width);
    metres("contour_m", narrows.level);
  }
  void operator()(const Bay& bay) {
    json_.key("area_m2").number(bay.area.value(), 1);
    json_.key("mouth").begin_array();
    for (const XY end : bay.mouth) write_place(json_, printed(projection_.to_lonlat(end)));
    json_.end_array();
    metres("mouth_m", bay.width);
    metres("mean_depth_m", bay.mean_depth);
    json_.key("faces_deg").number(rounded_bearing(bay.faces.value(), 1), 1);
    metres("fetch_m", bay.fetch);
  }
  void operator()(const Structure& structure) {
    metres("depth_m", structure.depth);
    text("source_file", structure.source_file);
    text("attribute", structure.attribute);
  }
  void operator()(const Closure& closure) {
    json_.key("closure").text(name_of(closure.kind));
    text("from", closure.from);
    text("to", closure.to);
    json_.key("active").boolean(closure.active);
    json_.key("reason").text(closure_words(closure));
    text("source_file", closure.source_file);
  }
  void operator()(const LikelyGround& ground) {
    json_.key("species").text(ground.species);
    metres("depth_m", ground.depth);
    json_.key("area_m2").number(ground.area.value(), 1);
    metres("fetch_m", ground.fetch);
    json_.key("hollow").boolean(ground.hollow);
    json_.key("plants").boolean(ground.plants);
    json_.key("reason").text(ground.reason);
    json_.key("no_spots_in").text(ground.waters);
  }
  void operator()(const Launch& launch) {
    metres("usable_above_m", launch.usable_above);
    json_.key("dry").boolean(launch.dry);
    text("reason", launch.dry ? "dry at today's level" : "");
  }

 private:
  static std::string_view source_name(WeedSource source) {
    switch (source) {
      case WeedSource::mapped:
        return "mapped";
      case WeedSource::observed:
        return "observed";
      case WeedSource::fitted:
        return "fitted";
      case WeedSource::predicted:
        return "predicted";
    }
    return "predicted";
  }
  static std::string_view joined_name(Joined what) {
    return what == Joined::hump ? "hump" : what == Joined::pool ? "pool" : "shore";
  }
  void metres(std::string_view name, std::optional<Metres> value) {
    json_.key(name);
    value ? json_.number(value->value(), 2) : json_.null();
  }
  void text(std::string_view name, std::string_view value) {
    json_.key(name);
    value.empty() ? json_.null() : json_.text(value);
  }
  void places(std::string_view name, const Points& all) {
    json_.key(name).begin_array();
    for (const XY at : all) write_place(json_, printed(projection_.to_lonlat(at)));
    json_.end_array();
  }
  void losses(std::string_view name, const std::vector<WeedLoss>& all) {
    json_.key(name).begin_array();
    for (const WeedLoss loss : all) json_.text(name_of(loss));
    json_.end_array();
  }
  void write_gap(const WeedGap& gap) {
    json_.begin_object();
    place("from", gap.from);
    place("to", gap.to);
    metres("length_m", gap.length);
    json_.key("why").text(name_of(gap.why));
    json_.end_object();
  }
  void place(std::string_view name, XY at) {
    json_.key(name);
    write_place(json_, printed(projection_.to_lonlat(at)));
  }

  JsonText& json_;
  const Projection& projection_;
};

}  // namespace

std::string features_geojson(const Plan& plan) {
  Collection collection(plan);
  for (const Feature& feature : plan.features) {
    JsonText& json = collection.begin_feature(feature.id, ground_shape(feature.geometry, plan.lake->projection));
    json.key("kind").text(name_of(feature.kind));
    json.key("name").text(feature.name);
    json.key("confidence").number(feature.confidence, 4);
    std::visit(Properties(json, plan.lake->projection), feature.details);
    json.key("neighbours").begin_array();
    for (const std::string& id : feature.neighbours) json.text(id);
    json.end_array();
    collection.end_feature();
  }
  return collection.text();
}

}  // namespace castplan
