// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/waypoints.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>
#include <set>

#include "write/carried.hpp"
#include "write/plain_text.hpp"
#include "write/words.hpp"

namespace castplan {
namespace {

std::string with_article(const std::string& noun) {
  const bool vowel = !noun.empty() && std::string_view("aeiouAEIOU").find(noun.front()) != std::string_view::npos;
  return (vowel ? "an " : "a ") + noun;
}

constexpr std::size_t kMostName = 10;
constexpr std::size_t kMostCmt = 30;
constexpr double kOpen = std::numeric_limits<double>::infinity();
constexpr std::size_t kMostDesc = 255;
constexpr std::size_t kMostPlaceName = 60;
constexpr std::string_view kStraightLine = "a straight line to this point may cross land or shoals";

// Letters of spots stand for what is fished; H, L and C before a number are marks.
struct Letter {
  Kind kind;
  char letter;
};
constexpr Letter kLetters[] = {{Kind::drop_off, 'D'}, {Kind::weed_line, 'W'}, {Kind::weeds, 'B'}, {Kind::hump, 'M'},
                               {Kind::pool, 'P'},     {Kind::wood, 'T'},      {Kind::rock, 'R'},  {Kind::dock, 'K'},
                               {Kind::inflow, 'I'},   {Kind::cover, 'U'}};

char letter_of(const Spot& spot) {
  if (!spot.kinds.empty()) {
    for (const Letter& row : kLetters) {
      if (row.kind == spot.kinds.front()) return row.letter;
    }
  }
  return 'S';
}

std::string padded(std::size_t number, std::size_t count) {
  return fmt::format("{:0{}d}", number, std::max<std::size_t>(2, fmt::formatted_size("{}", count)));
}

int whole_bearing(double degrees) { return static_cast<int>(rounded_bearing(degrees, 0)); }

std::string_view hold_words(const std::string& hold) {
  if (hold == "motor") return "Hold with the motor in";
  if (hold == "anchor") return "Anchor in";
  if (hold == "drift") return "Drift in";
  return "Hold in";
}

// Cautions follow as far as there is room: the sentence with the warning of the straight line always stands whole.
std::string with_room_for(std::string text, const std::vector<std::string>& more) {
  for (const std::string& one : more) {
    if (text.size() + 20 > kMostDesc) break;
    text += " " + shortened(one, kMostDesc - text.size() - 1);
  }
  return shortened(text, kMostDesc);
}

std::string spot_words(const Plan& plan, const Spot& spot, const PrintedCast& cast) {
  const std::string what = spot.kinds.empty() ? "mark" : std::string(row_of(spot.kinds.front()).label);
  // the lure makes room where the stop and its reason come first
  const std::string lure = spot.presentations.empty() || plan.season.advisory.overridden
                               ? "cast"
                               : "cast " + with_article(shortened(one_line(spot.presentations.front().lure), 30));
  return fmt::format("{} {} of water and {} {} {} ({:03d} degrees true) to the {} in {}; {}.", hold_words(spot.hold),
                     length_text(spot.boat_depth, plan.units), lure, length_text(Metres(cast.cast_m), plan.units),
                     compass_words(Degrees(cast.bearing_deg)), whole_bearing(cast.bearing_deg), what,
                     length_text(spot.target_depth, plan.units), kStraightLine);
}

std::string pass_words(const Plan& plan, const Pass& pass) {
  return fmt::format("Pass of {}: follow slowly, cast to the {} over {}; the way to it may cross land or shoals.",
                     distance_text(pass.length, plan.units), name_of(pass.cast_side),
                     length_text(pass.target_depth.first, plan.units));
}

// Where a stop was set aside, every spot begins with the stop and the reason given: the start of the one and as much of
// the other as there is room for; both stand whole in the file's own description.
std::string set_aside_words(const Plan& plan, std::size_t room) {
  const Advisory& advisory = plan.season.advisory;
  if (!advisory.overridden || advisory.reasons.empty()) return {};
  constexpr std::size_t kStop = 24;
  const std::string start = fmt::format("Stop: {} Set aside: ", shortened(one_line(advisory.reasons.front()), kStop));
  const std::size_t taken = start.size() + 2;
  return fmt::format("{}{}. ", start, shortened(override_reason(plan), room > taken ? room - taken : 0));
}

std::string named(std::string_view word, const Feature& feature) {
  const std::string name = shortened(one_line(feature.name), kMostPlaceName);
  return name.empty() ? std::string(word) : fmt::format("{} {}", word, name);
}

// What a person should do at the ramp: a stop depends on the water, and that is measured there and then.
std::string stop_reminder(const Plan& plan) {
  if (plan.profile == nullptr || !plan.profile->stop_from) return {};
  return fmt::format(" Measure the water before you start: at {} or above, do not fish for {}.",
                     temperature_text(plan.profile->stop_from->value, plan.units),
                     shortened(one_line(plan.profile->title), 40));
}

void describe(Waypoint& out, const Plan& plan, const Feature& feature, const Launch& launch) {
  out.cmt = launch.dry ? "launch, dry at this level" : "launch";
  out.desc = fmt::format("{}{}; not for navigation, {}.{}", named("Launch", feature),
                         launch.dry ? ", dry at today's water level" : "", kStraightLine, stop_reminder(plan));
}

void describe(Waypoint& out, const Plan&, const Feature& feature, const Closure& closure) {
  out.cmt = closure_words(closure);
  out.desc = fmt::format("{}: {}, for the whole area around this point as the user's layer draws it; {}.",
                         named("Closure", feature), closure_words(closure), kStraightLine);
}

void describe(Waypoint& out, const Plan& plan, const Feature& feature, const Structure& structure) {
  const std::string depth = structure.depth ? length_text(*structure.depth, plan.units) : "";
  out.cmt = depth.empty() ? "hazard, depth unknown" : depth + "; hazard";
  out.desc = fmt::format("{}, {}; keep clear of all the water around this point, and {}.", named("Hazard", feature),
                         depth.empty() ? "depth unknown" : depth + " below the surface", kStraightLine);
}

// "pre-spawn" -> PRS, "summer" -> SUM: two letters of the first word and one of the second, else three.
std::string short_code(const std::string& phase) {
  std::string letters;
  const std::size_t dash = phase.find('-');
  const std::string words =
      dash == std::string::npos ? phase : phase.substr(0, std::min<std::size_t>(dash, 2)) + phase.substr(dash + 1);
  for (const char letter : words) {
    if (letters.size() < 3 && std::isalnum(static_cast<unsigned char>(letter)) != 0) {
      letters += static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
    }
  }
  return letters;
}

// "7M" or "22F": whole, so that it is short.
std::string depth_code(Metres depth, Units units) {
  const double unit = units == Units::metric ? 1.0 : 0.3048;
  return fmt::format("{:.0f}{}", depth.value() / unit, units == Units::metric ? 'M' : 'F');
}

std::string spot_name(const Plan& plan, const Spot& spot, std::size_t spots, const std::string& code) {
  const std::string rank = padded(static_cast<std::size_t>(spot.rank), spots);
  if (plan.gpx.names == GpxNames::brief) return rank + letter_of(spot);
  const std::string depth = depth_code(spot.boat_depth, plan.units);
  if (plan.gpx.names == GpxNames::words) {
    const std::string kind(spot.kinds.empty() ? "spot" : name_of(spot.kinds.front()));
    return fmt::format("{}-{}{}{}-{}", rank, kind, code.empty() ? "" : "-", code, depth);
  }
  const std::string name = fmt::format("{}{}{}", rank, letter_of(spot), code);
  const std::size_t room = kMostName - std::min(kMostName, name.size());
  return name + (depth.size() < room ? "-" + depth : depth.size() == room ? depth : "");
}

// "18-22 C": all of the phase, rising and falling.
std::string range_code(const Phase& phase, Units units) {
  double from = kOpen, to = -kOpen;
  for (const auto& side : {phase.rising, phase.falling}) {
    if (!side) continue;
    from = std::min(from, side->from.value());
    to = std::max(to, side->to.value());
  }
  const auto number = [&](double celsius) {
    return units == Units::metric ? fmt::format("{:g}", std::round(celsius * 10) / 10)
                                  : fmt::format("{:.0f}", celsius * 9 / 5 + 32);
  };
  const char unit = units == Units::metric ? 'C' : 'F';
  if (!std::isfinite(from)) return fmt::format("under {} {}", number(to), unit);
  if (!std::isfinite(to)) return fmt::format("from {} {}", number(from), unit);
  return fmt::format("{}-{} {}", number(from), number(to), unit);
}

// Depth, what the water may be, and the cast as far as there is room.
std::string spot_comment(const Plan& plan, const Spot& spot, const PrintedCast& cast) {
  std::string out = length_text(spot.boat_depth, plan.units);
  for (const PhaseSpots& each : plan.phases) {
    if (each.phase->name == spot.phase) out += "; " + range_code(*each.phase, plan.units);
  }
  const std::string more =
      fmt::format("; {} at {:03d} T", distance_text(Metres(cast.cast_m), plan.units), whole_bearing(cast.bearing_deg));
  return shortened(out.size() + more.size() <= kMostCmt ? out + more : out, kMostCmt);
}

}  // namespace

std::vector<std::string> phase_codes(const std::vector<const PhaseSpots*>& phases) {
  std::vector<std::string> codes;
  if (phases.size() < 2) return std::vector<std::string>(phases.size());
  std::set<std::string> known;
  for (const PhaseSpots* phase : phases) {
    codes.push_back(short_code(phase->phase->name));
    known.insert(codes.back());
  }
  if (known.size() == codes.size() && !known.contains("")) return codes;
  for (std::size_t at = 0; at < codes.size(); ++at) codes[at] = fmt::format("P{}", at + 1);
  return codes;
}

std::string spot_text(const Plan& plan, const Spot& spot) {
  return joined({spot_words(plan, spot, printed_cast(plan, spot)), sentence(spot.reason_words),
                 joined(spot_cautions(plan, spot), " ")},
                " ");
}

std::string pass_text(const Plan& plan, const Pass& pass) {
  return joined({pass_words(plan, pass), sentence(pass.reason_words), joined(pass_cautions(plan, pass), " ")}, " ");
}

Waypoint spot_waypoint(const Plan& plan, const Spot& spot, std::size_t spots, const std::string& code) {
  const PrintedCast cast = printed_cast(plan, spot);
  Waypoint out;
  out.name = spot_name(plan, spot, spots, code);
  out.cmt = spot_comment(plan, spot, cast);
  const std::string words = spot_words(plan, spot, cast);
  out.desc = with_room_for(set_aside_words(plan, kMostDesc - std::min(kMostDesc, words.size())) + words,
                           spot_cautions(plan, spot));
  out.type = "spot";
  out.place = cast.boat;
  return out;
}

Waypoint landing_waypoint(const Plan& plan, const Spot& spot, const Waypoint& boat) {
  const PrintedCast cast = printed_cast(plan, spot);
  const std::string rank = boat.name.substr(0, boat.name.find_first_not_of("0123456789"));
  Waypoint out;
  out.name = plan.gpx.names == GpxNames::words ? boat.name + "-landing" : rank + "LAND";
  if (plan.gpx.names == GpxNames::brief) out.name = rank + "X";
  out.cmt = shortened(fmt::format("{}; no boat here", length_text(spot.target_depth, plan.units)), kMostCmt);
  const std::string words = fmt::format("Where the cast from {} lands, over {}: the boat keeps off; {}.", boat.name,
                                        length_text(spot.target_depth, plan.units), kStraightLine);
  out.desc = with_room_for(set_aside_words(plan, kMostDesc - std::min(kMostDesc, words.size())) + words, {});
  out.type = "landing";
  out.place = cast.target;
  return out;
}

GpxWay pass_way(const Plan& plan, const Pass& pass, std::size_t passes, const std::string& code) {
  GpxWay out;
  const bool brief = plan.gpx.names == GpxNames::brief;
  out.name = fmt::format("P{}{}", padded(static_cast<std::size_t>(pass.rank), passes), brief ? "" : code);
  out.cmt = shortened(
      fmt::format("{}; cast {}", length_text(pass.boat_depth.first, plan.units), name_of(pass.cast_side)), kMostCmt);
  const std::string words = pass_words(plan, pass);
  out.desc = with_room_for(set_aside_words(plan, kMostDesc - std::min(kMostDesc, words.size())) + words,
                           pass_cautions(plan, pass));
  for (const XY place : pass.lane) {
    out.places.push_back(printed(plan.lake->projection.to_lonlat(place)));
    out.names.push_back(fmt::format("{}-{}", out.name, padded(out.places.size(), pass.lane.size())));
  }
  return out;
}

Waypoint turn_waypoint(const Plan& plan, const Pass& pass, const GpxWay& way, std::size_t turn) {
  Waypoint out;
  out.name = way.names[turn];
  out.cmt = way.cmt;
  const std::string words = fmt::format(
      "Place {} of {} on pass {}, {} or more under the boat, cast to the {}; {}.", turn + 1, way.places.size(),
      way.name, length_text(pass.boat_depth.first, plan.units), name_of(pass.cast_side), kStraightLine);
  out.desc = with_room_for(set_aside_words(plan, kMostDesc - std::min(kMostDesc, words.size())) + words, {});
  out.type = "pass";
  out.place = way.places[turn];
  return out;
}

Waypoint mark_waypoint(const Plan& plan, const Feature& feature, std::size_t number, std::size_t count) {
  Waypoint out;
  const char letter = feature.kind == Kind::launch ? 'L' : feature.kind == Kind::closure ? 'C' : 'H';
  out.name = fmt::format("{}{}", letter, padded(number, count));
  std::visit(
      [&](const auto& details) {
        if constexpr (requires { describe(out, plan, feature, details); }) describe(out, plan, feature, details);
      },
      feature.details);
  out.cmt = shortened(out.cmt, kMostCmt);
  out.desc = shortened(out.desc, kMostDesc);
  out.type = name_of(feature.kind);
  out.place = printed(plan.lake->projection.to_lonlat(feature.anchor));
  return out;
}

std::string names_text() {
  std::string out = "Names: rank, letter of what is fished (";
  for (const Letter& row : kLetters) out += fmt::format("{} {}, ", row.letter, row_of(row.kind).label);
  return out + "S other) and phase; the depth under the boat, M metres, F feet; H hazard, L launch, C closure.";
}

}  // namespace castplan
