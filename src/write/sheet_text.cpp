// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cctype>

#include "write/sheet_canvas.hpp"

namespace castplan::sheet {
namespace {

constexpr std::string_view kDots = "...";
constexpr std::size_t kMostLetters = 400;  // no line of the page holds more

// Bytes of the longest start, of whole letters, that is no wider than the room.
std::size_t start_within(const Canvas& canvas, std::string_view text, Font font, double room) {
  std::vector<std::size_t> ends;  // after each letter
  for (std::size_t at = 1; at <= text.size() && ends.size() < kMostLetters; ++at) {
    if (at == text.size() || (static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U) ends.push_back(at);
  }
  const auto first_too_wide = std::partition_point(
      ends.begin(), ends.end(), [&](std::size_t end) { return canvas.width_of(text.substr(0, end), font) <= room; });
  return first_too_wide == ends.begin() ? 0 : *(first_too_wide - 1);
}

// A number and its unit (23.9 C, 60 ft) stand on one line.
bool parts_unit(std::string_view text, std::size_t space) {
  const auto is = [&](std::size_t at, auto test) {
    return at < text.size() && test(static_cast<unsigned char>(text[at])) != 0;
  };
  const auto digit = [](int letter) { return std::isdigit(letter); };
  const auto word = [](int letter) { return std::isalpha(letter); };
  if (!is(space - 1, digit) || !is(space + 1, word)) return false;
  return !is(space + 2, word) || !is(space + 3, word);
}

// What a line takes from the front of a text: whole words, or a part of the first when that is wider than the line.
std::size_t line_of(const Canvas& canvas, std::string_view text, Font font, double room) {
  const std::size_t bytes = start_within(canvas, text, font, room);
  if (bytes == text.size() || bytes == 0) return std::max<std::size_t>(bytes, 1);
  std::size_t space = text.substr(0, bytes + 1).rfind(' ');
  while (space != std::string_view::npos && space > 0 && parts_unit(text, space)) space = text.rfind(' ', space - 1);
  return space == std::string_view::npos || space == 0 ? bytes : space;
}

}  // namespace

std::string fitted(const Canvas& canvas, const std::string& text, Font font, double room) {
  if (start_within(canvas, text, font, room) == text.size()) return text;
  std::string start = text.substr(0, start_within(canvas, text, font, room - canvas.width_of(kDots, font)));
  while (!start.empty() && start.back() == ' ') start.pop_back();
  return start.append(kDots);
}

std::vector<std::string> wrapped(const Canvas& canvas, const std::string& text, Font font, double room,
                                 std::size_t most) {
  std::vector<std::string> lines;
  std::string_view rest = text;
  while (!rest.empty() && lines.size() < most) {
    if (lines.size() + 1 == most) {
      lines.push_back(fitted(canvas, std::string(rest), font, room));
      break;
    }
    const std::size_t taken = line_of(canvas, rest, font, room);
    lines.emplace_back(rest.substr(0, taken));
    rest.remove_prefix(taken);
    while (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
  }
  return lines;
}

}  // namespace castplan::sheet
