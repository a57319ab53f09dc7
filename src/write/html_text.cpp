// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/html_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>

#include "write/plain_text.hpp"

namespace castplan {
namespace {

constexpr std::size_t kNameBytes = 120;  // what a page can show; the whole name stands in the data files

std::string axis_text(double degrees, char positive, char negative, int digits) {
  const auto thousandths = static_cast<long long>(std::llround(std::abs(degrees) * 60000.0));
  return fmt::format("{:0{}}° {:02}.{:03}' {}", thousandths / 60000, digits, thousandths % 60000 / 1000,
                     thousandths % 1000, degrees < 0 && thousandths > 0 ? negative : positive);
}

}  // namespace

std::string without_tags(std::string_view text) {
  std::string out;
  for (const char letter : one_line(text)) {
    switch (letter) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      default:
        out += letter;
    }
  }
  return out;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char letter : without_tags(text)) {
    if (letter == '"') {
      out += "&quot;";
    } else if (letter == '\'') {
      out += "&#39;";
    } else {
      out += letter;
    }
  }
  return out;
}

std::string short_name(std::string_view name) { return escaped(shortened(one_line(name), kNameBytes)); }

std::string name_html(std::string_view name) { return "<bdi>" + short_name(name) + "</bdi>"; }

std::string script_safe(std::string json) {
  std::string out;
  out.reserve(json.size());
  for (const char letter : json) {
    if (letter == '<') {
      out += "\\u003c";
    } else {
      out += letter;
    }
  }
  return out;
}

std::string degrees_minutes(LonLat place) {
  return fmt::format("<span class=\"axis\">{},</span> <span class=\"axis\">{}</span>",
                     axis_text(place.lat.degrees, 'N', 'S', 2), axis_text(place.lon.degrees, 'E', 'W', 3));
}

std::string plain_degrees_minutes(LonLat place) {
  return axis_text(place.lat.degrees, 'N', 'S', 2) + ", " + axis_text(place.lon.degrees, 'E', 'W', 3);
}

std::string decimal_degrees(LonLat place) {
  return fmt::format("<span class=\"axis\">{:.6f},</span> <span class=\"axis\">{:.6f}</span>", place.lat.degrees,
                     place.lon.degrees);
}

std::string bearing_text(Degrees bearing) {
  const long long whole = std::llround(wrap_bearing(bearing).value()) % 360;
  return fmt::format("{:03}°", whole);
}

std::string both_units(Metres length, Units units) {
  const Units other = units == Units::metric ? Units::imperial : Units::metric;
  return fmt::format("{} ({})", length_text(length, units), length_text(length, other));
}

std::string in_units(const std::string& metric, const std::string& imperial) {
  return fmt::format("<span class=\"in-m\">{}</span><span class=\"in-ft\">{}</span>", metric, imperial);
}

std::string length_html(Metres length) {
  return in_units(length_text(length, Units::metric), length_text(length, Units::imperial));
}

std::string both_html(Metres length) {
  return in_units(both_units(length, Units::metric), both_units(length, Units::imperial));
}

std::string distance_html(Metres distance) {
  return in_units(distance_text(distance, Units::metric), distance_text(distance, Units::imperial));
}

std::string range_html(std::pair<Metres, Metres> range) {
  const auto in = [&](Units units) { return length_range_text(range.first, range.second, units); };
  return in_units(in(Units::metric), in(Units::imperial));
}

std::string base64(std::string_view bytes) {
  static constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    std::uint32_t group = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      group = group << 8U | (at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0U);
    }
    for (std::size_t i = 0; i < 4; ++i) {
      const bool pad = at + i > bytes.size();
      out += pad ? '=' : kLetters[group >> (18U - 6U * static_cast<unsigned>(i)) & 63U];
    }
  }
  return out;
}

std::string filled(std::string_view page, const std::vector<std::pair<std::string_view, std::string>>& values) {
  std::string out;
  for (std::size_t at = 0; at < page.size();) {
    const std::size_t open = page.find("{{", at);
    const std::size_t close = open == std::string_view::npos ? open : page.find("}}", open);
    if (close == std::string_view::npos) return out.append(page.substr(at));
    out.append(page.substr(at, open - at));
    const std::string_view key = page.substr(open + 2, close - open - 2);
    const auto value = std::find_if(values.begin(), values.end(), [&](const auto& row) { return row.first == key; });
    assert(value != values.end());
    if (value != values.end()) out += value->second;
    at = close + 2;
  }
  return out;
}

}  // namespace castplan
