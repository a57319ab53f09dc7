// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/site_text.hpp"

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <cstdlib>

#include "castplan/geo/quantity_text.hpp"
#include "castplan/write/html_text.hpp"
#include "castplan/write/plain_text.hpp"
#include "castplan_site.hpp"

namespace castplan {
namespace {

enum class Say { depth, length, area, percent, toward, word };

/// How a known value is put into words; "{}" is the value.
struct Phrase {
  std::string_view key;
  Say as;
  std::string_view words;
};
constexpr Phrase kPhrases[] = {
    {"max_depth_m", Say::depth, "deepest {}"},
    {"top_depth_m", Say::depth, "top at {}"},
    {"base_depth_m", Say::depth, "base at {}"},
    {"depth_m", Say::depth, "at {}"},
    {"mean_depth_m", Say::depth, "{} deep on average"},
    {"sill_depth_m", Say::depth, "sill at {}"},
    {"relief_m", Say::depth, "{} of relief"},
    {"grade_pct", Say::percent, "grade {}"},
    {"faces_deg", Say::toward, "faces {}"},
    {"edge", Say::word, "{} edge"},
    {"length_m", Say::length, "{} long"},
    {"width_m", Say::length, "{} wide"},
    {"mouth_m", Say::length, "mouth {} wide"},
    {"area_m2", Say::area, "{}"},
    {"closure", Say::word, "{}"},
    {"from", Say::word, "from {}"},
    {"to", Say::word, "to {}"},
    {"attribute", Say::word, "{}"},
};

std::string said(const Phrase& phrase, const PublicFeature::Value& value) {
  if (phrase.as == Say::word) return value.text;
  if (!value.number) return {};
  switch (phrase.as) {
    case Say::depth:
      return depth_text(value.number);
    case Say::length:
      return fmt::format("{} ({})", distance_text(Metres(*value.number), Units::metric),
                         distance_text(Metres(*value.number), Units::imperial));
    case Say::area:
      return area_text(*value.number);
    case Say::percent:
      return fmt::format("{:.0f} %", *value.number);
    default:
      return compass_words(Degrees(*value.number));
  }
}

std::string axis_range(long long from, long long to, char positive, char negative) {
  const auto digits = [](long long micro) {
    std::string out = fixed(static_cast<double>(std::llabs(micro)) / 1e6, 5);
    while (out.ends_with('0') && out[out.size() - 4] != '.') out.pop_back();
    return out;
  };
  const char side = from < 0 ? negative : positive;
  return from < 0 ? fmt::format("{} to {} {}", digits(to), digits(from), side)
                  : fmt::format("{} to {} {}", digits(from), digits(to), side);
}

}  // namespace

std::string area_text(double m2) {
  const double ha = m2 / 1e4, acres = m2 / 4046.8564224;
  const auto text = [](double value, std::string_view unit) {
    return fmt::format("{:.{}f} {}", value, value < 10.0 ? 2 : value < 100.0 ? 1 : 0, unit);
  };
  return fmt::format("{} ({})", text(ha, "ha"), text(acres, "acres"));
}

std::string depth_text(std::optional<double> metres) {
  if (!metres || !std::isfinite(*metres)) return {};
  return fmt::format("{} ({})", length_text(Metres(*metres), Units::metric),
                     length_text(Metres(*metres), Units::imperial));
}

std::string list_html(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += fmt::format("<li>{}</li>\n", escaped(text));
  return out.empty() ? out : "<ul>\n" + out + "</ul>\n";
}

std::string feature_words(const PublicFeature& feature) {
  std::string out;
  for (const PublicFeature::Value& value : feature.values) {
    for (const Phrase& phrase : kPhrases) {
      const std::string text = phrase.key == value.key ? said(phrase, value) : std::string();
      if (text.empty()) continue;
      out += (out.empty() ? "" : ", ") + fmt::format(fmt::runtime(phrase.words), text);
    }
    if (value.key == "dry" && value.text == "yes") out += (out.empty() ? "" : ", ") + std::string("dry today");
  }
  return out;
}

std::string source_text(const PublicLake& lake) {
  std::string out = lake.source.empty() ? "source not stated" : lake.source;
  out += ", " + (lake.licence.empty() ? std::string("licence not stated") : lake.licence);
  return out + (lake.surveyed.empty() ? ", survey date not stated" : ", surveyed " + lake.surveyed);
}

std::string edges_text(const CellEdges& edges) {
  return axis_range(edges.south, edges.north, 'N', 'S') + ", " + axis_range(edges.west, edges.east, 'E', 'W');
}

std::string state_text(const PublicLake& lake, const ExactPlaces* exact) {
  if (lake.stopped()) return "Stop: no spots";
  if (lake.small) return "Small water: features, no spots";
  const auto many = [](std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
  };
  if (exact != nullptr) return many(exact->spots.size(), "exact spot");
  if (lake.areas.empty()) return "No spots";
  return many(static_cast<std::size_t>(lake.spots()), "spot") + " in " + many(lake.areas.size(), "area");
}

std::string letters(std::size_t number) {
  std::string out;
  for (++number; number > 0; number /= 26) {
    --number;
    out.insert(out.begin(), static_cast<char>('A' + number % 26));
  }
  return out;
}

std::string page_part(std::string_view name) {
  for (const castplan_site::File& file : castplan_site::files()) {
    if (file.name == name) return std::string(file.text);
  }
  assert(!"a part of the site is missing from src/publish/page");
  return {};
}

}  // namespace castplan
