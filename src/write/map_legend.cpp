// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "write/html_text.hpp"
#include "write/map_page.hpp"

namespace castplan {
namespace {

std::string sample_of(const KindArt& art) {
  const std::string_view name = name_of(art.kind);
  if (art.drawn == Drawn::symbol) {
    return fmt::format(
        "<svg class=\"sample\" viewBox=\"-18 -12 36 24\" aria-hidden=\"true\"><use href=\"#s-{}\" x=\"-11\" "
        "y=\"-11\" width=\"22\" height=\"22\"/></svg>",
        name);
  }
  const std::string_view shape = art.drawn == Drawn::line ? "M2 12H34" : "M3 4H33V20H3Z";
  std::string out = fmt::format(
      "<svg class=\"sample\" viewBox=\"0 0 36 24\" aria-hidden=\"true\"><g class=\"kind k-{}{}\">"
      "<path class=\"halo\" d=\"{}\"/>",
      name, art.drawn == Drawn::area ? " area" : "", shape);
  if (art.has_ticks) out += fmt::format("<path class=\"ticks\" d=\"{}\"/>", shape);
  out += fmt::format("<path class=\"ink\" d=\"{}\"/></g>", shape);
  if (art.has_symbol) out += fmt::format("<use href=\"#s-{}\" x=\"9\" y=\"3\" width=\"18\" height=\"18\"/>", name);
  return out + "</svg>";
}

std::string kind_switch(const Plan& plan, const KindArt& art) {
  const auto count = std::count_if(plan.features.begin(), plan.features.end(),
                                   [&](const Feature& feature) { return feature.kind == art.kind; });
  if (count == 0) return {};
  const KindRow& row = row_of(art.kind);
  return fmt::format(
      "<li><label><input class=\"scripted\" type=\"checkbox\" checked data-kind=\"{}\"> {} <span><b>{}</b> "
      "({}): {}</span></label></li>\n",
      row.name, sample_of(art), escaped(row.plural), count, escaped(row.what));
}

std::string step_words(Metres deepest, Units units) {
  const bool metric = units == Units::metric;
  return fmt::format("every {} {}. Depths in {} on the map.", contour_step(deepest, units).in_unit, metric ? "m" : "ft",
                     metric ? "metres" : "feet");
}

std::string depth_key(const Plan& plan) {
  const Metres deepest = plan.lake->max_depth;
  return fmt::format(
      "<div class=\"ramp\"><div class=\"strip\" style=\"background:linear-gradient(to right,{})\"></div>"
      "<div class=\"ends\"><span>shore</span><span>{}</span><span>{}</span></div></div>\n"
      "<p class=\"small\">Darker is deeper. Thin lines join equal depths, {}</p>\n",
      ramp_gradient(), both_html(deepest * std::pow(0.5, 1.0 / kRampPower)), both_html(deepest),
      in_units(step_words(deepest, Units::metric), step_words(deepest, Units::imperial)));
}

/// The longest of 1, 2, 5, 10 ... that is no longer than the room.
double round_below(double room) {
  const double ten = std::pow(10.0, std::floor(std::log10(room)));
  return room >= 5.0 * ten ? 5.0 * ten : room >= 2.0 * ten ? 2.0 * ten : ten;
}

std::string scale_bar(const MapPage& page, double metres, std::string_view unit, double small, double large,
                      std::string_view large_unit) {
  const double room = round_below(0.28 * page.view.width() / metres);
  const bool in_large = room * small >= large;
  return fmt::format("<div class=\"scale\" style=\"width:{:.2f}%\" data-unit=\"{}\">{} {}</div>\n",
                     room * metres / page.view.width() * 100.0, unit, in_large ? room * small / large : room,
                     in_large ? large_unit : unit);
}

}  // namespace

std::string legend_html(const MapPage& page) {
  std::string kinds_list;
  for (const KindArt& art : kind_arts()) kinds_list += kind_switch(page.plan, art);
  return depth_key(page.plan) + "<ul class=\"key\">\n" + pass_switch(page.plan) + kinds_list + "</ul>\n";
}

std::string scale_html(const MapPage& page) {
  return scale_bar(page, 1.0, "m", 1.0, 1000.0, "km") + scale_bar(page, 0.3048, "ft", 1.0, 5280.0, "mi");
}

std::string north_html(const MapPage& page) {
  const XY middle = (page.view.box.low + page.view.box.high) * 0.5;
  const Projection& projection = page.plan.lake->projection;
  // true bearing = grid bearing + convergence, so true north lies at minus the convergence from the top of the page
  const double turn = -projection.scale_at(projection.to_lonlat(middle)).convergence.value();
  return fmt::format(
      "<div class=\"north\" role=\"img\" aria-label=\"True north is {:.1f} degrees {} of the top of the map\">"
      "<svg viewBox=\"-20 -26 40 52\" style=\"transform:rotate({:.2f}deg)\"><use href=\"#s-north\" x=\"-20\" "
      "y=\"-26\" width=\"40\" height=\"52\"/></svg><span>true north</span></div>\n",
      std::abs(turn), turn < 0.0 ? "left" : "right", std::abs(turn) < 0.005 ? 0.0 : turn);
}

}  // namespace castplan
