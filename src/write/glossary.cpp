// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "write/glossary_terms.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"
#include "write/teaching.hpp"
#include "write/teaching_parts.hpp"

namespace castplan {
namespace sheet {
namespace {

constexpr std::string_view kFile = "glossary.pdf";
constexpr std::size_t kPages = 2;
constexpr double kHead = 19.0 * kMm;
constexpr double kMostRow = 39.0 * kMm;
constexpr double kDrawings = 82.0 * kMm;
constexpr double kGutter = 4.0 * kMm;
constexpr double kLine = 4.15 * kMm;
constexpr Font kText{10.0};
constexpr Font kTextBold{10.0, true};
constexpr Font kTerm{14.0, true};

// Why fish hold there, in words that name the planned one where the text was written for it.
std::string holds_words(const Plan& plan) {
  const bool muskellunge = plan.profile != nullptr && plan.profile->name == "muskellunge";
  return muskellunge ? "Why a muskellunge holds there: " : "Why a big predator holds there: ";
}

double draw_lines(Canvas& canvas, const std::string& text, Font font, Area area, double y) {
  const Tagged tag(canvas, "P");
  for (const std::string& line : wrapped(canvas, text, font, area.width)) {
    canvas.text({area.left, y}, line, font);
    y += kLine;
  }
  return y;
}

// A bold lead, its text going on behind it.
double draw_led(Canvas& canvas, const std::string& lead, std::string_view text, Area area, double y) {
  const Tagged tag(canvas, "P");
  const double indent = canvas.width_of(lead, kTextBold);
  canvas.text({area.left, y}, lead, kTextBold);
  const std::vector<std::string> first = wrapped(canvas, std::string(text), kText, area.width - indent);
  canvas.text({area.left + indent, y}, first.front(), kText);
  y += kLine;
  if (first.size() == 1) return y;
  const std::string rest(text.substr(first.front().size() + 1));
  for (const std::string& line : wrapped(canvas, rest, kText, area.width)) {
    canvas.text({area.left, y}, line, kText);
    y += kLine;
  }
  return y;
}

std::string figure_words(const Term& term) {
  if (term.layers) return fmt::format("{}: temperature against depth, and a section of a layered lake.", term.name);
  return fmt::format("{}: a map with contours, a line each metre, darker is deeper, and the section from A to B.",
                     term.name);
}

void draw_entry(Canvas& canvas, const Plan& plan, const Term& term, Area area) {
  canvas.line({area.left, area.top}, {area.right(), area.top}, kHair);
  {
    const Tagged tag(canvas, "Figure");
    draw_term(canvas, term, {area.left, area.top + 1.5 * kMm, kDrawings, area.height - 3.0 * kMm});
  }
  const double left = area.left + kDrawings + kGutter;
  const Area text{left, area.top, area.right() - left, area.height};
  {
    const Tagged tag(canvas, "H2");
    canvas.text({left, area.top + 5.6 * kMm}, term.name, kTerm);
  }
  double y = area.top + 10.4 * kMm;
  y = draw_lines(canvas, std::string(term.what), kText, text, y);
  y = draw_led(canvas, "On a sounder: ", term.sounder, text, y + 0.5 * kMm);
  draw_led(canvas, holds_words(plan), term.why, text, y + 0.5 * kMm);
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
  const double foot = all.bottom() - foot_height(plan, all.width, kFile, true);
  const std::size_t rows = terms().size() / kPages;
  const double height = std::min(kMostRow, (foot - 1.5 * kMm - all.top - kHead) / static_cast<double>(rows));
  std::vector<std::string> figures;
  {
    const Tagged document(canvas, "Document");
    for (std::size_t page = 0; page < kPages; ++page) {
      if (page > 0) canvas.next_page();
      draw_top(canvas, all, page);
      for (std::size_t row = 0; row < rows; ++row) {
        const Term& term = terms()[page * rows + row];
        draw_entry(canvas, plan, term,
                   {all.left, all.top + kHead + height * static_cast<double>(row), all.width, height});
        figures.push_back(figure_words(term));
      }
    }
    draw_foot(canvas, plan, {all.left, foot, all.width, 0.0}, kFile, true);
  }
  return finished_pdf(canvas.finish(), figures, std::string(kFile));
}

}  // namespace sheet

std::string glossary_pdf(const Plan& plan) { return sheet::glossary_pages(plan); }

}  // namespace castplan
