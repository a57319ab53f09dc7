// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/what_if.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "castplan/geo/error.hpp"
#include "cli/option_values.hpp"
#include "cli/welfare.hpp"

namespace castplan {

namespace {

struct Asked {
  std::string text;
  std::optional<Date> date;
  std::optional<Celsius> water_temp;
};

bool looks_like_date(const std::string& text) { return std::count(text.begin(), text.end(), '-') == 2; }

Asked side_of(const std::string& text) {
  Asked side{text, std::nullopt, std::nullopt};
  if (looks_like_date(text)) {
    side.date = given("--compare", text, parse_date);
    return side;
  }
  try {
    side.water_temp = parse_temperature(text);
  } catch (const InputError&) {
    throw UsageError(fmt::format(
        "--compare {}: neither a date nor a temperature; give two dates (2026-06-20) or two temperatures with their "
        "unit (58F, 14.5C)",
        text));
  }
  return side;
}

std::string pair_text(const ScoutWords& words) { return fmt::format("{}", fmt::join(words.compare, " ")); }

Comparison::Side described(const Plan& plan, const std::string& text) {
  Comparison::Side side{text, plan.date, plan.season.water_temp, {}, plan.season.advisory, plan.season.no_spots};
  for (const Phase* phase : plan.season.phases) side.phases.push_back(phase->name);
  return side;
}

const PhaseSpots* same_phase(const PhaseSpots& phase, const Plan& plan, const Plan& other) {
  if (plan.phases.size() == 1 && other.phases.size() == 1) return &other.phases.front();
  const auto found = std::find_if(other.phases.begin(), other.phases.end(),
                                  [&](const PhaseSpots& each) { return each.phase->name == phase.phase->name; });
  return found != other.phases.end() ? &*found : nullptr;
}

std::string stop_words(const Comparison::Side& side, const Comparison::Side& other) {
  const std::string reason = side.advisory.reasons.empty() ? "" : " " + side.advisory.reasons.front();
  return fmt::format("{} is a stop: no spots then, so that none are compared with {}.{}", side.text, other.text,
                     reason);
}

std::string set_aside_words(const Comparison::Side& side) {
  const std::string reason = side.advisory.reasons.empty() ? "" : " " + side.advisory.reasons.front();
  return fmt::format("The stop at {} was set aside by the person who made this plan.{}", side.text, reason);
}

std::string counts_words(const Comparison::OfPhase& phase, const Comparison& all) {
  std::array<int, 5> count{};
  for (const SpotChange& change : phase.changes) ++count[static_cast<std::size_t>(change.fate)];
  const std::string of = all.phases.size() > 1 || phase.before == phase.after
                             ? phase.before
                             : fmt::format("{} against {}", phase.before, phase.after);
  return fmt::format("From {} to {} ({}): {} stay at their rank, {} rise, {} fall, {} leave, {} come.", all.a.text,
                     all.b.text, of, count[0], count[1], count[2], count[3], count[4]);
}

}  // namespace

void understand_compare(const ScoutWords& words, ScoutOptions& options) {
  if (words.compare.empty()) return;
  if (words.compare.size() != 2) throw UsageError("--compare: give two dates or two temperatures");
  const Asked a = side_of(words.compare[0]), b = side_of(words.compare[1]);
  if (a.date.has_value() != b.date.has_value()) {
    throw UsageError(fmt::format(
        "--compare {}: a date and a temperature; give two of one kind, such as 2026-06-20 2026-10-10 or 58F 66F",
        pair_text(words)));
  }
  if (a.date ? *a.date == *b.date : a.water_temp->value() == b.water_temp->value()) {
    throw UsageError(fmt::format("--compare {}: both are the same, so there is nothing to compare", pair_text(words)));
  }
  if (a.date && options.date) {
    throw UsageError(
        fmt::format("--compare {} and --date {}: the first of --compare is the date of the plan; leave "
                    "--date away",
                    pair_text(words), words.date));
  }
  if (a.water_temp && options.water_temp) {
    throw UsageError(
        fmt::format("--compare {} and --water-temp {}: the first of --compare is the temperature of the "
                    "plan; leave --water-temp away",
                    pair_text(words), words.water_temp));
  }
  if (a.date) options.date = a.date;
  if (a.water_temp) options.water_temp = a.water_temp;
  options.compare = ScoutOptions::Compare{a.text, b.text, b.date, b.water_temp};
}

ScoutOptions options_of_other(const ScoutOptions& options) {
  ScoutOptions other = options;
  if (options.compare->date) other.date = options.compare->date;
  if (options.compare->water_temp) other.water_temp = options.compare->water_temp;
  other.compare.reset();
  return other;
}

std::vector<GroundWanted> wanted_by_either(const SeasonAnswer& one, const SeasonAnswer& other) {
  // both sides have the same species; those that one side does not ask for go where that side would have them
  std::vector<GroundWanted> wanted = grounds_wanted(one);
  for (GroundWanted& more : grounds_wanted(other)) {
    const bool seen = std::any_of(wanted.begin(), wanted.end(),
                                  [&](const GroundWanted& each) { return each.species == more.species; });
    if (!seen) wanted.push_back(std::move(more));
  }
  const auto place = [&](const GroundWanted& each) {
    return std::find_if(one.species.begin(), one.species.end(),
                        [&](const Profile* species) { return species->name == each.species; });
  };
  std::stable_sort(wanted.begin(), wanted.end(),
                   [&](const GroundWanted& a, const GroundWanted& b) { return place(a) < place(b); });
  return wanted;
}

std::vector<Feature> features_for(std::vector<Feature> found, const SeasonAnswer& season,
                                  const std::optional<Date>& date, Metres neighbour_reach) {
  const std::vector<GroundWanted> wanted = grounds_wanted(season);
  const auto unwanted = [&](const Feature& feature) {
    const auto* ground = std::get_if<LikelyGround>(&feature.details);
    return ground != nullptr && std::none_of(wanted.begin(), wanted.end(),
                                             [&](const GroundWanted& each) { return each.species == ground->species; });
  };
  const bool fewer = std::erase_if(found, unwanted) > 0;
  for (Feature& feature : found) {
    if (auto* closure = std::get_if<Closure>(&feature.details)) {
      closure->active = holds_on(date, closure->from, closure->to);
    }
  }
  if (fewer) relate(found, neighbour_reach);
  return found;
}

Comparison compared(const Plan& plan, const Plan& other, const ScoutOptions& options) {
  Comparison out;
  out.kind = options.compare->date ? "date" : "temperature";
  out.a = described(plan, options.compare->a_text);
  out.b = described(other, options.compare->b_text);
  if (out.a.no_spots) out.words.push_back(stop_words(out.a, out.b));
  if (out.b.no_spots) out.words.push_back(stop_words(out.b, out.a));
  if (out.a.no_spots || out.b.no_spots) return out;
  for (const Comparison::Side* side : {&out.a, &out.b}) {
    if (side->advisory.overridden) out.words.push_back(set_aside_words(*side));
  }
  for (const PhaseSpots& phase : plan.phases) {
    const PhaseSpots* match = same_phase(phase, plan, other);
    if (match == nullptr || (phase.spots.empty() && match->spots.empty())) continue;
    out.phases.push_back({phase.phase->name, match->phase->name, compare_spots(phase.spots, match->spots)});
  }
  if (out.kind == "date" && plan.phases.size() > 1 && other.phases.size() > 1) {
    out.words.emplace_back(
        "A date alone decides no phase: the water temperature is known on neither date, so every phase is compared "
        "with "
        "itself, and only closures and the wind can make a difference. Bring a series (water_temps) or --water-temp.");
  }
  if (plan.phases.size() != other.phases.size()) {
    out.words.emplace_back(
        "The water temperature is known for one of the two only; for the other every phase is planned, and the phase "
        "of the same name is compared.");
  }
  for (const Comparison::OfPhase& phase : out.phases) out.words.push_back(counts_words(phase, out));
  if (out.phases.empty())
    out.words.push_back(fmt::format("No spots to compare between {} and {}.", out.a.text, out.b.text));
  return out;
}

}  // namespace castplan
