// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "castplan/write/text.hpp"
#include "write/html_text.hpp"
#include "write/map_buttons.hpp"
#include "write/map_page.hpp"
#include "write/svg_path.hpp"

namespace castplan {
namespace {

/// The place a distance from the boat on the way to the target.
XY on_cast(const Spot& spot, Metres from_boat) {
  const double share = spot.cast.value() > 0.0 ? from_boat.value() / spot.cast.value() : 0.0;
  return spot.boat + (spot.target - spot.boat) * share;
}

std::string cast_line(const MapPage& page, std::size_t phase, const Spot& spot) {
  const std::string line = svg_path(page.view, Line{spot.boat, spot.target});
  const std::string strike =
      svg_path(page.view, Line{on_cast(spot, spot.strike.first), on_cast(spot, spot.strike.second)});
  const std::string dot = svg_dot(page.view, spot.boat);
  return fmt::format(
      "<g class=\"cast\" data-phase=\"{}\" id=\"{}\"><path class=\"halo\" d=\"{}\"/><path class=\"line\" d=\"{}\"/>"
      "<path class=\"strike\" d=\"{}\"/><path class=\"boat-halo\" d=\"{}\"/><path class=\"boat\" d=\"{}\"/></g>\n",
      phase, element_id("cast", phase, spot), line, line, strike, dot, dot);
}

std::string spot_mark(const MapPage& page, std::size_t phase, const Spot& spot, XY button) {
  const XY target = page.view.percent(spot.target);
  const std::string label = spot_label(page.plan, phase, spot);
  return fmt::format(
      "<svg class=\"mark target\" data-phase=\"{0}\" style=\"left:{1:.2f}%;top:{2:.2f}%\"><use "
      "href=\"#s-target\"/></svg>\n"
      "<button type=\"button\" class=\"spot\" id=\"{3}\" data-spot=\"{4}\" data-phase=\"{0}\" {5}>"
      "<span class=\"unseen\">Spot </span>{6}<span class=\"unseen\">: {7}, cast {8}; show in the "
      "table</span></button>\n",
      phase, target.x, target.y, element_id("spot-mark", phase, spot), element_id("spot", phase, spot),
      button_place(page.view, spot.boat, spot.target, button), label, length_html(spot.boat_depth),
      compass_words(spot.bearing));
}

}  // namespace

std::span<const Spot> shown_spots(const Plan& plan, std::size_t phase) {
  if (plan.season.no_spots) return {};
  return plan.phases[phase].spots;
}

std::size_t first_phase(const Plan& plan) {
  for (std::size_t i = 0; i < plan.phases.size(); ++i) {
    if (!shown_spots(plan, i).empty()) return i;
  }
  return 0;
}

std::string phase_letter(const Plan& plan, std::size_t phase) {
  if (plan.phases.size() < 2) return {};
  return {static_cast<char>('A' + static_cast<int>(phase % 26))};
}

std::string spot_label(const Plan& plan, std::size_t phase, const Spot& spot) {
  return fmt::format("{}{}", phase_letter(plan, phase), spot.rank);
}

std::string element_id(std::string_view prefix, std::size_t phase, const Spot& spot) {
  return fmt::format("{}-{}-{}", prefix, phase, spot.rank);
}

std::string cast_lines(const MapPage& page) {
  std::string out;
  for (std::size_t phase = 0; phase < page.plan.phases.size(); ++phase) {
    for (const Spot& spot : shown_spots(page.plan, phase)) out += cast_line(page, phase, spot);
  }
  return out;
}

std::string spot_marks(const MapPage& page) {
  std::string out;
  for (std::size_t phase = 0; phase < page.plan.phases.size(); ++phase) {
    const std::span<const Spot> spots = shown_spots(page.plan, phase);
    const std::vector<XY> buttons = button_offsets(spots, page.view.width() / kFirstWidth);
    for (std::size_t i = 0; i < spots.size(); ++i) out += spot_mark(page, phase, spots[i], buttons[i]);
  }
  return out;
}

std::string script_data(const MapPage& page) {
  JsonText json;
  json.begin_object();
  json.key("lake").text(page.plan.lake_name);
  json.key("width_m").number(page.view.width(), 2);
  json.key("first_phase").integer(static_cast<long long>(first_phase(page.plan)));
  json.key("phases").begin_array();
  for (const PhaseSpots& phase : page.plan.phases) json.text(phase.phase != nullptr ? phase.phase->name : "");
  json.end_array();
  json.end_object();
  return script_safe(json.str());
}

}  // namespace castplan
