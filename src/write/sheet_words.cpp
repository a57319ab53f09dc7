// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"

namespace castplan::sheet {
namespace {

constexpr double kLine = 3.65 * kMm;
constexpr double kBoxSide = 2.4 * kMm;

struct Item {
  std::string text;
  bool box = false;  ///< with a small box to tick
  bool bold = false;
  std::size_t most = 4;  ///< lines
};

std::vector<Item> release_items(const Plan& plan) {
  const bool care = plan.season.advisory.level != AdvisoryLevel::none;
  return {
      {"Release", false, true},
      {"Large net, long pliers, hook cutters, gloves at hand; jaw spreader last.", true},
      {"In the net, in the water, under 2 minutes; engine out of gear.", true},
      {"Cut hooks rather than dig for them.", true},
      {"Measure it in the water. Never hang it, never hoist it.", true},
      {care ? "No lift: this is a day of caution."
            : "One quick lift at most: one hand under the gill cover, never in the gills, one under the belly. None "
              "at caution or in freezing air.",
       true, care},
      {"Upright, by tail wrist and belly, until it swims off. No pumping.", true},
      {"Afterwards, boat and gear: clean, drain, dry.", true}};
}

// Cautions of stops in few words: equal ones once, with the numbers that they hold for.
std::vector<std::string> stop_cautions(const Plan& plan, const Stops& stops) {
  std::vector<std::pair<std::string, std::string>> found;
  std::vector<const Stop*> all;
  for (const Stop& stop : stops.stops) all.push_back(&stop);
  for (const Stop& stop : stops.alternates) all.push_back(&stop);
  std::sort(all.begin(), all.end(), [](const Stop* a, const Stop* b) { return a->spot->rank < b->spot->rank; });
  const auto& advisory = plan.season.advisory.reasons;
  for (const Stop* stop : all) {
    for (const std::string& caution : stop->spot->cautions) {
      if (std::find(advisory.begin(), advisory.end(), caution) != advisory.end()) continue;
      const std::string words = sentence(caution);
      auto same = std::find_if(found.begin(), found.end(), [&](const auto& one) { return one.first == words; });
      if (words.empty()) continue;
      if (same == found.end()) same = found.insert(found.end(), {words, ""});
      same->second += (same->second.empty() ? "" : ", ") + stop->label;
    }
  }
  std::vector<std::string> out;
  out.reserve(found.size());
  for (const auto& [words, labels] : found) out.push_back(fmt::format("At {}: {}", labels, words));
  return out;
}

std::vector<Item> people_items() {
  return {
      {"People", false, true},
      {"Look behind you before every cast. Glasses on. One person nets.", true},
      {"Wear a life jacket, fastened; kill-switch lanyard on.", true},
      {"Cold water takes your strength within minutes: dress for it.", true},
      {"Cautions", false, true},
      {"Not for navigation: depths may be wrong, a straight line may cross land or shoals. Turn back before the wind "
       "builds, at the first thunder leave the water. Local rules, closures and licensed advice come first."}};
}

// Source and date first: they stand also where the text has to be cut.
std::string rules_words(const Plan& plan) {
  if (plan.rules_text.empty()) return {};
  std::string from = shortened(one_line(plan.rules_source), 90);
  if (!plan.rules_checked.empty()) from += (from.empty() ? "checked " : ", checked ") + one_line(plan.rules_checked);
  return sentence(fmt::format("Rules as the user noted them{}: {}", from.empty() ? "" : " (" + from + ")",
                              one_line(plan.rules_text)));
}

struct Column {
  Canvas& canvas;
  Area area;
  double y;
  bool cut = false;  ///< a text that did not fit

  void add(const Item& item) {
    const Tagged tag(canvas, item.bold && !item.box ? "H2" : "P");
    const Font font = item.bold ? kBodyBold : kBody;
    const double indent = item.box ? kBoxSide + 1.2 * kMm : 0.0;
    if (item.box) canvas.frame({area.left, y + kLine - 3.0 * kMm, kBoxSide, kBoxSide}, {0.7});
    for (const std::string& line : wrapped(canvas, item.text, font, area.width - indent, item.most)) {
      cut = cut || line.ends_with("...");
      y += kLine;
      canvas.text({area.left + indent, y - 0.9 * kMm}, line, font);
    }
  }
};

/// A boat place by the label of its stop.
struct BoatPlace {
  std::string label, words;
};

// Of the stops by rank; before the season of the best spot of each phase.
std::vector<BoatPlace> boat_places(const Plan& plan, const Stops& stops) {
  std::vector<std::pair<std::string, const Spot*>> all;
  for (const Stop& stop : stops.stops) all.emplace_back(stop.label, stop.spot);
  for (const Stop& stop : stops.alternates) all.emplace_back(stop.label, stop.spot);
  std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.second->rank < b.second->rank; });
  for (std::size_t i = 0; plan.phases.size() > 1 && i < plan.phases.size(); ++i) {
    const std::span<const Spot> spots = shown_spots(plan, i);
    if (!spots.empty()) all.emplace_back(phase_letter(plan, i), &spots.front());
  }
  std::vector<BoatPlace> out;
  for (const auto& [label, spot] : all) {
    std::string words = plain_degrees_minutes(lonlat(printed_cast(plan, *spot).boat));
    words.erase(words.find(','), 1);
    out.push_back({label, words});
  }
  return out;
}

// In columns, none broken over lines.
double draw_boat_places(Canvas& canvas, const std::vector<BoatPlace>& places, Area area, double y) {
  constexpr std::size_t kColumns = 4;
  if (places.empty()) return y;
  const Tagged tag(canvas, "P");
  const double column = area.width / kColumns;
  const double base = y + kLine - 0.9 * kMm;
  canvas.text({area.left, base}, "Boat places, WGS 84:", kBodyBold);
  for (std::size_t i = 1; i <= places.size(); ++i) {
    const BoatPlace& place = places[i - 1];
    const Place at{area.left + column * static_cast<double>(i % kColumns),
                   base + kLine * static_cast<double>(i / kColumns)};
    canvas.text(at, place.label, kBodyBold);
    canvas.text({at.x + canvas.width_of("00 ", kBodyBold), at.y}, place.words, kBody);
  }
  return y + kLine * static_cast<double>(1 + places.size() / kColumns);
}

}  // namespace

// What all plans say stands above in short words; the rest is of this lake and this day.
std::vector<std::string> own_cautions(const Plan& plan) {
  std::vector<std::string> said = stop_lines(plan);
  for (const std::string& reason : plan.season.advisory.reasons) said.push_back(sentence(reason));
  if (plan.profile != nullptr) {
    for (const std::string& caution : standing_cautions(*plan.profile)) said.push_back(sentence(caution));
  }
  std::vector<std::string> out;
  for (const std::string& caution : carried_cautions(plan)) {
    const bool rules = caution.starts_with("Rules as the user noted them");
    if (!rules && std::find(said.begin(), said.end(), caution) == said.end()) out.push_back(caution);
  }
  if (const std::string rules = rules_words(plan); !rules.empty()) out.push_back(rules);
  return out;
}

// What is short and must not be lost stands first.
std::string facts_words(const Plan& plan, std::string_view file, bool missed, bool cut) {
  std::vector<std::string> out;
  const auto say = [&](const std::string& before, const std::string& text, std::size_t most) {
    if (!text.empty()) out.push_back(sentence(before + shortened(one_line(text), most)));
  };
  say("", fmt::format("{}, {}", program_text(), file), 80);
  if (missed) say("", "\xEF\xBF\xBD: not in this sheet's font, see the page", 80);
  if (cut) say("", "Dots: in full on the page", 80);
  if (plan.phases.size() == 1) say("Holds for ", temperatures_text(plan, plan.phases.front().phase), 160);
  say("",
      fmt::format("Depth error {}{}", length_text(plan.lake->depth_error, plan.units),
                  plan.lake->depth_error_known ? "" : ", assumed"),
      80);
  say("Surface: ", plan.surface_text, 160);
  say("Depths: ", depth_source_text(plan), 200);
  return joined(out, " ");
}

double draw_words(Canvas& canvas, const Plan& plan, const Stops& stops, Area area, std::size_t most, bool with_odds) {
  constexpr double kGutter = 4.0 * kMm;
  const double half = (area.width - kGutter) / 2.0;
  Column left{canvas, {area.left, area.top, half, 0.0}, area.top};
  Column right{canvas, {area.left + half + kGutter, area.top, half, 0.0}, area.top};
  for (const Item& item : release_items(plan)) left.add(item);
  for (const Item& item : people_items()) right.add(item);
  const std::size_t lines = std::max<std::size_t>(1, most);
  Column below{canvas, area, std::max(left.y, right.y) + 0.8 * kMm};
  canvas.line({area.left, below.y}, {area.right(), below.y}, kHair);
  below.y = draw_boat_places(canvas, boat_places(plan, stops), area, below.y);
  for (const std::string& text : own_cautions(plan)) below.add({text, false, false, lines});
  const std::string at_stops = joined(stop_cautions(plan, stops), " ");
  if (!at_stops.empty()) below.add({at_stops, false, false, lines});
  if (with_odds) below.add({sentence(plan.odds_line), false, false, 2});
  below.add({facts_words(plan, "sheet.pdf", canvas.missed_letters(), below.cut), false, false, most + 2});
  return below.y;
}

}  // namespace castplan::sheet
