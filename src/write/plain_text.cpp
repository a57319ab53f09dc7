// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/plain_text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>

namespace castplan {
namespace {

constexpr char32_t kBroken = 0xFFFD;

void append_letter(std::string& out, char32_t letter) {
  const auto byte = [&](char32_t bits) { out += static_cast<char>(static_cast<unsigned char>(bits)); };
  if (letter < 0x80) {
    byte(letter);
  } else if (letter < 0x800) {
    byte(0xC0 | (letter >> 6));
    byte(0x80 | (letter & 0x3F));
  } else if (letter < 0x10000) {
    byte(0xE0 | (letter >> 12));
    byte(0x80 | ((letter >> 6) & 0x3F));
    byte(0x80 | (letter & 0x3F));
  } else {
    byte(0xF0 | (letter >> 18));
    byte(0x80 | ((letter >> 12) & 0x3F));
    byte(0x80 | ((letter >> 6) & 0x3F));
    byte(0x80 | (letter & 0x3F));
  }
}

// Takes the next letter from the front of a text. Source of the legal forms: RFC 3629, section 4.
char32_t next_letter(std::string_view& text) {
  const auto lead = static_cast<unsigned char>(text.front());
  const int more = lead < 0x80                   ? 0
                   : lead >= 0xC2 && lead < 0xE0 ? 1
                   : lead >= 0xE0 && lead < 0xF0 ? 2
                   : lead >= 0xF0 && lead < 0xF5 ? 3
                                                 : -1;
  if (more < 0) {
    text.remove_prefix(1);
    return kBroken;
  }
  char32_t letter = more == 0 ? lead : lead & (0x3F >> more);
  for (int at = 1; at <= more; ++at) {
    const auto index = static_cast<std::size_t>(at);
    if (index >= text.size() || (static_cast<unsigned char>(text[index]) & 0xC0) != 0x80) {
      text.remove_prefix(index);
      return kBroken;
    }
    letter = (letter << 6) | (static_cast<unsigned char>(text[index]) & 0x3F);
  }
  text.remove_prefix(static_cast<std::size_t>(more) + 1);
  constexpr char32_t kLeast[] = {0, 0x80, 0x800, 0x10000};
  const bool legal = letter >= kLeast[more] && letter <= 0x10FFFF && !(letter >= 0xD800 && letter <= 0xDFFF);
  return legal ? letter : kBroken;
}

bool is_space(char32_t letter) {
  return letter == ' ' || (letter >= 0x09 && letter <= 0x0D) || letter == 0x85 || letter == 0xA0 || letter == 0x2028 ||
         letter == 0x2029;
}

// controls, direction marks (U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069), and what XML 1.0 section 2.2 leaves
// out
bool is_unseen(char32_t letter) {
  return letter < 0x20 || (letter >= 0x7F && letter < 0xA0) || letter == 0x200E || letter == 0x200F ||
         letter == 0x061C || (letter >= 0x202A && letter <= 0x202E) || (letter >= 0x2066 && letter <= 0x2069) ||
         letter == 0xFEFF || letter == 0xFFFE || letter == 0xFFFF;
}

}  // namespace

std::string valid_utf8(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) append_letter(out, next_letter(text));
  return out;
}

std::string one_line(std::string_view text) {
  std::string out;
  bool space = false;
  while (!text.empty()) {
    const char32_t letter = next_letter(text);
    if (is_space(letter)) {
      space = true;
    } else if (!is_unseen(letter)) {
      if (space && !out.empty()) out += ' ';
      space = false;
      append_letter(out, letter);
    }
  }
  return out;
}

std::string sentence(std::string_view text) {
  std::string out = one_line(text);
  if (!out.empty() && out.back() != '.' && out.back() != '!' && out.back() != '?') out += '.';
  return out;
}

std::string shortened(std::string_view text, std::size_t bytes) {
  constexpr std::string_view kMark = "...";
  if (text.size() <= bytes) return std::string(text);
  std::size_t keep = bytes > kMark.size() ? bytes - kMark.size() : 0;
  while (keep > 0 && (static_cast<unsigned char>(text[keep]) & 0xC0) == 0x80) --keep;
  while (keep > 0 && text[keep - 1] == ' ') --keep;
  return std::string(text.substr(0, keep)).append(kMark.substr(0, bytes));
}

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value)) return {};
  std::string digits = fmt::format("{:.{}f}", value, decimals);
  if (digits.front() == '-' && digits.find_first_not_of("-0.") == std::string::npos) digits.erase(0, 1);
  return digits;
}

std::string micro_degrees(std::int64_t micro) { return fixed(static_cast<double>(micro) / 1e6, 6); }

int value_decimals(std::string_view unit) {
  if (unit == "m") return 2;
  return unit == "%" || unit == "pct" || unit == "deg" ? 1 : 4;
}

double rounded_bearing(double degrees, int decimals) {
  const double factor = std::pow(10.0, decimals);
  const double rounded = std::round(std::fmod(degrees, 360.0) * factor) / factor;
  if (rounded < 0.0) return rounded_bearing(degrees + 360.0, decimals);
  return rounded >= 360.0 ? 0.0 : rounded;
}

}  // namespace castplan
