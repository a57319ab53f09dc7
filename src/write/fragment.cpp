// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "castplan/spots/tier.hpp"
#include "castplan/write/text.hpp"
#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"
#include "write/words.hpp"

// A part of a page for sites that take away script and style: nothing here needs either, and nothing has an id, a class
// or an address.

namespace castplan {
namespace {

constexpr std::size_t kMostMarks = 100;  // of one kind; all stand in features.geojson

std::string list_of(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += fmt::format("<li>{}</li>\n", escaped(text));
  return out.empty() ? out : "<ul>\n" + out + "</ul>\n";
}

std::string place_html(LonLat place) {
  return fmt::format("{}<br />{:.6f}, {:.6f}", plain_degrees_minutes(place), place.lat.degrees, place.lon.degrees);
}

std::string cast_html(const Plan& plan, const Spot& spot, const PrintedCast& cast) {
  const std::string over =
      std::isfinite(spot.target_depth.value()) ? ", over " + both_units(spot.target_depth, plan.units) : std::string();
  return fmt::format("<strong>{}</strong>{}<br />{} true, {}{}", compass_words(Degrees(cast.bearing_deg)),
                     side_words(spot), bearing_text(Degrees(cast.bearing_deg)),
                     both_units(Metres(cast.cast_m), plan.units), over);
}

std::string lures_html(const Plan& plan, const Spot& spot) {
  std::vector<std::string> lures;
  for (const Presentation& one : spot.presentations) lures.push_back(escaped(presentation_text(one, plan.units)));
  return joined(lures, "<br />");
}

std::string why_html(const Plan& plan, const PhaseSpots& phase, const Spot& spot) {
  std::string tier(name_of(tier_of(spot, phase.spots.size())));
  tier.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(tier.front())));
  return fmt::format("<strong>{}.</strong> {}", tier,
                     escaped(joined({sentence(spot.reason_words), joined(spot_cautions(plan, spot), " ")}, " ")));
}

std::string spot_row(const Plan& plan, const PhaseSpots& phase, const Spot& spot, const std::string& label) {
  const PrintedCast cast = printed_cast(plan, spot);
  return fmt::format(
      "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{} casts, {:.0f} "
      "minutes</td><td>{}</td></tr>\n",
      label, place_html(lonlat(cast.boat)), both_units(spot.boat_depth, plan.units), cast_html(plan, spot, cast),
      lures_html(plan, spot), spot.casts, spot.minutes, why_html(plan, phase, spot));
}

std::string phase_html(const Plan& plan, std::size_t number) {
  const PhaseSpots& phase = plan.phases[number];
  const std::string title = escaped(phase.phase->title);
  std::string out =
      fmt::format("<h3>{}</h3>\n<p>Holds for: {}</p>\n", title, escaped(temperatures_text(plan, phase.phase)));
  const std::span<const Spot> spots = shown_spots(plan, number);
  if (spots.empty()) {
    const std::string why = phase.why_none.empty() ? phase.phase->stop_reason : phase.why_none;
    return out + fmt::format("<p><strong>No spots.</strong> {}</p>\n",
                             escaped(joined({sentence(why), sentence(phase.phase->look_again)}, " ")));
  }
  out += fmt::format(
      "<table>\n<caption>Places to cast from, best first: {}</caption>\n<thead><tr><th scope=\"col\">No.</th>"
      "<th scope=\"col\">Boat at (WGS 84)</th><th scope=\"col\">Depth under the boat today</th><th scope=\"col\">Cast"
      "</th><th scope=\"col\">Lure</th><th scope=\"col\">Time</th><th scope=\"col\">Why</th></tr></thead>\n<tbody>\n",
      title);
  for (const Spot& spot : spots) out += spot_row(plan, phase, spot, spot_label(plan, number, spot));
  return out + "</tbody>\n</table>\n";
}

// What to keep clear of stands in the same list as where to begin.
std::string marks_html(const Plan& plan) {
  std::string out;
  for (const Kind kind : {Kind::launch, Kind::closure, Kind::hazard}) {
    std::string rows;
    std::size_t count = 0;
    for (const Feature& feature : plan.features) {
      if (feature.kind != kind || count++ >= kMostMarks) continue;
      rows += fmt::format("<li>{}: {}. {}</li>\n", name_html(feature.name), feature_facts(feature, plan.units),
                          plain_degrees_minutes(plan.lake->projection.to_lonlat(feature.anchor)));
    }
    if (rows.empty()) continue;
    out += fmt::format("<h3>{} ({}): {}</h3>\n", escaped(row_of(kind).plural), count, escaped(row_of(kind).what));
    if (count > kMostMarks) out += fmt::format("<p>The first {} of {}.</p>\n", kMostMarks, count);
    out += "<ul>\n" + rows + "</ul>\n";
  }
  return out;
}

}  // namespace

std::string fragment_html(const Plan& plan) {
  std::string out =
      "<div>\n<p><strong>PRIVATE: EXACT PLACES.</strong> Show it only to people you would take there, never on an open "
      "page.</p>\n";
  out += fmt::format("<h2>{}: places to cast</h2>\n", name_html(plan.lake_name));
  std::vector<std::string> facts;
  if (plan.profile != nullptr) facts.push_back(sentence("For " + plan.profile->title));
  if (!plan.date.empty()) facts.push_back(sentence("Date: " + plan.date));
  for (const std::string& fact : carried_facts(plan, nullptr)) facts.push_back(fact);
  out += list_of(carried_cautions(plan)) + list_of(facts);
  for (std::size_t number = 0; number < plan.phases.size(); ++number) out += phase_html(plan, number);
  out += marks_html(plan);
  out += list_of(plan.notes);
  return out + fmt::format("<p>{}</p>\n</div>\n", escaped(program_text()));
}

}  // namespace castplan
