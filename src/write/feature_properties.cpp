// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <iterator>

#include "write/json_lists.hpp"
#include "write/plain_text.hpp"
#include "write/properties.hpp"
#include "write/words.hpp"

namespace castplan {
namespace {

// What is known of a feature by its kind.
class Properties {
 public:
  Properties(PropertySink& sink, const Projection& projection) : sink_(sink), projection_(projection) {}

  void operator()(const Pool& pool) {
    metres("max_depth_m", pool.max_depth);
    place("deepest", pool.deepest);
    metres("sill_depth_m", pool.sill_depth);
    metres("relief_m", pool.relief);
    sink_.number("area_m2", pool.area.value(), 1);
    sink_.number("volume_m3", pool.volume.value(), 1);
  }
  void operator()(const DropOff& edge) {
    metres("top_depth_m", edge.top_depth);
    metres("base_depth_m", edge.base_depth);
    metres("relief_m", edge.relief);
    sink_.number("grade_pct", edge.grade_pct, 1);
    metres("length_m", edge.length);
    bearing("faces_deg", edge.faces);
  }
  void operator()(const WeedLine& line) {
    sink_.text("edge", line.edge == WeedEdge::outside ? "outside" : "inside");
    sink_.text("source", source_name(line.source));
    metres("depth_m", line.depth);
    metres("length_m", line.length);
    sink_.number("density", line.density, 4);
    sink_.list("lowered_by", losses(line.lowered_by));
    sink_.list("not_assessed", losses(line.not_assessed));
    metres("depth_low_m", line.depth_low);
    metres("depth_high_m", line.depth_high);
    metres("deepest_plant_m", line.deepest);
    sink_.boolean("at_break", line.at_break);
    sink_.text_or_none("bare_above", line.bare_above ? name_of(*line.bare_above) : "");
    places("points", line.points);
    places("turns", line.turns);
    sink_.list("gaps", json_list([&](JsonText& json) {
                 for (const WeedGap& gap : line.gaps) write_gap(json, gap);
               }));
  }
  void operator()(const Hump& hump) {
    metres("top_depth_m", hump.top_depth);
    place("top", hump.top);
    metres("base_depth_m", hump.base_depth);
    metres("relief_m", hump.relief);
    sink_.number("area_m2", hump.area.value(), 1);
  }
  void operator()(const Saddle& saddle) {
    metres("depth_m", saddle.depth);
    metres("relief_m", saddle.relief);
    sink_.list("joins", json_list([&](JsonText& json) {
                 for (const SaddleSide& side : saddle.sides)
                   json.text(side.id.empty() ? joined_name(side.what) : side.id);
               }));
  }
  void operator()(const Flat& flat) {
    metres("depth_m", flat.depth);
    sink_.number("area_m2", flat.area.value(), 1);
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
    bearing("faces_deg", bar.faces);
  }
  void operator()(const Narrows& narrows) {
    metres("depth_m", narrows.depth);
    metres("width_m", narrows.width);
    metres("contour_m", narrows.level);
  }
  void operator()(const Bay& bay) {
    sink_.number("area_m2", bay.area.value(), 1);
    places("mouth", {std::begin(bay.mouth), std::end(bay.mouth)});
    metres("mouth_m", bay.width);
    metres("mean_depth_m", bay.mean_depth);
    bearing("faces_deg", bay.faces);
    metres("fetch_m", bay.fetch);
  }
  void operator()(const Structure& structure) {
    metres("depth_m", structure.depth);
    sink_.text_or_none("source_file", structure.source_file);
    sink_.text_or_none("attribute", structure.attribute);
  }
  void operator()(const Closure& closure) {
    sink_.text("closure", name_of(closure.kind));
    sink_.text_or_none("from", closure.from);
    sink_.text_or_none("to", closure.to);
    sink_.boolean("active", closure.active);
    sink_.text("reason", closure_words(closure));
    sink_.text_or_none("source_file", closure.source_file);
  }
  void operator()(const LikelyGround& ground) {
    sink_.text("species", ground.species);
    metres("depth_m", ground.depth);
    sink_.number("area_m2", ground.area.value(), 1);
    metres("fetch_m", ground.fetch);
    sink_.boolean("hollow", ground.hollow);
    sink_.boolean("plants", ground.plants);
    sink_.text("reason", ground.reason);
    sink_.text("no_spots_in", ground.waters);
  }
  void operator()(const Launch& launch) {
    metres("usable_above_m", launch.usable_above);
    sink_.boolean("dry", launch.dry);
    sink_.text_or_none("reason", launch.dry ? "dry at today's level" : "");
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
    sink_.number(name, value ? std::optional(value->value()) : std::nullopt, 2);
  }
  void bearing(std::string_view name, Degrees value) { sink_.number(name, rounded_bearing(value.value(), 1), 1); }
  void write_at(JsonText& json, XY at) const { write_place(json, printed(projection_.to_lonlat(at))); }
  void place(std::string_view name, XY at) {
    JsonText json(JsonText::Lines::one);
    write_at(json, at);
    sink_.list(name, json.str());
  }
  void places(std::string_view name, const Points& all) {
    sink_.list(name, json_list([&](JsonText& json) {
                 for (const XY at : all) write_at(json, at);
               }));
  }
  static std::string losses(const std::vector<WeedLoss>& all) {
    return json_list([&](JsonText& json) {
      for (const WeedLoss loss : all) json.text(name_of(loss));
    });
  }
  void write_gap(JsonText& json, const WeedGap& gap) const {
    json.begin_object().key("from");
    write_at(json, gap.from);
    json.key("to");
    write_at(json, gap.to);
    json.key("length_m").number(gap.length.value(), 2);
    json.key("why").text(name_of(gap.why));
    json.end_object();
  }

  PropertySink& sink_;
  const Projection& projection_;
};

}  // namespace

void put_properties(PropertySink& sink, const Plan& plan, const Feature& feature) {
  sink.text("kind", name_of(feature.kind));
  sink.text("name", feature.name);
  sink.number("confidence", feature.confidence, 4);
  std::visit(Properties(sink, plan.lake->projection), feature.details);
  sink.list("neighbours", text_list(feature.neighbours));
}

}  // namespace castplan
