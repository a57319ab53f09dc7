// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <regex>
#include <set>
#include <string>
#include <vector>

/// The page read as text.
namespace page_text {

inline std::size_t count(const std::string& page, const std::string& what) {
  std::size_t found = 0;
  for (std::size_t at = page.find(what); at != std::string::npos; at = page.find(what, at + 1)) ++found;
  return found;
}

inline bool has(const std::string& page, const std::string& what) { return page.find(what) != std::string::npos; }

inline std::vector<std::string> all_matches(const std::string& page, const std::string& pattern) {
  const std::regex regex(pattern);
  std::vector<std::string> out;
  for (std::sregex_iterator it(page.begin(), page.end(), regex), end; it != end; ++it) out.push_back((*it)[1]);
  return out;
}

inline std::string between(const std::string& page, const std::string& from, const std::string& to) {
  const std::size_t start = page.find(from);
  if (start == std::string::npos) return {};
  const std::size_t end = page.find(to, start + from.size());
  return page.substr(start + from.size(), end - start - from.size());
}

/// The page without what stands in style and script elements, and without the picture (a long text for a regex).
inline std::string markup(std::string page) {
  for (const auto& [open, close] :
       std::vector<std::pair<std::string, std::string>>{{"<style>", "</style>"},
                                                        {"<script type=\"application/json\" id=\"plan\">", "</script>"},
                                                        {"<script>", "</script>"},
                                                        {"data:image/png;base64,", "\""}}) {
    const std::size_t at = page.find(open);
    REQUIRE(at != std::string::npos);
    const std::size_t end = page.find(close, at + open.size());
    REQUIRE(end != std::string::npos);
    page.erase(at + open.size(), end - at - open.size());
  }
  return page;
}

/// Base 64 read back (RFC 4648, section 4).
inline std::string decoded(const std::string& text) {
  static const std::string kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  unsigned bits = 0, held = 0;
  for (const char letter : text) {
    if (letter == '=') break;
    held = held << 6U | static_cast<unsigned>(kLetters.find(letter));
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    out += static_cast<char>(held >> bits & 0xffU);
    held &= (1U << bits) - 1;
  }
  return out;
}

/// The page as it is read in "m" or "ft": without what stands for the other unit.
inline std::string read_in(const std::string& unit, const std::string& page) {
  const std::string kEnd = "</span>";
  std::string out;
  std::size_t at = 0;
  for (std::size_t open = page.find("<span class=\"in-"); open != std::string::npos;
       open = page.find("<span class=\"in-", at)) {
    const std::size_t name = open + 16, text = page.find('>', open) + 1, end = page.find(kEnd, text);
    out += page.substr(at, open - at);
    if (page.substr(name, page.find('"', name) - name) == unit) out += page.substr(text, end - text);
    at = end + kEnd.size();
  }
  return out + page.substr(at);
}

/// Empty when every element that opens also closes, in order; else the tag where it goes wrong. Elements without an
/// end tag: HTML Living Standard, 13.1.2, "void elements".
inline std::string unbalanced(const std::string& html) {
  static const std::set<std::string> kVoid{"meta", "br", "input", "img", "link", "hr"};
  std::vector<std::string> open;
  const std::regex tag("<(/?)([a-zA-Z][a-zA-Z0-9]*)[^<>]*?(/?)>");
  for (std::sregex_iterator it(html.begin(), html.end(), tag), end; it != end; ++it) {
    const std::string name = (*it)[2];
    if (kVoid.count(name) != 0 || (*it)[3].length() != 0) continue;
    if ((*it)[1].length() == 0) {
      open.push_back(name);
    } else if (open.empty() || open.back() != name) {
      return it->str() + " closes " + (open.empty() ? "nothing" : open.back());
    } else {
      open.pop_back();
    }
  }
  return open.empty() ? "" : open.back() + " is never closed";
}

}  // namespace page_text
