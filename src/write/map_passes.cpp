// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/map_buttons.hpp"
#include "write/map_page.hpp"
#include "write/svg_path.hpp"

namespace castplan {
namespace {

constexpr Metres kBetweenStrokes(20);
constexpr Metres kBetweenArrows(100);

/// To the side that is cast to, length 1.
XY aside(const Pass& pass, XY along) {
  const XY left = unit(XY{-along.y, along.x});
  return pass.cast_side == Side::left ? left : left * -1.0;
}

/// Short strokes from the lane to where the casts go.
std::string strokes(const MapView& view, const Pass& pass) {
  const Line places = resampled(pass.lane, kBetweenStrokes);
  const double reach = (pass.cast.first + pass.cast.second).value() / 2;
  std::string out;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const XY along = places[std::min(i + 1, places.size() - 1)] - places[i > 0 ? i - 1 : 0];
    out += svg_path(view, Line{places[i], places[i] + aside(pass, along) * reach});
  }
  return out;
}

std::string lane_lines(const MapPage& page, std::size_t phase, const Pass& pass) {
  const std::string lane = svg_path(page.view, pass.lane);
  return fmt::format(
      "<g class=\"pass\" data-phase=\"{}\" id=\"{}\"><path class=\"halo\" d=\"{}\"/><path class=\"reach\" d=\"{}\"/>"
      "<path class=\"line\" d=\"{}\"/><path class=\"begin\" d=\"{}\"/></g>\n",
      phase, element_id("lane", phase, pass), lane, strokes(page.view, pass), lane,
      svg_dot(page.view, pass.lane.front()));
}

std::string arrow(const MapPage& page, std::size_t phase, XY from, XY to) {
  const XY at = page.view.percent(to);
  return fmt::format(
      "<svg class=\"mark way\" data-phase=\"{}\" style=\"left:{:.2f}%;top:{:.2f}%;--turn:{:.0f}deg\" "
      "aria-hidden=\"true\"><use href=\"#s-way\"/></svg>\n",
      phase, at.x, at.y, grid_bearing(from, to).value());
}

std::string arrows(const MapPage& page, std::size_t phase, const Pass& pass) {
  const Line places = resampled(pass.lane, kBetweenArrows);
  std::string out;
  for (std::size_t i = 1; i < places.size(); ++i) {
    // the way of the lane itself just before, not of the chord
    const double share = static_cast<double>(i) / static_cast<double>(places.size() - 1);
    const double back = std::max(0.0, share - 5.0 / std::max(1.0, pass.length.value()));
    out += arrow(page, phase, point_along(pass.lane, back), places[i]);
  }
  return out;
}

std::string lane_mark(const MapPage& page, std::size_t phase, const Pass& pass, XY button) {
  return arrows(page, phase, pass) +
         fmt::format(
             "<button type=\"button\" class=\"pass-mark\" id=\"{}\" data-pass=\"{}\" data-phase=\"{}\" {}><span "
             "class=\"unseen\">Pass "
             "</span>{}<span class=\"unseen\">: {} to "
             "the {}, cast to the {}; show in the table</span></button>\n",
             element_id("pass-mark", phase, pass), element_id("pass", phase, pass), phase,
             button_place(page.view, pass.lane[0], pass.lane[1], button), pass_label(page.plan, phase, pass),
             distance_html(pass.length), compass_words(pass.heading), name_of(pass.cast_side));
}

std::string place_html(const Plan& plan, XY place) {
  const LonLat at = plan.lake->projection.to_lonlat(place);
  return fmt::format("<span class=\"copy\" data-part=\"place\">{}</span><br><span class=\"copy small\">{}</span>",
                     degrees_minutes(at), decimal_degrees(at));
}

std::string lane_html(const Plan& plan, const Pass& pass) {
  return fmt::format(
      "From {}<br>to {}<br><span data-part=\"way\"><strong>{}</strong> to the {}</span>, {} places in passes.geojson, "
      "<span data-part=\"sounder\">{}</span> under the boat",
      place_html(plan, pass.lane.front()), place_html(plan, pass.lane.back()), both_html(pass.length),
      compass_words(pass.heading), pass.lane.size(), range_html(pass.boat_depth));
}

std::string side_html(const Pass& pass) {
  return fmt::format("To the <strong>{}</strong>, {}<br>over {}{}", name_of(pass.cast_side), range_html(pass.cast),
                     range_html(pass.target_depth), pass.open_water ? ", away from the edge" : "");
}

std::string why_html(const Plan& plan, const Pass& pass) {
  return fmt::format(
      "<p data-part=\"reason\">{}</p>\n{}{}<p class=\"small\">Covers: {}. Score {:.2f} of the mean of {} places along "
      "it, confidence {:.0f} "
      "%. <span class=\"copy\">{}</span></p>\n",
      escaped(pass.reason_words), bars_html(pass.why, pass.not_assessed), own_cautions_html(pass_cautions(plan, pass)),
      covers_text(pass.kinds), pass.score, pass.places, pass.confidence * 100, escaped(pass.id));
}

std::string pass_rows(const Plan& plan, std::size_t phase, const Pass& pass) {
  return fmt::format(
      "<tbody class=\"spot-rows\" role=\"rowgroup\" id=\"{}\">\n<tr role=\"row\">"
      "<th scope=\"row\" role=\"rowheader\"><a class=\"number lane\" id=\"{}\" href=\"#{}\">"
      "<span class=\"unseen\">Pass </span>{}<span class=\"unseen\">, show on the map</span></a></th>\n"
      "<td role=\"cell\" data-head=\"Lane\">{}</td>\n<td role=\"cell\" data-part=\"cast\" data-head=\"Cast\">{}</td>\n"
      "<td role=\"cell\" data-part=\"lure\" data-head=\"Lure\">{}<p class=\"small\">{} casts, {:.0f} "
      "minutes</p></td></tr>\n"
      "<tr role=\"row\" class=\"why\"><td role=\"cell\" colspan=\"4\" data-head=\"Why here\">{}</td></tr>\n</tbody>\n",
      element_id("pass", phase, pass), element_id("pass-link", phase, pass), element_id("pass-mark", phase, pass),
      pass_label(plan, phase, pass), lane_html(plan, pass), side_html(pass), lures_html(pass.presentations), pass.casts,
      pass.minutes, why_html(plan, pass));
}

std::size_t count_of(const Plan& plan) {
  std::size_t count = 0;
  for (std::size_t phase = 0; phase < plan.phases.size(); ++phase) count += shown_passes(plan, phase).size();
  return count;
}

}  // namespace

std::span<const Pass> shown_passes(const Plan& plan, std::size_t phase) {
  if (plan.season.no_spots) return {};
  return plan.phases[phase].passes;
}

std::string pass_label(const Plan& plan, std::size_t phase, const Pass& pass) {
  return fmt::format("{}P{}", phase_letter(plan, phase), pass.rank);
}

std::string element_id(std::string_view prefix, std::size_t phase, const Pass& pass) {
  return fmt::format("{}-{}-{}", prefix, phase, pass.rank);
}

// Switches work on what carries a kind, phases on what carries a phase: one inside the other, so that both hold.
std::string pass_lines(const MapPage& page) {
  std::string out = "<g data-kind=\"pass\">\n";
  for (std::size_t phase = 0; phase < page.plan.phases.size(); ++phase) {
    for (const Pass& pass : shown_passes(page.plan, phase)) out += lane_lines(page, phase, pass);
  }
  return out + "</g>\n";
}

std::string pass_marks(const MapPage& page) {
  std::string out = "<div class=\"layer\" data-kind=\"pass\">\n";
  for (std::size_t phase = 0; phase < page.plan.phases.size(); ++phase) {
    const std::span<const Pass> passes = shown_passes(page.plan, phase);
    const std::vector<XY> buttons =
        button_offsets(passes, shown_spots(page.plan, phase), page.view.width() / kFirstWidth);
    for (std::size_t i = 0; i < passes.size(); ++i) out += lane_mark(page, phase, passes[i], buttons[i]);
  }
  return out + "</div>\n";
}

std::string pass_switch(const Plan& plan) {
  const std::size_t count = count_of(plan);
  if (count == 0) return {};
  return fmt::format(
      "<li><label><input class=\"scripted\" type=\"checkbox\" checked data-kind=\"pass\"> <svg class=\"sample\" "
      "viewBox=\"0 0 36 24\" aria-hidden=\"true\"><g class=\"pass\"><path class=\"halo\" d=\"M2 16H34\"/><path "
      "class=\"reach\" d=\"M6 16V5M14 16V5M22 16V5M30 16V5\"/><path class=\"line\" d=\"M2 16H34\"/></g></svg> "
      "<span><b>passes</b> ({}): lanes that the boat follows past an edge</span></label></li>\n",
      count);
}

std::string passes_html(const Plan& plan, std::size_t phase) {
  const std::span<const Pass> passes = shown_passes(plan, phase);
  if (passes.empty()) return {};
  std::string out = fmt::format(
      "<h3 id=\"passes-title-{0}\">Passes</h3>\n<p class=\"small\">Lanes past long edges, best first: follow one "
      "slowly "
      "from its button and cast to the side said, about every 10 m. Score and bars are means over places along "
      "it.</p>\n"
      "<table role=\"table\" aria-labelledby=\"passes-title-{0}\">\n<thead role=\"rowgroup\"><tr role=\"row\">"
      "<th scope=\"col\" role=\"columnheader\">No.</th><th scope=\"col\" role=\"columnheader\">Lane</th>"
      "<th scope=\"col\" role=\"columnheader\">Cast</th><th scope=\"col\" "
      "role=\"columnheader\">Lure</th></tr></thead>\n",
      phase);
  for (const Pass& pass : passes) out += pass_rows(plan, phase, pass);
  return out + "</table>\n";
}

}  // namespace castplan
