// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "castplan/spots/tier.hpp"
#include "castplan/write/text.hpp"
#include "write/plain_text.hpp"
#include "write/spot_table.hpp"

namespace castplan {
namespace {

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

constexpr SpotColumn kColumns[] = {
    {"phase", CellKind::text, phase_cell},
    {"rank", CellKind::number, rank_cell},
    {"rank_low", CellKind::number, [](const SpotRow& l) { return fmt::format("{}", l.spot.rank_low); }},
    {"rank_high", CellKind::number, [](const SpotRow& l) { return fmt::format("{}", l.spot.rank_high); }},
    {"id", CellKind::text, id_cell},
    {"lat", CellKind::number, lat_cell},
    {"lon", CellKind::number, lon_cell},
    {"boat_depth_m", CellKind::number, [](const SpotRow& l) { return fixed(l.spot.boat_depth.value(), 2); }},
    {"hold", CellKind::text, [](const SpotRow& l) { return l.spot.hold; }},
    {"approach_deg", CellKind::number,
     [](const SpotRow& l) { return fixed(rounded_bearing(l.spot.approach.value(), 1), 1); }},
    {"target_lat", CellKind::number, [](const SpotRow& l) { return micro_degrees(l.cast.target.lat); }},
    {"target_lon", CellKind::number, [](const SpotRow& l) { return micro_degrees(l.cast.target.lon); }},
    {"bearing_deg", CellKind::number, [](const SpotRow& l) { return fixed(l.cast.bearing_deg, 1); }},
    {"cast_m", CellKind::number, [](const SpotRow& l) { return fixed(l.cast.cast_m, 2); }},
    {"strike_from_m", CellKind::number, [](const SpotRow& l) { return fixed(l.spot.strike.first.value(), 2); }},
    {"strike_to_m", CellKind::number, [](const SpotRow& l) { return fixed(l.spot.strike.second.value(), 2); }},
    {"target_depth_m", CellKind::number, [](const SpotRow& l) { return fixed(l.spot.target_depth.value(), 2); }},
    {"kinds", CellKind::text, [](const SpotRow& l) { return kinds_text(l.spot); }},
    {"score", CellKind::number, [](const SpotRow& l) { return fixed(printed_score(l.spot), 4); }},
    {"lures", CellKind::text, [](const SpotRow& l) { return lures_text(l.spot); }},
    {"tier", CellKind::text,
     [](const SpotRow& l) { return std::string(name_of(tier_of(l.spot, l.phase.spots.size()))); }},
    {"casts", CellKind::number, [](const SpotRow& l) { return fmt::format("{}", l.spot.casts); }},
    {"minutes", CellKind::number, [](const SpotRow& l) { return fixed(l.spot.minutes, 1); }},
    {"reasons", CellKind::text, [](const SpotRow& l) { return l.spot.reason_words; }},
    {"not_assessed", CellKind::text, [](const SpotRow& l) { return joined(l.spot.not_assessed, "; "); }},
    {"cautions", CellKind::text, cautions_cell},
    {"temperatures", CellKind::text, temperatures_cell},
    {"surface", CellKind::text, surface_cell},
    {"depth_source", CellKind::text, depth_source_cell},
    {"lake", CellKind::text, lake_cell},
    {"program", CellKind::text, program_cell},
};

}  // namespace

std::string spots_csv(const Plan& plan) { return spot_table(plan, kColumns); }

}  // namespace castplan
