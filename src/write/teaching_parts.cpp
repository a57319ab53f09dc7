// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/teaching_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"

namespace castplan::sheet {
namespace {

constexpr std::string_view kRules = "Rules as the user noted them";

std::string on_the_water(const Plan& plan) {
  std::string words =
      "Not for navigation: depths may be wrong. On the water wear a life jacket, fastened; cold water takes your "
      "strength within minutes; turn back before the wind builds. Local rules, closures and licensed advice come "
      "first. A fish stays in the water while it is unhooked.";
  if (const auto end = day_end(plan)) words += fmt::format(" At {} the day ends.", end->words);
  return words;
}

// A stop that was set aside: the reason given follows the first sentence, so that it stands where the rest is cut.
std::string advisory_first(const Plan& plan) {
  std::vector<std::string> lines = stop_lines(plan);
  if (lines.size() < 3 || !plan.season.advisory.overridden || plan.season.no_spots) return advisory_words(plan);
  std::rotate(lines.begin() + 1, lines.end() - 1, lines.end());
  return joined(lines, " ");
}

/// Lines below each other, in one width.
struct Lines {
  Canvas& canvas;
  Area area;
  double y;
  bool cut = false;

  void add(const std::string& words, Font font, std::size_t most) {
    if (words.empty()) return;
    const Tagged tag(canvas, "P");
    for (const std::string& line : wrapped(canvas, words, font, area.width, most)) {
      cut = cut || line.ends_with("...");
      y += kTextLine;
      canvas.text({area.left, y - 0.9 * kMm}, line, font);
    }
  }
};

}  // namespace

DocumentInfo teaching_info(const Plan& plan, const std::string& title, bool exact_places, const std::string& file) {
  DocumentInfo info;
  info.title = shortened(fmt::format("{}: {}", title, joined({one_line(plan.lake_name), plan.date}, ", ")), 400);
  info.subject = exact_places ? "PRIVATE: EXACT PLACES. Not for navigation." : "Not for navigation.";
  info.creator = program_text();
  info.date = plan.document_date;
  info.file = file;
  return info;
}

double draw_foot(Canvas& canvas, const Plan& plan, Area area, const Foot& foot) {
  canvas.line({area.left, area.top}, {area.right(), area.top}, kHair);
  Lines lines{canvas, area, area.top + 0.8 * kMm};
  if (foot.advisory > 0) lines.add(advisory_first(plan), kBodyBold, foot.advisory);
  lines.add(on_the_water(plan), kBody, 4);
  std::vector<std::string> others = own_cautions(plan);
  std::string rules;
  if (!others.empty() && others.back().starts_with(kRules)) {
    rules = others.back();
    others.pop_back();
  }
  lines.add(joined(others, " "), kBody, foot.cautions);
  lines.add(rules, kBody, foot.rules);
  lines.add(facts_words(plan, foot.file, canvas.missed_letters(), lines.cut), kBody, foot.facts);
  return lines.y;
}

double foot_height(const Plan& plan, double width, const Foot& foot) {
  Canvas scratch(width, width, {});
  return draw_foot(scratch, plan, {0.0, 0.0, width, 0.0}, foot);
}

std::string place_words(const Plan& plan, XY at) {
  return plain_degrees_minutes(lonlat(printed(plan.lake->projection.to_lonlat(at))));
}

std::string depth_words(const Spot& spot, Units units) {
  std::string words = length_text(spot.boat_depth, units) + " under the boat";
  if (std::isfinite(spot.target_depth.value())) {
    words += fmt::format(", {} where it is fished", length_text(spot.target_depth, units));
  }
  return words;
}

}  // namespace castplan::sheet
