// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "cli/castplan_run.hpp"
#include "support/pdf.hpp"

/// What every printed page keeps to, as poppler and qpdf read it.
namespace castplan::printed {

using namespace castplan::programs;

inline constexpr double kMm = 72.0 / 25.4;

inline bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Lines of frames that go through letters.
inline void no_frame_meets(const std::string& path, const std::vector<pdf::Word>& words, int least) {
  const Scratch scratch;
  const std::string objects = pdf::objects_of(scratch, path);
  const std::regex rectangle("(-?[0-9.]+) (-?[0-9.]+) (-?[0-9.]+) (-?[0-9.]+) re\\s+S");
  int frames = 0;
  for (std::sregex_iterator at(objects.begin(), objects.end(), rectangle), end; at != end; ++at) {
    const auto number = [&](int part) { return std::stod((*at)[part]); };
    ++frames;
    for (const pdf::Word& word : words) {
      if (std::min(word.right, number(1) + number(3)) - std::max(word.left, number(1)) < 0.5) continue;
      for (const double y : {number(2), number(2) + number(4)}) {
        if (y > word.top && y < word.bottom) FAIL_CHECK("a frame at " << y << " goes through " << word.text);
      }
    }
  }
  CHECK(frames >= least);
}

// Letters need less than the box that poppler gives them: a sixth of it above and below stays empty.
inline void no_words_meet(const std::string& path, double width, double height, int page = 1, int frames = 10) {
  std::vector<pdf::Word> words = pdf::words_of(path, page);
  REQUIRE(words.size() > 100);
  for (pdf::Word& word : words) {
    const double rim = (word.bottom - word.top) / 6.0;
    word.top += rim;
    word.bottom -= rim;
  }
  no_frame_meets(path, words, frames);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const pdf::Word& a = words[i];
    INFO(a.text << " at " << a.left << ", " << a.top);
    CHECK(a.left >= 12 * kMm - 0.5);
    CHECK(a.right <= width - 12 * kMm + 0.5);
    CHECK(a.top >= 12 * kMm - 0.5);
    CHECK(a.bottom <= height - 12 * kMm + 0.5);
    for (std::size_t j = i + 1; j < words.size(); ++j) {
      const pdf::Word& b = words[j];
      const double across = std::min(a.right, b.right) - std::max(a.left, b.left);
      const double down = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
      if (across > 0.5 && down > 0.5) FAIL_CHECK(a.text << " and " << b.text << " meet at " << a.left << ", " << a.top);
    }
  }
}

// Its letters are those of the shipped font, bold and not.
inline void carries_its_fonts(const std::string& path) {
  const std::string fonts = run("pdffonts " + path).text;
  std::istringstream lines(fonts.substr(fonts.find("---")));
  std::string line;
  std::getline(lines, line);
  int count = 0;
  while (std::getline(lines, line)) {
    INFO(line);
    // columns: embedded, subset, with its letters for those who search and read aloud
    CHECK(std::regex_search(line, std::regex("\\+RobotoCondensed.* yes yes yes ")));
    ++count;
  }
  CHECK(count == 2);
}

// An invented lake by other words in the sample's file.
inline std::string sample_with(const Scratch& scratch,
                               const std::vector<std::pair<std::string, std::string>>& changes) {
  std::filesystem::copy(CASTPLAN_SOURCE_DIR "/sample_rasters", scratch.path("lake"));
  std::string text = read(kSample);
  for (const auto& [from, to] : changes) {
    REQUIRE(text.find(from) != std::string::npos);
    text.replace(text.find(from), from.size(), to);
  }
  return scratch.write("lake/ossilby.toml", text);
}

}  // namespace castplan::printed
