// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/report.hpp"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>

#include "castplan/spots/tier.hpp"

namespace castplan {

namespace {

constexpr std::size_t kWidth = 100;
// before the season every phase is planned: a few spots of each keep the report readable, the files hold them all
constexpr std::size_t kSpotsOfOnePhase = 10, kSpotsOfEach = 3;

std::string wrapped(const std::string& text, std::size_t indent) {
  const std::string margin(indent, ' ');
  std::string out;
  std::size_t column = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    if (column > 0 && indent + column + 1 + word.size() > kWidth) {
      out += '\n';
      column = 0;
    }
    out += column == 0 ? margin + word : " " + word;
    column += word.size() + (column > 0 ? 1 : 0);
    at = end + 1;
  }
  return out + '\n';
}

std::string area_text(SquareMetres area, Units units) {
  return units == Units::imperial ? fmt::format("{:.0f} acres", area.value() / 4046.8564224)
                                  : fmt::format("{:.1f} ha", area.value() / 1e4);
}

std::string volume_text(CubicMetres volume, Units units) {
  return units == Units::imperial ? fmt::format("{:.0f} acre-feet", volume.value() / 1233.48183754752)
                                  : fmt::format("{:.2f} million m3", volume.value() / 1e6);
}

std::string shore_text(Metres shore, Units units) {
  return units == Units::imperial ? fmt::format("{:.1f} miles", shore.value() / 1609.344)
                                  : fmt::format("{:.1f} km", shore.value() / 1e3);
}

std::string lake_lines(const Plan& plan) {
  const Lake& lake = *plan.lake;
  std::string out = fmt::format("{}\n", plan.lake_name);
  out += wrapped(fmt::format("{} of water{}, deepest {}, mean {}, {}, {} of shore (development {:.2f}).",
                             area_text(lake.area, plan.units),
                             lake.bodies.size() > 1 ? fmt::format(" in {} parts", lake.bodies.size()) : "",
                             length_text(lake.max_depth, plan.units), length_text(lake.mean_depth, plan.units),
                             volume_text(lake.volume, plan.units), shore_text(lake.shoreline, plan.units),
                             lake.shoreline_development),
                 2);
  std::string surface = plan.surface_text;
  if (!surface.empty()) surface.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(surface.front())));
  out += wrapped(fmt::format("{}. Source: {}{}.", surface, plan.source.empty() ? "not named" : plan.source,
                             plan.surveyed.empty() ? "" : ", surveyed " + plan.surveyed),
                 2);
  return out;
}

std::string season_lines(const Plan& plan) {
  std::string out = fmt::format("\nSeason ({})\n", plan.profile->title);
  if (plan.season.phases.size() == 1) {
    const Phase& phase = *plan.season.phases.front();
    out += wrapped(fmt::format("{}{}: {}", phase.title,
                               plan.season.valid_for.empty() ? "" : ", " + plan.season.valid_for, phase.what),
                   2);
    out += wrapped(phase.where, 2);
  } else {
    out +=
        wrapped("No water temperature was given, so every phase of the year is planned. Take one before each trip.", 2);
  }
  if (plan.weed_depth) {
    out += wrapped(
        fmt::format("Weed edge {}: {} (between {} and {}).", plan.weed_source,
                    length_text(plan.weed_depth->expected, plan.units), length_text(plan.weed_depth->low, plan.units),
                    length_text(plan.weed_depth->high, plan.units)),
        2);
  }
  if (!plan.layers.text.empty()) out += wrapped(plan.layers.text, 2);
  for (const auto& [name, text] :
       {std::pair("Sun", plan.sun_text), std::pair("Moon", plan.moon_text), std::pair("Wind", plan.wind_text)}) {
    if (!text.empty()) out += wrapped(fmt::format("{}: {}.", name, text), 2);
  }
  if (!plan.odds_text.empty()) out += wrapped("Odds: " + plan.odds_text, 2);
  const Advisory& advisory = plan.season.advisory;
  const std::string level = advisory.level == AdvisoryLevel::none ? "" : fmt::format("[{}] ", name_of(advisory.level));
  for (const std::string& reason : advisory.reasons) out += wrapped(level + reason, 2);
  return out;
}

std::string feature_lines(const Plan& plan) {
  std::string out = "\nFound\n";
  for (const KindRow& row : kinds()) {
    std::size_t count = 0;
    for (const Feature& feature : plan.features) count += feature.kind == row.kind ? 1 : 0;
    if (count > 0) out += fmt::format("  {:>4}  {:<13} {}\n", count, row.plural, row.what);
  }
  if (!plan.not_assessed.empty()) {
    out += wrapped(fmt::format("Not assessed, for want of a layer: {}.", fmt::join(plan.not_assessed, ", ")), 2);
  }
  return out;
}

std::string spot_lines(const Spot& spot, std::size_t count, const Plan& plan) {
  const LonLat boat = plan.lake->projection.to_lonlat(spot.boat);
  const auto minutes = [](double degrees, char positive, char negative) {
    const double size = std::abs(degrees);
    const auto whole = static_cast<int>(size);
    return fmt::format("{}{} {:06.3f}'", degrees < 0 ? negative : positive, whole, (size - whole) * 60);
  };
  std::string out = wrapped(fmt::format("{:>2}. {} Score {:.2f}, rank {} to {}: {}.", spot.rank, spot.reason_words,
                                        spot.score, spot.rank_low, spot.rank_high, name_of(tier_of(spot, count))),
                            2);
  out += wrapped(
      fmt::format("Boat {} {}, over {}; cast {} to the {} ({:.0f} degrees true), {} casts, about {:.0f} minutes.",
                  minutes(boat.lat.degrees, 'N', 'S'), minutes(boat.lon.degrees, 'E', 'W'),
                  length_text(spot.boat_depth, plan.units), length_text(spot.cast, plan.units),
                  compass_words(spot.bearing), spot.bearing.value(), spot.casts, spot.minutes),
      6);
  std::vector<std::string_view> lures;
  for (const Presentation& each : spot.presentations) lures.push_back(each.lure);
  if (!lures.empty()) out += wrapped(fmt::format("Lures: {}.", fmt::join(lures, "; ")), 6);
  return out;
}

// The best pass in words; the files hold them all.
std::string pass_lines(const PhaseSpots& phase) {
  if (phase.passes.empty()) return {};
  const Pass& best = phase.passes.front();
  return wrapped(
      fmt::format("{} {} past edges in passes.geojson and on the page. Best: {} About {:.0f} minutes.",
                  phase.passes.size(), phase.passes.size() == 1 ? "pass" : "passes", best.reason_words, best.minutes),
      2);
}

std::string phase_lines(const PhaseSpots& phase, const Plan& plan) {
  std::string out = fmt::format("\n{}: {} ({})\n", phase.spots.empty() ? "No spots" : "Best spots", phase.phase->title,
                                phase_range_text(*phase.phase));
  if (phase.spots.empty()) return out + wrapped(phase.why_none, 2);
  const std::size_t most = plan.phases.size() > 1 ? kSpotsOfEach : kSpotsOfOnePhase;
  if (plan.phases.size() == 1) {
    for (const std::string& words : order_words(phase.order)) out += wrapped(words, 2);
    for (const std::string& words : shelter_words(phase.shelter, plan.units)) out += wrapped(words, 2);
    out += wrapped(std::string(tier_words()), 2);
  }
  for (std::size_t i = 0; i < std::min(most, phase.spots.size()); ++i)
    out += spot_lines(phase.spots[i], phase.spots.size(), plan);
  if (phase.spots.size() > most) out += fmt::format("  ... and {} more in the files\n", phase.spots.size() - most);
  return out + pass_lines(phase);
}

std::string ranks_text(const SpotChange& change) {
  const auto rank = [](const std::optional<Standing>& side) {
    return side ? fmt::format("{} ({} to {})", side->rank, side->rank_low, side->rank_high) : std::string("none");
  };
  return fmt::format("rank {} -> {}{}", rank(change.before), rank(change.after),
                     change.within_doubt && change.fate != Fate::stays ? ", within the doubt of both" : "");
}

// Every place of a plan of one phase; before the season the counts alone, the rest stands in summary.json.
std::string comparison_lines(const Plan& plan) {
  if (!plan.comparison) return {};
  const Comparison& all = *plan.comparison;
  std::string out = fmt::format("\nWhat if: {} (this plan, and its files) against {}\n", all.a.text, all.b.text);
  for (const std::string& words : all.words) out += wrapped(words, 2);
  if (all.phases.size() != 1) return out;
  for (const SpotChange& change : all.phases.front().changes) {
    const Standing& at = change.before ? *change.before : *change.after;
    out += wrapped(
        fmt::format("{:<6}  {}: {}. {}", name_of(change.fate), at.id, ranks_text(change), change.reason_words), 2);
  }
  return out + wrapped(fmt::format("Spots are held together by place: boats or aims within {} of one another.",
                                   distance_text(kSamePlace, plan.units)),
                       2);
}

}  // namespace

std::string report(const Plan& plan, const std::string& folder, const std::vector<OutputFile>& files) {
  std::string out = lake_lines(plan) + season_lines(plan) + feature_lines(plan);
  for (const PhaseSpots& phase : plan.phases) out += phase_lines(phase, plan);
  out += comparison_lines(plan);
  out += "\nCautions\n";
  for (const std::string& caution : plan.cautions) out += wrapped("- " + caution, 2);
  if (!plan.rules_text.empty()) {
    out += wrapped(fmt::format("- Rules as you gave them: {} (source: {}; checked {})", plan.rules_text,
                               plan.rules_source, plan.rules_checked),
                   2);
  }
  out += "\nWritten\n";
  for (const OutputFile& file : files)
    out += fmt::format("  {}\n", (std::filesystem::path(folder) / file.name).string());
  return out;
}

}  // namespace castplan
