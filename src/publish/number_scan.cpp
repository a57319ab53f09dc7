// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/number_scan.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <optional>

namespace castplan {
namespace {

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

std::size_t digits_end(std::string_view text, std::size_t at) {
  while (at < text.size() && is_digit(text[at])) ++at;
  return at;
}

// 18 digits are more than any coordinate has, and never too many for a double.
double value_of(std::string_view whole, std::string_view part) {
  double value = 0.0;
  for (const char digit : whole.substr(0, 18)) value = value * 10.0 + (digit - '0');
  double scale = 1.0, rest = 0.0;
  for (const char digit : part.substr(0, 15)) {
    rest = rest * 10.0 + (digit - '0');
    scale *= 10.0;
  }
  return value + rest / scale;
}

FoundNumber number_at(std::string_view text, std::size_t at, std::size_t mark, std::size_t end) {
  FoundNumber out{at, end, 0.0, 0, static_cast<int>(mark - at)};
  const std::string_view part = mark < end ? text.substr(mark + 1, end - mark - 1) : std::string_view();
  out.decimals = static_cast<int>(part.size());
  out.value = value_of(text.substr(at, mark - at), part);
  return out;
}

struct Reference {
  std::string_view name, text;
};
constexpr std::array<Reference, 8> kReferences{{{"&deg;", "\xC2\xB0"},
                                                {"&prime;", "'"},
                                                {"&Prime;", "\""},
                                                {"&period;", "."},
                                                {"&comma;", ","},
                                                {"&minus;", "-"},
                                                {"&nbsp;", " "},
                                                {"&amp;", "&"}}};

std::optional<unsigned> number_of(std::string_view digits, int base) {
  unsigned value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value, base);
  if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
  return value;
}

struct Undone {
  std::string text;
  std::size_t taken{};
};

Undone letter(std::optional<unsigned> code, std::size_t taken) {
  if (!code) return {};
  // what is no ASCII letter is none of a number; a mark keeps its neighbours apart
  return {std::string(1, *code < 0x80 ? static_cast<char>(*code) : ' '), taken};
}

// What an escape at the front of a text stands for; nothing taken where there is none.
Undone undone(std::string_view text) {
  if (text.starts_with("&#")) {
    const std::size_t end = text.substr(0, 12).find(';');
    if (end == std::string_view::npos || end < 3) return {};
    const bool hex = text[2] == 'x' || text[2] == 'X';
    return letter(hex ? number_of(text.substr(3, end - 3), 16) : number_of(text.substr(2, end - 2), 10), end + 1);
  }
  if (text.front() == '&') {
    for (const Reference& row : kReferences) {
      if (text.starts_with(row.name)) return {std::string(row.text), row.name.size()};
    }
  }
  if (text.starts_with("\\u") && text.size() >= 6) return letter(number_of(text.substr(2, 4), 16), 6);
  if (text.front() == '%' && text.size() >= 3) return letter(number_of(text.substr(1, 2), 16), 3);
  return {};
}

}  // namespace

std::vector<FoundNumber> numbers_in(std::string_view text) {
  std::vector<FoundNumber> out;
  for (std::size_t at = 0; at < text.size();) {
    if (!is_digit(text[at])) {
      ++at;
      continue;
    }
    const std::size_t mark = digits_end(text, at);
    const bool more = mark + 1 < text.size() && is_digit(text[mark + 1]);
    if (more && text[mark] == '.') {
      const std::size_t end = digits_end(text, mark + 1);
      out.push_back(number_at(text, at, mark, end));
      at = end;
      continue;
    }
    out.push_back(number_at(text, at, mark, mark));
    if (more && text[mark] == ',') out.push_back(number_at(text, at, mark, digits_end(text, mark + 1)));
    at = mark;
  }
  return out;
}

Decoded decoded(std::string_view raw) {
  Decoded out;
  out.text.reserve(raw.size());
  out.from.reserve(raw.size());
  for (std::size_t at = 0; at < raw.size();) {
    const char first = raw[at];
    const Undone found = first == '&' || first == '\\' || first == '%' ? undone(raw.substr(at)) : Undone{};
    const std::string_view text = found.taken > 0 ? std::string_view(found.text) : raw.substr(at, 1);
    out.text += text;
    out.from.insert(out.from.end(), text.size(), at);
    at += std::max<std::size_t>(found.taken, 1);
  }
  return out;
}

std::string from_base64(std::string_view run) {
  std::string out;
  unsigned group = 0;
  int bits = 0;
  for (const char each : run) {
    int value = -1;
    if (each >= 'A' && each <= 'Z') value = each - 'A';
    if (each >= 'a' && each <= 'z') value = each - 'a' + 26;
    if (is_digit(each)) value = each - '0' + 52;
    if (each == '+' || each == '-') value = 62;
    if (each == '/' || each == '_') value = 63;
    if (value < 0) return {};
    group = group << 6U | static_cast<unsigned>(value);
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      out += static_cast<char>(static_cast<unsigned char>(group >> static_cast<unsigned>(bits)));
      group &= (1U << static_cast<unsigned>(bits)) - 1U;
    }
  }
  return out;
}

}  // namespace castplan
