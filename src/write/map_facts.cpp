// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"
#include "write/weed_words.hpp"
#include "write/words.hpp"

namespace castplan {
namespace {

constexpr std::size_t kMostRows = 200;  // of one kind; all stand in features.geojson

std::string area_text(SquareMetres area, Units units) {
  const double value = units == Units::metric ? area.value() / 10000.0 : area.value() / 4046.8564224;
  return fmt::format("{:.{}f} {}", value,
                     value < 10.0     ? 2
                     : value < 1000.0 ? 1
                                      : 0,
                     units == Units::metric ? "ha" : "acres");
}

struct Facts {
  Units units;
  [[nodiscard]] std::string both(Metres value) const {
    return std::isfinite(value.value()) ? both_units(value, units) : "unknown";
  }
  std::string operator()(const Pool& pool) const {
    return fmt::format("deepest {}, {}, {}", both(pool.max_depth),
                       pool.sill_depth ? "sill at " + both(*pool.sill_depth) : "no sill", area_text(pool.area, units));
  }
  std::string operator()(const DropOff& edge) const {
    return fmt::format("from {} to {}, grade {:.0f} %, falls to the {}, {} long", both(edge.top_depth),
                       both(edge.base_depth), edge.grade_pct, compass_words(edge.faces),
                       length_text(edge.length, units));
  }
  std::string operator()(const WeedLine& weed) const { return weed_line_words(weed, units); }
  std::string operator()(const Hump& hump) const {
    return fmt::format("top at {}, base at {}, {}", both(hump.top_depth), both(hump.base_depth),
                       area_text(hump.area, units));
  }
  std::string operator()(const Saddle& saddle) const {
    static constexpr std::string_view kSides[] = {"a hump", "a pool", "the shore"};
    return fmt::format("{}, {} over the floor beside it, {} {} and {}", both(saddle.depth),
                       length_text(saddle.relief, units), saddle.sides[0].what == Joined::pool ? "parts" : "joins",
                       kSides[static_cast<std::size_t>(saddle.sides[0].what)],
                       saddle.sides[1].what == saddle.sides[0].what
                           ? "another"
                           : kSides[static_cast<std::size_t>(saddle.sides[1].what)]);
  }
  std::string operator()(const Flat& flat) const {
    return fmt::format("{} deep, {}, {} of edge beside deeper water", both(flat.depth), area_text(flat.area, units),
                       length_text(flat.edge, units));
  }
  std::string operator()(const Channel& channel) const {
    return fmt::format("bed at {}, banks {} over it, {} wide, {} long", both(channel.depth),
                       length_text(channel.relief, units), length_text(channel.width, units),
                       length_text(channel.length, units));
  }
  std::string operator()(const Bar& bar) const {
    return fmt::format("at {}, stands out by {}, runs to the {}", both(bar.depth), both(bar.relief),
                       compass_words(bar.faces));
  }
  std::string operator()(const Narrows& narrows) const {
    const std::string at = narrows.level > Metres(0) ? " between the contours of " + both(narrows.level) : "";
    return fmt::format("{} wide{}, {} deep in the middle", both(narrows.width), at, both(narrows.depth));
  }
  std::string operator()(const Bay& bay) const {
    return fmt::format("{}, mean depth {}, mouth {} wide, open to the {}", area_text(bay.area, units),
                       both(bay.mean_depth), length_text(bay.width, units), compass_words(bay.faces));
  }
  std::string operator()(const Structure& found) const {
    std::string out = found.depth ? "in " + both(*found.depth) : "depth not known";
    if (!found.attribute.empty()) out += ", " + found.attribute;
    return out + (found.source_file.empty() ? ", found in the depths" : ", from " + found.source_file);
  }
  std::string operator()(const Closure& closure) const {
    return closure_words(closure) + (closure.active ? "" : ", not on the planned date");
  }
  std::string operator()(const LikelyGround& ground) const {
    return fmt::format("LEAVE ALONE in {}; {}, {} deep on average. {}", ground.waters, area_text(ground.area, units),
                       both(ground.depth), ground.reason);
  }
  std::string operator()(const Launch& launch) const {
    if (launch.dry) return "DRY at today's surface";
    return launch.usable_above ? "in reach of today's surface" : "no level given";
  }
};

std::string fact(std::string_view name, const std::string& html) {
  return html.empty() ? std::string() : fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", name, html);
}

std::string phases_text(const Plan& plan) {
  if (plan.phases.size() > 1) return fmt::format("all {} of the year", plan.phases.size());
  if (plan.phases.empty() || plan.phases[0].phase == nullptr) return {};
  return escaped(plan.phases[0].phase->title);
}

std::string water_text(const Plan& plan) {
  if (!plan.season.water_temp) return "not given: every phase is planned; measure before you choose one";
  const Units other = plan.units == Units::metric ? Units::imperial : Units::metric;
  return fmt::format("{} ({}), {}{}", temperature_text(*plan.season.water_temp, plan.units),
                     temperature_text(*plan.season.water_temp, other), escaped(plan.season.water_temp_source),
                     !plan.season.trend                    ? ""
                     : *plan.season.trend == Trend::rising ? ", rising"
                                                           : ", falling");
}

std::string list_html(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += fmt::format("<li>{}</li>\n", escaped(text));
  return out.empty() ? out : "<ul>\n" + out + "</ul>\n";
}

std::string facts_in_units(const Feature& feature) {
  const std::string metric = feature_facts(feature, Units::metric);
  const std::string imperial = feature_facts(feature, Units::imperial);
  return metric == imperial ? metric : in_units(metric, imperial);
}

std::string kind_table(const MapPage& page, Kind kind) {
  std::string rows;
  std::size_t count = 0;
  for (const Feature& feature : page.plan.features) {
    if (feature.kind != kind || count++ >= kMostRows) continue;
    rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td><span class=\"copy\">{}</span></td></tr>\n",
                        name_html(feature.name), facts_in_units(feature),
                        degrees_minutes(page.plan.lake->projection.to_lonlat(feature.anchor)));
  }
  if (rows.empty()) return {};
  const KindRow& row = row_of(kind);
  const std::string more = count > kMostRows ? fmt::format(
                                                   "<p>The first {} of {}; the rest stand in features.geojson."
                                                   "</p>\n",
                                                   kMostRows, count)
                                             : std::string();
  return fmt::format(
      "<details><summary>{} ({}): {}</summary>\n{}<div class=\"wide\" role=\"region\" tabindex=\"0\" "
      "aria-label=\"Table of "
      "{}\"><table><thead><tr><th scope=\"col\">Name</th><th scope=\"col\">What is known</th><th "
      "scope=\"col\">Place</th>"
      "</tr></thead><tbody>\n{}</tbody></table></div></details>\n",
      escaped(row.plural), count, escaped(row.what), more, escaped(row.plural), rows);
}

}  // namespace

std::string feature_words(const Feature& feature, Units units) {
  return one_line(std::visit(Facts{units}, feature.details));
}

std::string feature_facts(const Feature& feature, Units units) { return escaped(feature_words(feature, units)); }

std::string advisory_html(const Plan& plan) {
  const Advisory& advisory = plan.season.advisory;
  if (advisory.level == AdvisoryLevel::none) return {};
  const bool stop = advisory.level == AdvisoryLevel::stop;
  std::string head = stop ? "Stop: this plan has no spots" : "Caution";
  if (stop && advisory.overridden)
    head = "Stop, set aside by the person who made this plan";
  else if (stop && !plan.season.no_spots)
    head = "Stop";
  std::string out =
      fmt::format("<section class=\"advisory {}\" aria-labelledby=\"advisory\">\n<h2 id=\"advisory\">{}</h2>\n",
                  stop ? "stop" : "care", head);
  out += list_html(advisory.reasons);
  if (advisory.overridden && !override_reason(plan).empty()) {
    out += fmt::format("<p>Reason given: {}</p>\n", escaped(sentence(override_reason(plan))));
  }
  for (const Phase* phase : plan.season.phases) {
    if (!stop || phase == nullptr || phase->look_again.empty()) continue;
    if (plan.season.phases.size() == 1) out += fmt::format("<p>{}</p>\n", escaped(phase->look_again));
  }
  return out + "</section>\n";
}

std::string fixed_html(const Plan& plan) {
  static constexpr std::string_view kLink = "<a class=\"{0}\" id=\"fixed-advisory\" href=\"#advisory\">{1}</a> ";
  std::string out;
  const AdvisoryLevel level = plan.season.advisory.level;
  if (level != AdvisoryLevel::none) {
    out = level == AdvisoryLevel::stop ? fmt::format(kLink, "stop", "Stop") : fmt::format(kLink, "care", "Caution");
  }
  return fmt::format("{}<span>Holds for: <span id=\"fixed-holds\">{}</span></span>", out,
                     plan.phases.size() > 1 ? "as each phase says" : escaped(temperatures_text(plan, nullptr)));
}

std::string facts_html(const Plan& plan) {
  const Lake& lake = *plan.lake;
  std::string species;
  if (plan.profile != nullptr) {
    species = escaped(plan.profile->title);
    if (!plan.profile->latin.empty()) species += fmt::format(" (<i>{}</i>)", escaped(plan.profile->latin));
  }
  std::string source = escaped(plan.source.empty() ? "not stated" : plan.source);
  source += plan.surveyed.empty() ? ", survey date not stated" : ", surveyed " + escaped(plan.surveyed);
  source += ", licence: " + escaped(plan.licence.empty() ? "not stated" : plan.licence);
  const std::string error = fmt::format("standard error {}{}", both_units(lake.depth_error, plan.units),
                                        lake.depth_error_known ? "" : ", assumed: the survey states none");
  const Units other = plan.units == Units::metric ? Units::imperial : Units::metric;
  return fact("Date", plan.date.empty() ? "not given" : escaped(plan.date)) + fact("Species", species) +
         fact("Phase", phases_text(plan)) + fact("Holds for", escaped(temperatures_text(plan, nullptr))) +
         fact("Water temperature", water_text(plan)) + fact("Water surface", escaped(plan.surface_text)) +
         fact("Depths from", source) + fact("Depth error", error) +
         fact("Lake",
              fmt::format("{} ({}), deepest {}, mean {}", area_text(lake.area, plan.units), area_text(lake.area, other),
                          both_units(lake.max_depth, plan.units), both_units(lake.mean_depth, plan.units))) +
         fact("Clarity (Secchi)", plan.secchi ? both_units(*plan.secchi, plan.units) : std::string()) +
         fact("Weeds grow to", escaped(weed_depth_words(plan))) + fact("Layers", escaped(plan.layers.text)) +
         fact("Sun", escaped(plan.sun_text)) + fact("Moon", escaped(plan.moon_text)) +
         fact("Wind", escaped(plan.wind_text)) +
         fact("Odds, anywhere", escaped(plan.odds ? plan.odds->words : plan.odds_text));
}

std::string cautions_html(const Plan& plan) {
  std::string out = list_html(plan.cautions);
  if (!plan.rules_text.empty()) {
    out += fmt::format("<p><strong>Rules, in the words of the person who made this plan:</strong> {}",
                       escaped(plan.rules_text));
    if (!plan.rules_source.empty()) out += fmt::format(" Source: {}.", escaped(plan.rules_source));
    if (!plan.rules_checked.empty()) out += fmt::format(" Checked {}.", escaped(plan.rules_checked));
    out += "</p>\n";
  }
  return out;
}

std::string features_html(const MapPage& page) {
  std::string out;
  for (const KindRow& row : kinds()) out += kind_table(page, row.kind);
  return out.empty() ? "<p>None found and none mapped.</p>\n" : out;
}

std::string about_html(const Plan& plan) {
  std::string out;
  if (plan.odds) out += fmt::format("<h3>Odds</h3>\n<p>{}</p>\n", escaped(plan.odds_text));
  if (!plan.notes.empty()) out += "<h3>What changes the answer</h3>\n" + list_html(plan.notes);
  if (!plan.season.notes.empty()) out += "<h3>On the season</h3>\n" + list_html(plan.season.notes);
  if (!plan.not_assessed.empty()) {
    std::string names;
    for (const std::string& name : plan.not_assessed) names += (names.empty() ? "" : ", ") + escaped(name);
    out += fmt::format("<h3>Not assessed</h3>\n<p>No layer was given for: {}. That does not mean there is none.</p>\n",
                       names);
  }
  out += "<h3>Made from</h3>\n<ul>\n";
  for (const Plan::Input& input : plan.inputs) {
    out += fmt::format("<li>{} <span class=\"hash\">SHA-256 {}</span></li>\n", name_html(input.name),
                       escaped(input.sha256));
  }
  out += fmt::format("<li>{}</li>\n", escaped(program_text()));
  for (const auto& [name, value] : plan.options) {
    out += fmt::format("<li>{}: {}</li>\n", escaped(name), escaped(value));
  }
  return out + "</ul>\n";
}

}  // namespace castplan
