// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "write/glossary_terms.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"
#include "write/teaching.hpp"
#include "write/teaching_parts.hpp"

namespace castplan {
namespace sheet {
namespace {

constexpr std::string_view kFile = "glossary.pdf";
// short enough for six terms above it, whatever the plan carries
constexpr Foot kFoot{.file = kFile, .advisory = 4, .cautions = 1, .rules = 2, .facts = 4};
constexpr std::size_t kPages = 2;
constexpr double kHead = 19.0 * kMm;
constexpr double kMostRow = 39.0 * kMm;
constexpr double kMostDrawing = 36.0 * kMm;  // high
constexpr double kGutter = 4.0 * kMm;
constexpr Font kTerm{14.0, true};

/// How the words of a term are set, and where they begin below its line.
struct Type {
  double size, line, first;
  [[nodiscard]] Font plain() const { return {size}; }
  [[nodiscard]] Font bold() const { return {size, true}; }
};
constexpr Type kTypes[] = {{10.0, 4.15 * kMm, 10.4 * kMm}, {9.5, 3.9 * kMm, 10.0 * kMm}, {9.0, 3.65 * kMm, 9.2 * kMm}};
constexpr double kParagraph = 0.5 * kMm;  // between two

// Why fish hold there, in words that name the planned one where the text was written for it.
std::string holds_words(const Plan& plan) {
  const bool muskellunge = plan.profile != nullptr && plan.profile->name == "muskellunge";
  return muskellunge ? "Why a muskellunge holds there: " : "Why a big predator holds there: ";
}

/// A bold lead, maybe empty, and its text, as lines: the first stands behind the lead.
struct Paragraph {
  std::string lead;
  std::vector<std::string> lines;
};

Paragraph paragraph_of(const Canvas& canvas, const std::string& lead, std::string_view text, Type type, double width) {
  const double indent = lead.empty() ? 0.0 : canvas.width_of(lead, type.bold());
  Paragraph out{lead, {wrapped(canvas, std::string(text), type.plain(), width - indent).front()}};
  if (out.lines.front().size() == text.size()) return out;
  const std::string rest(text.substr(out.lines.front().size() + 1));
  for (std::string& line : wrapped(canvas, rest, type.plain(), width)) out.lines.push_back(std::move(line));
  return out;
}

std::vector<Paragraph> paragraphs_of(const Canvas& canvas, const Plan& plan, const Term& term, Type type,
                                     double width) {
  return {paragraph_of(canvas, "", term.what, type, width),
          paragraph_of(canvas, "On a sounder: ", term.sounder, type, width),
          paragraph_of(canvas, holds_words(plan), term.why, type, width)};
}

/// Where drawings and words of a term stand, for rows of one height.
struct Row {
  double height;
  [[nodiscard]] double drawing() const { return std::min(kMostDrawing, height - 3.0 * kMm); }
  [[nodiscard]] double drawings() const { return 2.2 * drawing() + 3.0 * kMm; }  ///< width of both
  [[nodiscard]] double words(Area area) const { return area.width - drawings() - kGutter; }
};

bool fits(const Canvas& canvas, const Plan& plan, Type type, Row row, Area area) {
  return std::all_of(terms().begin(), terms().end(), [&](const Term& term) {
    double end = type.first + 1.4 * kMm - type.line;
    for (const Paragraph& one : paragraphs_of(canvas, plan, term, type, row.words(area))) {
      end += kParagraph + type.line * static_cast<double>(one.lines.size());
    }
    return end - kParagraph <= row.height;
  });
}

void draw_paragraph(Canvas& canvas, const Paragraph& paragraph, Type type, Place at) {
  const Tagged tag(canvas, "P");
  const double indent = paragraph.lead.empty() ? 0.0 : canvas.width_of(paragraph.lead, type.bold());
  canvas.text(at, paragraph.lead, type.bold());
  for (std::size_t i = 0; i < paragraph.lines.size(); ++i) {
    canvas.text({at.x + (i == 0 ? indent : 0.0), at.y + type.line * static_cast<double>(i)}, paragraph.lines[i],
                type.plain());
  }
}

std::string figure_words(const Term& term) {
  if (term.layers) return fmt::format("{}: temperature against depth, and a section of a layered lake.", term.name);
  return fmt::format("{}: a map with contours, a line each metre, darker is deeper, and the section from A to B.",
                     term.name);
}

void draw_entry(Canvas& canvas, const Plan& plan, const Term& term, Type type, Area area) {
  const Row row{area.height};
  canvas.line({area.left, area.top}, {area.right(), area.top}, kHair);
  {
    const Tagged tag(canvas, "Figure");
    draw_term(canvas, term, {area.left, area.top + 1.5 * kMm, row.drawings(), row.drawing()});
  }
  const double left = area.left + row.drawings() + kGutter;
  {
    const Tagged tag(canvas, "H2");
    canvas.text({left, area.top + 5.4 * kMm}, term.name, kTerm);
  }
  double y = area.top + type.first;
  for (const Paragraph& one : paragraphs_of(canvas, plan, term, type, row.words(area))) {
    draw_paragraph(canvas, one, type, {left, y});
    y += kParagraph + type.line * static_cast<double>(one.lines.size());
  }
}

void draw_top(Canvas& canvas, Area all, std::size_t page) {
  {
    const Tagged tag(canvas, page == 0 ? "H1" : "P");
    canvas.text({all.left, all.top + 6.0 * kMm}, "Twelve words for the floor of a lake", {18.0, true});
  }
  const Tagged tag(canvas, "P");
  canvas.ending({all.right(), all.top + 5.6 * kMm},
                fmt::format("Not for navigation \xC2\xB7 page {} of {}", page + 1, kPages), kBody);
  canvas.text(
      {all.left, all.top + 11.0 * kMm},
      "Left a map: a line each metre, darker is deeper, slanting lines are land. Right the section from A to B. "
      "The fish marks where one may wait.",
      kBody);
  canvas.text({all.left, all.top + 11.0 * kMm + kTextLine},
              "Why fish hold at such places is common practice, without a source; what a plan counts, and from where, "
              "stands beside each of its spots.",
              kBody);
}

}  // namespace

std::string glossary_pages(const Plan& plan) {
  const Paper paper = paper_of(plan.units);
  const Area all = within_margins(paper);
  Canvas canvas(paper.width, paper.height,
                teaching_info(plan, "Twelve words for the floor of a lake", false, std::string(kFile)));
  const double foot = all.bottom() - foot_height(plan, all.width, kFoot);
  const std::size_t rows = terms().size() / kPages;
  const double height = std::min(kMostRow, (foot - 1.5 * kMm - all.top - kHead) / static_cast<double>(rows));
  const Type* type = std::begin(kTypes);
  while (type + 1 != std::end(kTypes) && !fits(canvas, plan, *type, {height}, all)) ++type;
  std::vector<std::string> figures;
  {
    const Tagged document(canvas, "Document");
    for (std::size_t page = 0; page < kPages; ++page) {
      if (page > 0) canvas.next_page();
      draw_top(canvas, all, page);
      for (std::size_t row = 0; row < rows; ++row) {
        const Term& term = terms()[page * rows + row];
        draw_entry(canvas, plan, term, *type,
                   {all.left, all.top + kHead + height * static_cast<double>(row), all.width, height});
        figures.push_back(figure_words(term));
      }
    }
    draw_foot(canvas, plan, {all.left, foot, all.width, 0.0}, kFoot);
  }
  return finished_pdf(canvas.finish(), figures, std::string(kFile));
}

}  // namespace sheet

std::string glossary_pdf(const Plan& plan) { return sheet::glossary_pages(plan); }

}  // namespace castplan
