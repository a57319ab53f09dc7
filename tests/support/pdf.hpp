// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// A PDF as poppler (pdftotext, pdftohtml, pdfinfo, pdffonts, pdftoppm) and qpdf read it.

#include <pugixml.hpp>
#include <regex>
#include <string>
#include <vector>

#include "support/programs.hpp"

namespace castplan::pdf {

using programs::run;
using programs::Scratch;

/// All text, runs of white space as one space.
inline std::string text_of(const std::string& path) {
  return std::regex_replace(run("pdftotext '" + path + "' -").text, std::regex("\\s+"), " ");
}

/// What a person reads in an output file: the text of a PDF, the bytes of any other.
inline std::string readable(const Scratch& scratch, const std::string& name, const std::string& bytes) {
  return name.ends_with(".pdf") ? text_of(scratch.write("readable.pdf", bytes)) : bytes;
}

struct Word {
  double left, top, right, bottom;  ///< points from the upper left corner
  std::string text;
};

/// Options of poppler's programs for one page.
inline std::string only(int page) { return " -f " + std::to_string(page) + " -l " + std::to_string(page) + " "; }

inline std::vector<Word> words_of(const std::string& path, int page = 1) {
  const std::string xml = run("pdftotext -bbox" + only(page) + "'" + path + "' -").text;
  const std::regex word(
      "<word xMin=\"([0-9.-]+)\" yMin=\"([0-9.-]+)\" xMax=\"([0-9.-]+)\" yMax=\"([0-9.-]+)\">(.*?)</word>");
  std::vector<Word> words;
  for (std::sregex_iterator at(xml.begin(), xml.end(), word), end; at != end; ++at) {
    const auto number = [&](int part) { return std::stod((*at)[part]); };
    words.push_back({number(1), number(2), number(3), number(4), (*at)[5]});
  }
  return words;
}

/// A run of text in one font; sizes in whole points, as pdftohtml gives them.
struct Run {
  double left, top, height;
  int size;
  std::string text;
};

inline std::vector<Run> runs_of(const std::string& path, int number = 1) {
  pugi::xml_document xml;
  xml.load_string(run("pdftohtml -xml -i -zoom 1 -stdout" + only(number) + "'" + path + "'").text.c_str(),
                  pugi::parse_default | pugi::parse_ws_pcdata);
  std::vector<Run> runs;
  const pugi::xml_node page = xml.child("pdf2xml").child("page");
  for (const pugi::xml_node text : page.children("text")) {
    const pugi::xml_node font = page.find_child_by_attribute("fontspec", "id", text.attribute("font").value());
    std::string words = text.text().get();
    if (const pugi::xml_node bold = text.child("b")) words = bold.text().get();
    runs.push_back({text.attribute("left").as_double(), text.attribute("top").as_double(),
                    text.attribute("height").as_double(), font.attribute("size").as_int(), words});
  }
  return runs;
}

/// The objects in readable form.
inline std::string objects_of(const Scratch& scratch, const std::string& path) {
  run("qpdf --qdf --object-streams=disable '" + path + "' " + scratch.path("objects.pdf"));
  return programs::read(scratch.path("objects.pdf"));
}

struct Picture {
  int width{}, height{}, channels{};
  std::string pixels;
  [[nodiscard]] int at(int x, int y, int channel = 0) const {
    return static_cast<unsigned char>(pixels[static_cast<std::size_t>((y * width + x) * channels + channel)]);
  }
};

/// The page drawn by poppler, as PPM (or PGM with "-gray").
inline Picture drawn(const Scratch& scratch, const std::string& path, int dpi, const std::string& how = "") {
  run("pdftoppm -singlefile -r " + std::to_string(dpi) + " " + how + " '" + path + "' " + scratch.path("drawn"));
  const std::string bytes = programs::read(scratch.path(how == "-gray" ? "drawn.pgm" : "drawn.ppm"));
  const std::regex head("^P([56])\\s+(\\d+)\\s+(\\d+)\\s+255\\s");
  std::smatch match;
  Picture out;
  if (!std::regex_search(bytes, match, head)) return out;
  out = {std::stoi(match[2]), std::stoi(match[3]), match[1] == "6" ? 3 : 1, bytes.substr(match[0].length())};
  return out;
}

}  // namespace castplan::pdf
