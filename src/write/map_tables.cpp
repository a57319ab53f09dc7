// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "castplan/spots/tier.hpp"
#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/map_page.hpp"
#include "write/words.hpp"

namespace castplan {
namespace {

/// A value as a person reads it: as many decimals as it needs, at most two.
std::string plain_number(double value) {
  if (!std::isfinite(value)) return "unknown";
  std::string text = fmt::format("{:.2f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string reason_value(const Reason& reason) {
  if (!std::isfinite(reason.value)) return {};
  if (reason.unit == "m") return both_html(Metres(reason.value));
  if (reason.unit.rfind("m ", 0) == 0) {  // "m away"
    return both_html(Metres(reason.value)) + " " + escaped(reason.unit.substr(2));
  }
  if (reason.unit.starts_with('%')) return escaped(fmt::format("{:.0f} {}", reason.value, reason.unit));
  return escaped(plain_number(reason.value) + (reason.unit.empty() ? "" : " " + reason.unit));
}

std::string reason_bar(const Reason& reason) {
  const double share = std::isfinite(reason.suitability) ? reason.suitability * 100.0 : 0.0;
  const std::string value = reason_value(reason);
  return fmt::format(
      "<li><span class=\"factor\">{}{}</span><span class=\"bar\" aria-hidden=\"true\"><span style=\"width:{:.0f}%\">"
      "</span></span><span class=\"worth\">fits {:.0f} %, counts {:.0f} %</span></li>\n",
      escaped(reason.factor), value.empty() ? "" : ": " + value, share, share, reason.weight * 100.0);
}

std::string boat_html(const Plan& plan, const Spot& spot) {
  const LonLat place = plan.lake->projection.to_lonlat(spot.boat);
  return fmt::format(
      "<span class=\"copy\" data-part=\"place\">{}</span><br><span class=\"copy small\">{}</span><br>"
      "<strong data-part=\"sounder\">{}</strong> under the boat{}",
      degrees_minutes(place), decimal_degrees(place), both_html(spot.boat_depth),
      spot.hold.empty() ? ""
                        : fmt::format("<br><span data-part=\"hold\">Hold by {}, come in heading {}</span>",
                                      escaped(spot.hold), bearing_text(spot.approach)));
}

std::string cast_html(const Plan& plan, const Spot& spot) {
  const PrintedCast cast = printed_cast(plan, spot);
  const std::string depth =
      std::isfinite(spot.target_depth.value()) ? ", over " + both_html(spot.target_depth) : std::string();
  return fmt::format("<strong>{}</strong>{}<br>{} true, {}<br>Expect a fish from {} to {} off the boat{}",
                     compass_words(spot.bearing), side_words(spot), bearing_text(Degrees(cast.bearing_deg)),
                     both_html(Metres(cast.cast_m)), length_html(spot.strike.first), length_html(spot.strike.second),
                     depth);
}

std::string effort_html(const Spot& spot) {
  return fmt::format("{} casts, {} minutes", spot.casts, plain_number(std::round(spot.minutes)));
}

std::string why_html(const Plan& plan, std::size_t phase, const Spot& spot) {
  return fmt::format("<p data-part=\"reason\"><strong class=\"tier\">{}.</strong> {}</p>\n{}{}",
                     name_of(tier_of(spot, shown_spots(plan, phase).size())), escaped(spot.reason_words),
                     bars_html(spot.why, spot.not_assessed), own_cautions_html(spot_cautions(plan, spot))) +
         fmt::format("<p class=\"small\">Covers: {}. Score {:.2f}, rank {} to {}. <span class=\"copy\">{}</span></p>\n",
                     covers_text(spot.kinds), printed_score(spot), spot.rank_low, spot.rank_high, escaped(spot.id));
}

std::string spot_rows(const Plan& plan, std::size_t phase, const Spot& spot) {
  const std::string label = spot_label(plan, phase, spot);
  return fmt::format(
      "<tbody class=\"spot-rows\" role=\"rowgroup\" id=\"{0}\" data-spot=\"{0}\">\n<tr role=\"row\">"
      "<th scope=\"row\" role=\"rowheader\"><a class=\"number\" id=\"{1}\" href=\"#{2}\">"
      "<span class=\"unseen\">Spot </span>{3}<span class=\"unseen\">, show on the map</span></a></th>\n"
      "<td role=\"cell\" data-head=\"Boat\">{4}</td>\n<td role=\"cell\" data-part=\"cast\" "
      "data-head=\"Cast\">{5}</td>\n"
      "<td role=\"cell\" data-part=\"lure\" data-head=\"Lure\">{6}<p class=\"small\">{7}</p></td></tr>\n"
      "<tr role=\"row\" class=\"why\"><td role=\"cell\" colspan=\"4\" data-head=\"Why here\">{8}</td></tr>\n</tbody>\n",
      element_id("spot", phase, spot), element_id("spot-link", phase, spot), element_id("spot-mark", phase, spot),
      label, boat_html(plan, spot), cast_html(plan, spot), lures_html(spot.presentations), effort_html(spot),
      why_html(plan, phase, spot));
}

std::string phase_title(const Plan& plan, std::size_t number) {
  const Phase* phase = plan.phases[number].phase;
  const std::string title = escaped(phase != nullptr ? std::string_view(phase->title) : std::string_view("Spots"));
  const std::string letter = phase_letter(plan, number);
  return letter.empty() ? title : fmt::format("<span class=\"letter\">{}</span> {}", letter, title);
}

std::string phase_head(const Plan& plan, std::size_t number) {
  const Phase* phase = plan.phases[number].phase;
  std::string out =
      fmt::format("<h2 id=\"phase-title-{}\" tabindex=\"-1\">{}</h2>\n", number, phase_title(plan, number));
  if (phase == nullptr) return out;
  out += fmt::format("<p class=\"holds\">Holds for water <span class=\"temperatures\">{}</span></p>\n",
                     escaped(phase_range_text(*phase)));
  for (const std::string& text : {phase->what, phase->where}) {
    if (!text.empty()) out += fmt::format("<p>{}</p>\n", escaped(text));
  }
  return out;
}

std::string no_spots_html(const Plan& plan, std::size_t number) {
  const PhaseSpots& phase = plan.phases[number];
  std::string why = phase.why_none;
  if (why.empty() && phase.phase != nullptr) why = phase.phase->stop_reason;
  std::string out = fmt::format("<p class=\"none\"><strong>No spots.</strong> {}</p>\n", escaped(why));
  if (phase.phase != nullptr && !phase.phase->look_again.empty()) {
    out += fmt::format("<p>{}</p>\n", escaped(phase.phase->look_again));
  }
  return out;
}

std::string phase_html(const Plan& plan, std::size_t number) {
  std::string out = fmt::format("<section class=\"phase\" data-phase=\"{0}\" aria-labelledby=\"phase-title-{0}\">\n{1}",
                                number, phase_head(plan, number));
  const auto spots = shown_spots(plan, number);
  if (spots.empty()) return out + no_spots_html(plan, number) + passes_html(plan, number) + "</section>\n";
  out +=
      "<p class=\"small\">Bars: how well a factor suits the fish (fits) and how much it counts in the score, which "
      "orders "
      "the spots.</p>\n";
  out += fmt::format("<p class=\"small\">{}</p>\n", tier_words());
  for (const std::string& words : order_words(plan.phases[number].order, phase_letter(plan, number))) {
    out += fmt::format("<p class=\"small\">{}</p>\n", escaped(words));
  }
  for (const std::string& words : shelter_words(plan.phases[number].shelter, plan.units, phase_letter(plan, number))) {
    out += fmt::format("<p class=\"small\">{}</p>\n", escaped(words));
  }
  out += fmt::format(
      "<table role=\"table\" aria-labelledby=\"phase-title-{}\">\n<thead role=\"rowgroup\"><tr role=\"row\">"
      "<th scope=\"col\" role=\"columnheader\">No.</th><th scope=\"col\" role=\"columnheader\">Boat</th>"
      "<th scope=\"col\" role=\"columnheader\">Cast</th><th scope=\"col\" "
      "role=\"columnheader\">Lure</th></tr></thead>\n",
      number);
  for (const Spot& spot : spots) out += spot_rows(plan, number, spot);
  return out + "</table>\n" + passes_html(plan, number) + "</section>\n";
}

std::string phase_switch(const Plan& plan) {
  if (plan.phases.size() < 2) return {};
  std::string out = "<fieldset class=\"phases scripted\"><legend>Phase shown</legend>\n";
  for (std::size_t i = 0; i < plan.phases.size(); ++i) {
    out += fmt::format("<label><input type=\"radio\" name=\"phase\" value=\"{}\"{}> <span>{}</span></label>\n", i,
                       i == first_phase(plan) ? " checked" : "", phase_title(plan, i));
  }
  return out + "</fieldset>\n";
}

}  // namespace

std::string bars_html(const std::vector<Reason>& why, const std::vector<std::string>& not_assessed) {
  std::string out = "<ul class=\"bars\">\n";
  for (const Reason& reason : why) out += reason_bar(reason);
  out += "</ul>\n";
  if (!not_assessed.empty()) {
    std::string names;
    for (const std::string& name : not_assessed) names += (names.empty() ? "" : ", ") + escaped(name);
    out += fmt::format("<p class=\"small\">Not assessed, and so not in the score: {}.</p>\n", names);
  }
  return out;
}

std::string lures_html(const std::vector<Presentation>& presentations) {
  std::string out = "<ul class=\"plain\">\n";
  for (const Presentation& lure : presentations) {
    out += fmt::format("<li><strong>{}</strong>, running {}: {}</li>\n", escaped(lure.lure),
                       range_html({lure.run_from, lure.run_to}), escaped(lure.retrieve));
  }
  return out + "</ul>";
}

std::string own_cautions_html(const std::vector<std::string>& cautions) {
  std::string out;
  for (const std::string& caution : cautions) {
    out += fmt::format("<p class=\"caution\"><strong>Caution:</strong> {}</p>\n", escaped(caution));
  }
  return out;
}

std::string covers_text(const std::vector<Kind>& kinds) {
  std::string out;
  for (const Kind kind : kinds) out += (out.empty() ? "" : ", ") + std::string(row_of(kind).label);
  return escaped(out);
}

std::string phases_html(const MapPage& page) {
  std::string out = phase_switch(page.plan);
  if (page.plan.phases.size() > 1) {
    out += "<p class=\"on-paper\">Only the phase chosen on the page is printed; choose another there.</p>\n";
  }
  for (std::size_t i = 0; i < page.plan.phases.size(); ++i) out += phase_html(page.plan, i);
  return out;
}

}  // namespace castplan
