// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "castplan/spots/tier.hpp"
#include "write/carried.hpp"
#include "write/plain_text.hpp"

namespace castplan {
namespace {

/// One spot with all that its row needs.
struct Row {
  const Plan& plan;
  const PhaseSpots& phase;
  const Spot& spot;
  PrintedCast cast;
};

std::string degrees(std::int64_t micro) { return fixed(static_cast<double>(micro) / 1e6, 6); }

std::string kinds_text(const Spot& spot) {
  std::vector<std::string> names;
  for (const Kind kind : spot.kinds) names.emplace_back(name_of(kind));
  return joined(names, "; ");
}

std::string lures_text(const Spot& spot) {
  std::vector<std::string> lures;
  for (const Presentation& one : spot.presentations) lures.push_back(presentation_text(one, Units::metric));
  return joined(lures, "; ");
}

std::string all_cautions(const Row& line) {
  std::vector<std::string> all = spot_cautions(line.plan, line.spot);
  for (const std::string& caution : carried_cautions(line.plan)) {
    if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
  }
  return joined(all, " ");
}

// Numbers are left as they are; only text can be taken for a formula.
enum class Cell { number, text };

struct Column {
  std::string_view name;
  Cell cell;
  std::string (*value)(const Row&);
};

constexpr Column kColumns[] = {
    {"phase", Cell::text, [](const Row& l) { return l.spot.phase; }},
    {"rank", Cell::number, [](const Row& l) { return fmt::format("{}", l.spot.rank); }},
    {"rank_low", Cell::number, [](const Row& l) { return fmt::format("{}", l.spot.rank_low); }},
    {"rank_high", Cell::number, [](const Row& l) { return fmt::format("{}", l.spot.rank_high); }},
    {"id", Cell::text, [](const Row& l) { return l.spot.id; }},
    {"lat", Cell::number, [](const Row& l) { return degrees(l.cast.boat.lat); }},
    {"lon", Cell::number, [](const Row& l) { return degrees(l.cast.boat.lon); }},
    {"boat_depth_m", Cell::number, [](const Row& l) { return fixed(l.spot.boat_depth.value(), 2); }},
    {"hold", Cell::text, [](const Row& l) { return l.spot.hold; }},
    {"approach_deg", Cell::number, [](const Row& l) { return fixed(rounded_bearing(l.spot.approach.value(), 1), 1); }},
    {"target_lat", Cell::number, [](const Row& l) { return degrees(l.cast.target.lat); }},
    {"target_lon", Cell::number, [](const Row& l) { return degrees(l.cast.target.lon); }},
    {"bearing_deg", Cell::number, [](const Row& l) { return fixed(l.cast.bearing_deg, 1); }},
    {"cast_m", Cell::number, [](const Row& l) { return fixed(l.cast.cast_m, 2); }},
    {"strike_from_m", Cell::number, [](const Row& l) { return fixed(l.spot.strike.first.value(), 2); }},
    {"strike_to_m", Cell::number, [](const Row& l) { return fixed(l.spot.strike.second.value(), 2); }},
    {"target_depth_m", Cell::number, [](const Row& l) { return fixed(l.spot.target_depth.value(), 2); }},
    {"kinds", Cell::text, [](const Row& l) { return kinds_text(l.spot); }},
    {"score", Cell::number, [](const Row& l) { return fixed(printed_score(l.spot), 4); }},
    {"lures", Cell::text, [](const Row& l) { return lures_text(l.spot); }},
    {"tier", Cell::text, [](const Row& l) { return std::string(name_of(tier_of(l.spot, l.phase.spots.size()))); }},
    {"casts", Cell::number, [](const Row& l) { return fmt::format("{}", l.spot.casts); }},
    {"minutes", Cell::number, [](const Row& l) { return fixed(l.spot.minutes, 1); }},
    {"reasons", Cell::text, [](const Row& l) { return l.spot.reason_words; }},
    {"not_assessed", Cell::text, [](const Row& l) { return joined(l.spot.not_assessed, "; "); }},
    {"cautions", Cell::text, all_cautions},
    {"temperatures", Cell::text, [](const Row& l) { return temperatures_text(l.plan, l.phase.phase); }},
    {"surface", Cell::text, [](const Row& l) { return l.plan.surface_text; }},
    {"depth_source", Cell::text, [](const Row& l) { return depth_source_text(l.plan); }},
    {"lake", Cell::text, [](const Row& l) { return l.plan.lake_name; }},
    {"program", Cell::text, [](const Row&) { return program_text(); }},
};

// Source: RFC 4180, section 2. A spreadsheet would run a text that begins like a formula, so it gets an apostrophe.
std::string cell_text(std::string_view value, Cell cell) {
  std::string text(value);
  if (cell == Cell::text) {
    text = one_line(value);
    if (!text.empty() && std::string_view("=+-@").find(text.front()) != std::string_view::npos) text.insert(0, 1, '\'');
  }
  if (text.find_first_of(",\"") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char letter : text) {
    if (letter == '"') quoted += '"';
    quoted += letter;
  }
  return quoted + '"';
}

}  // namespace

std::string spots_csv(const Plan& plan) {
  std::string out;
  const auto add_row = [&](const std::function<std::string(const Column&)>& cell) {
    for (const Column& column : kColumns) {
      if (&column != kColumns) out += ',';
      out += cell(column);
    }
    out += "\r\n";
  };
  add_row([](const Column& column) { return std::string(column.name); });
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    for (const Spot& spot : phase->spots) {
      const Row line{plan, *phase, spot, printed_cast(plan, spot)};
      add_row([&](const Column& column) { return cell_text(column.value(line), column.cell); });
    }
  }
  return out;
}

}  // namespace castplan
