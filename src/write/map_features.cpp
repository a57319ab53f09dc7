// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "write/html_text.hpp"
#include "write/map_page.hpp"
#include "write/svg_path.hpp"

namespace castplan {
namespace {

constexpr double kWordsWide = 62.0;  // pixels that the words beside a mark take
constexpr double kWordsHigh = 16.0;
constexpr std::size_t kMostMarks = 1500;  // of one kind; all stand in features.geojson

std::string place_style(const MapView& view, XY place) {
  const XY at = view.percent(place);
  return fmt::format("left:{:.2f}%;top:{:.2f}%", at.x, at.y);
}

bool on_view(const MapView& view, XY place) {
  const XY at = view.percent(place);
  return at.x >= 0.0 && at.x <= 100.0 && at.y >= 0.0 && at.y <= 100.0;
}

std::string drawn_class(const Feature& feature) {
  if (const auto* weed = std::get_if<WeedLine>(&feature.details)) {
    return weed->edge == WeedEdge::inside ? " class=\"inside\"" : "";
  }
  if (const auto* closure = std::get_if<Closure>(&feature.details)) return closure->active ? "" : " class=\"off\"";
  return {};
}

std::string title_of(const Plan& plan, const Feature& feature) {
  return fmt::format("<title>{}: {}</title>", short_name(feature.name), feature_facts(feature, plan.units));
}

/// Where marks of constant size go: each point of a set of points, else the anchor.
Points mark_places(const Feature& feature) {
  if (const auto* pool = std::get_if<Pool>(&feature.details)) return {pool->deepest};
  if (const auto* hump = std::get_if<Hump>(&feature.details)) return {hump->top};
  if (const auto* points = std::get_if<Points>(&feature.geometry)) return *points;
  return {feature.anchor};
}

/// Words beside a mark: how deep a pool is, how high a hump comes, what a launch is called.
std::string mark_words(const Feature& feature) {
  if (const auto* pool = std::get_if<Pool>(&feature.details)) return length_html(pool->max_depth);
  if (const auto* hump = std::get_if<Hump>(&feature.details)) return length_html(hump->top_depth);
  if (feature.kind == Kind::launch) return name_html(feature.name);
  return {};
}

/// Places whose words are shown from the start, in per cent of the view: others near them wait for a closer view.
using Worded = std::vector<XY>;

bool has_room(const MapView& view, const Worded& worded, XY at) {
  const double pixels_down = kFirstWidth * view.height() / view.width();
  return std::none_of(worded.begin(), worded.end(), [&](XY other) {
    return std::abs(at.x - other.x) * kFirstWidth < 100.0 * kWordsWide &&
           std::abs(at.y - other.y) * pixels_down < 100.0 * kWordsHigh;
  });
}

std::string marks_of(const MapPage& page, const Feature& feature, Worded& worded) {
  std::string out;
  const std::string_view kind = name_of(feature.kind);
  const std::string words = mark_words(feature);
  for (const XY place : mark_places(feature)) {
    if (!on_view(page.view, place)) continue;
    const std::string style = place_style(page.view, place);
    out +=
        fmt::format("<svg class=\"mark\" data-kind=\"{0}\" style=\"{1}\"><use href=\"#s-{0}\"/></svg>\n", kind, style);
    if (words.empty()) continue;
    const XY at = page.view.percent(place);
    const bool shown = feature.kind == Kind::launch || has_room(page.view, worded, at);
    if (shown) worded.push_back(at);
    const std::string_view side = at.x > 85.0 ? " before" : "";  // words that would run off the map
    out += fmt::format("<span class=\"words{}{}\" data-kind=\"{}\" style=\"{}\">{}</span>\n", shown ? "" : " minor",
                       side, kind, style, words);
  }
  return out;
}

}  // namespace

std::span<const KindArt> kind_arts() {
  static constexpr KindArt kArts[] = {
      {Kind::flat, Drawn::area, false, false},  // forms of the floor lie under all others
      {Kind::channel, Drawn::line, false, false},
      {Kind::saddle, Drawn::symbol, true, false},
      // areas, edges and places
      {Kind::weeds, Drawn::area, false, false},
      {Kind::pool, Drawn::area, true, false},
      {Kind::hump, Drawn::area, true, false},
      {Kind::closure, Drawn::area, false, false},
      {Kind::bay, Drawn::area, false, false},
      {Kind::spawning_ground, Drawn::area, false, false},
      {Kind::inside_turn, Drawn::line, false, false},
      {Kind::point, Drawn::line, false, false},
      {Kind::narrows, Drawn::symbol, true, false},
      {Kind::hazard, Drawn::area, true, false},
      {Kind::weed_line, Drawn::line, false, false},
      {Kind::drop_off, Drawn::line, false, true},
      {Kind::rock, Drawn::symbol, true, false},
      {Kind::wood, Drawn::symbol, true, false},
      {Kind::cover, Drawn::symbol, true, false},
      {Kind::dock, Drawn::symbol, true, false},
      {Kind::inflow, Drawn::symbol, true, false},
      {Kind::launch, Drawn::symbol, true, false},
  };
  return kArts;
}

std::string outline_path(const MapPage& page) { return svg_path(page.view, Geometry(page.plan.lake->outline)); }

std::string feature_layers(const MapPage& page) {
  std::string out;
  for (const KindArt& art : kind_arts()) {
    const std::string_view name = name_of(art.kind);
    std::string paths;
    for (const Feature& feature : page.plan.features) {
      if (feature.kind != art.kind) continue;
      const std::string path = svg_path(page.view, feature.geometry);
      if (path.empty()) continue;
      paths += fmt::format("<path{} d=\"{}\">{}</path>\n", drawn_class(feature), path, title_of(page.plan, feature));
    }
    if (paths.empty()) continue;
    const bool filled_area = art.drawn == Drawn::area;
    out += fmt::format("<g class=\"kind k-{0}{1}\" data-kind=\"{0}\"><use class=\"halo\" href=\"#g-{0}\"/>", name,
                       filled_area ? " area" : "");
    if (art.has_ticks) out += fmt::format("<use class=\"ticks\" href=\"#g-{}\"/>", name);
    out += fmt::format("<g class=\"ink\"><g id=\"g-{}\">\n{}</g></g></g>\n", name, paths);
  }
  return out;
}

std::string feature_marks(const MapPage& page) {
  std::string out;
  Worded worded;
  for (const KindArt& art : kind_arts()) {
    if (!art.has_symbol) continue;
    std::size_t count = 0;
    for (const Feature& feature : page.plan.features) {
      if (feature.kind != art.kind) continue;
      if (count++ == kMostMarks) break;
      out += marks_of(page, feature, worded);
    }
  }
  return out;
}

}  // namespace castplan
