// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/inspect_depths.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

#include "castplan/geo/error.hpp"
#include "io/inspect_cells.hpp"
#include "io/inspect_parts.hpp"
#include "io/raster_values.hpp"

namespace castplan {
namespace {

/// Deeper than all but a few lakes of the world (from memory: about 20 pass 400 m, one 1640 m).
constexpr double kVeryDeep = 400;
constexpr double kDeepestLake = 1650;

void unit_missing(const FileFacts& facts, const std::string& what, const std::string& hint, Inspection& out) {
  out.findings.push_back(
      {Severity::error, "no-unit",
       fmt::format("{}: {}{}", facts.name, what,
                   hint.empty() ? "; a lake read in feet for metres is three times too shallow"
                                : fmt::format("; its name suggests {}, which is no proof", hint)),
       hint.empty() ? "unit = \"m\" or unit = \"ft\" under [depth], or --unit m or --unit ft"
                    : fmt::format("unit = \"{}\" under [depth], or --unit {}, if that is right", hint, hint)});
}

void find_unit(const DepthQuestion& question, FileFacts& facts, Inspection& out) {
  RasterFacts& raster = *facts.raster;
  std::optional<DepthUnit> own;
  try {
    if (!question.unit_type.empty()) own = parse_depth_unit(question.unit_type);
  } catch (const InputError&) {
    own.reset();
  }
  const auto& given = question.options.unit;
  if (given) {
    raster.unit = given;
    raster.unit_evidence = facts.key.empty() ? "given with --unit" : "the lake file says so";
    if (own && *own != *given) {
      out.findings.push_back({Severity::warning, "unit-differs",
                              fmt::format("{}: the file states the unit {}, {} is used instead because it was given",
                                          facts.name, question.unit_type, unit_text(*given)),
                              "leave the unit out, if the file is right"});
    }
  } else if (own) {
    raster.unit = own;
    raster.unit_evidence = fmt::format("the band states \"{}\"", question.unit_type);
  } else {
    std::string hint = unit_hint(question.description);
    if (hint.empty()) hint = unit_hint(facts.name);
    unit_missing(facts,
                 question.unit_type.empty()
                     ? std::string("states no unit")
                     : fmt::format("states the unit \"{}\", which is not known", question.unit_type),
                 hint, out);
  }
}

constexpr double kNearSurface = 20;  ///< metres: the depths of a whole lake begin nearer to 0; design choice

void guess_sense(const ValueTally& signs, double metres, FileFacts& facts) {
  RasterFacts& raster = *facts.raster;
  const double below = signs.negative_share();
  if (signs.low * metres > kNearSurface) {
    raster.sense = Sense::elevation;
    raster.sense_evidence =
        fmt::format("no value is below {:.1f}, but the depths of a lake begin near 0 at its shore", signs.low);
  } else if (below > 0.5) {
    raster.sense = Sense::height;
    raster.sense_evidence = fmt::format("{} of the values other than 0 are negative", share_text(below));
  } else {
    raster.sense = Sense::depth;
    raster.sense_evidence = fmt::format("{} of the values other than 0 are positive", share_text(1 - below));
  }
}

void find_sense(const ValueTally& signs, const DepthQuestion& question, double metres, FileFacts& facts,
                Inspection& out) {
  RasterFacts& raster = *facts.raster;
  guess_sense(signs, metres, facts);
  if (question.sense && *question.sense != *raster.sense) {
    const bool by_surface = *question.sense == Sense::elevation && question.options.surface;
    if (!by_surface) {
      out.findings.push_back(
          {Severity::warning, "sense-differs",
           fmt::format("{}: sense = {} is used, but the values look like {}: {}", facts.name,
                       sense_text(*question.sense), sense_text(*raster.sense), raster.sense_evidence),
           fmt::format("sense = \"{}\" under [depth], or --sense {}", sense_text(*raster.sense),
                       sense_text(*raster.sense))});
    }
  }
  if (question.sense) {
    raster.sense = question.sense;
    raster.sense_evidence = facts.key.empty() ? "given with --sense" : "the lake file says so, or its default";
  } else if (*raster.sense != Sense::depth) {
    out.findings.push_back(
        {Severity::warning, "sense",
         fmt::format("{}: the values look like {}: {}", facts.name, sense_text(*raster.sense), raster.sense_evidence),
         fmt::format("sense = \"{}\" under [depth], or --sense {}", sense_text(*raster.sense),
                     sense_text(*raster.sense))});
  }
  if (*raster.sense == Sense::elevation && !question.options.surface) {
    out.findings.push_back({Severity::error, "no-surface",
                            fmt::format("{}: elevations of {:.2f} to {:.2f} need the water's surface before they are "
                                        "depths",
                                        facts.name, signs.low, signs.high),
                            "surface = \"... m\" under [depth], or --surface \"... m\""});
  }
}

/// Turns values into depths in place; without a surface into heights above the lowest, so that flaws still show.
/// False then.
bool turn_to_depths(Grid<Metres32>& values, const RasterFacts& raster, const RasterOptions& options, double low,
                    double metres) {
  const bool elevation = *raster.sense == Sense::elevation;
  const bool known = !elevation || options.surface.has_value();
  for (Metres32& cell : values.cells()) {
    const double v = static_cast<double>(cell.value());
    double depth = v * metres;
    if (*raster.sense == Sense::height) depth = -depth;
    if (elevation) depth = known ? options.surface->value() - v * metres : (v - low) * metres + 1;
    if (!elevation && depth != 0) depth += options.level_offset.value();
    cell = Metres32(static_cast<float>(depth));
  }
  return known;
}

void judge_depth(const FileFacts& facts, Inspection& out) {
  const auto& raster = *facts.raster;
  if (!raster.unit || !raster.low || *raster.sense == Sense::elevation) return;
  const double deepest = std::max(std::fabs(*raster.low), std::fabs(*raster.high)) * metres_per(*raster.unit);
  if (deepest < kVeryDeep) return;
  out.findings.push_back({deepest > kDeepestLake ? Severity::error : Severity::warning, "very-deep",
                          fmt::format("{}: the largest value is {:.0f} m in {}, {}; check the unit and the sense",
                                      facts.name, deepest, unit_text(*raster.unit),
                                      deepest > kDeepestLake ? "deeper than any lake" : "deeper than nearly all lakes"),
                          "unit = \"...\" under [depth], or --unit"});
}

}  // namespace

std::string sense_text(Sense sense) {
  if (sense == Sense::height) return "height";
  return sense == Sense::elevation ? "elevation" : "depth";
}

std::string unit_hint(const std::string& name) {
  bool feet = false;
  bool metres = false;
  std::string word;
  for (const char c : name + ".") {
    if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
      word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      continue;
    }
    feet = feet || word == "ft" || word == "feet" || word == "foot";
    metres = metres || word == "m" || word == "metre" || word == "metres" || word == "meter" || word == "meters";
    word.clear();
  }
  if (feet == metres) return {};
  return feet ? "ft" : "m";
}

void inspect_depths(Grid<Metres32> values, const DepthQuestion& question, const std::optional<Placed>& placed,
                    FileFacts& facts, Inspection& out) {
  RasterFacts& raster = *facts.raster;
  for (Metres32& cell : values.cells()) {
    cell = Metres32(static_cast<float>(static_cast<double>(cell.value()) * question.scale + question.shift));
  }
  find_unit(question, facts, out);
  const double metres = raster.unit ? metres_per(*raster.unit) : 1.0;
  const ValueTally signs = tally(values);
  raster.nodata_share = 1 - static_cast<double>(signs.known) / static_cast<double>(values.size());
  if (signs.known == 0) {
    out.findings.push_back({Severity::error, "empty", fmt::format("{}: holds nothing but no data", facts.name),
                            "band = N under [depth], if another band holds the depths"});
    return;
  }
  raster.low = signs.low;
  raster.high = signs.high;
  find_sense(signs, question, metres, facts, out);
  judge_depth(facts, out);
  const bool depths = turn_to_depths(values, raster, question.options, signs.low, metres);
  FlawWords words{placed, raster.unit ? "m" : "of the file's unit", depths, {}};
  if (*raster.sense == Sense::elevation) {
    const double surface = depths ? question.options.surface->value() : 0;
    words.elevation = [=, low = signs.low](float depth) {
      return depths ? (surface - static_cast<double>(depth)) / metres : (static_cast<double>(depth) - 1) / metres + low;
    };
  }
  inspect_flaws(values, words, facts, out);
  if (depths) raster.hypsography = hypsography(values);
}

}  // namespace castplan
