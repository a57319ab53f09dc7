// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "write/carried.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_map.hpp"
#include "write/sheet_parts.hpp"
#include "write/teaching.hpp"
#include "write/teaching_parts.hpp"
#include "write/to_check.hpp"

namespace castplan {
namespace sheet {
namespace {

constexpr std::string_view kFile = "to-check.pdf";
constexpr Foot kFoot{.file = kFile};
constexpr double kMap = 67.0 * kMm;
constexpr double kNumberColumn = 11.0 * kMm;
constexpr double kBox = 46.0 * kMm;
constexpr double kGap = 1.6 * kMm;
constexpr double kLeastRow = 11.0 * kMm;  // a box to write in

/// A row as it is printed.
struct Row {
  std::string number;
  std::vector<std::string> head, words;
  [[nodiscard]] double height() const {
    return std::max(kLeastRow, kGap + kTextLine * static_cast<double>(head.size() + words.size()));
  }
};

Row row_of_check(const Canvas& canvas, const Plan& plan, const Check& check, std::size_t number, double width) {
  Row row;
  row.number = std::to_string(number);

  const std::string head = one_line(fmt::format("{}: {}", check.label, place_words(plan, check.at)));
  row.head = wrapped(canvas, head, kBodyBold, width, 2);
  const std::string words =
      fmt::format("Look at {}. How: {}. It would change {}.", check.look_at, check.how, check.would_change);
  row.words = wrapped(canvas, one_line(words), kBody, width, 5);
  return row;
}

std::vector<Row> rows_that_fit(const Canvas& canvas, const Plan& plan, const std::vector<Check>& checks, Area area) {
  std::vector<Row> rows;
  double height = 0.0;
  for (const Check& check : checks) {
    Row row = row_of_check(canvas, plan, check, rows.size() + 1, area.width - kNumberColumn - kBox - 2.0 * kMm);
    height += row.height();
    if (height > area.height) break;
    rows.push_back(std::move(row));
  }
  return rows;
}

void draw_row(Canvas& canvas, const Row& row, Area area, double top) {
  const Tagged tag(canvas, "TR");
  {
    const Tagged cell(canvas, "TH");
    canvas.text({area.left, top + 7.0 * kMm}, row.number, {17.0, true});
  }
  {
    const Tagged cell(canvas, "TD");
    double y = top + kGap / 2.0 + kTextLine - 0.9 * kMm;
    for (const auto& [lines, font] : {std::pair{&row.head, kBodyBold}, std::pair{&row.words, kBody}}) {
      for (const std::string& line : *lines) {
        canvas.text({area.left + kNumberColumn, y}, line, font);
        y += kTextLine;
      }
    }
  }
  const Tagged cell(canvas, "TD");
  canvas.frame({area.right() - kBox, top + 0.6 * kMm, kBox, row.height() - 1.2 * kMm}, kRule);
}

void draw_rows(Canvas& canvas, const std::vector<Row>& rows, Area area) {
  const Tagged table(canvas, "Table");
  const Tagged body(canvas, "TBody");
  double y = area.top;
  for (const Row& row : rows) {
    draw_row(canvas, row, area, y);
    y += row.height();
    canvas.line({area.left, y}, {area.right() - kBox - 2.0 * kMm, y}, kHair);
  }
}

std::string note(std::size_t shown, std::size_t all, const Plan& plan) {
  if (all == 0) return "Nothing in the data is thin enough to ask for a look.";
  std::string out =
      "Where what is known is thin and the plan leans on it, the most telling place first; numbers are on the map. "
      "Write into the boxes what you found and when, and put it into the lake file.";
  if (shown < all) out += fmt::format(" {} more stand in to-check.csv.", all - shown);
  if (plan.not_assessed.empty()) return out;
  return out + " Not given, so not assessed: " + one_line(joined(plan.not_assessed, ", ")) + ".";
}

std::string check_page(const Plan& plan) {
  const Paper paper = paper_of(plan.units);
  const Area all = within_margins(paper);
  Canvas canvas(paper.width, paper.height, teaching_info(plan, "To check before the season", true, std::string(kFile)));
  std::vector<std::string> figures;
  {
    const Tagged document(canvas, "Document");
    double y = draw_header(canvas, plan, all);
    {
      const Tagged tag(canvas, "H2");
      y += 6.0 * kMm;
      canvas.text({all.left, y}, "To go and check before the season", kHeading);
    }
    const std::vector<Check> checks = to_check(plan, plan.units);
    const double foot = all.bottom() - foot_height(plan, all.width, kFoot);
    constexpr double kNote = 3.0 * 11.0 + 8.0;
    const double map_top = y + kNote;
    const Area area{all.left, map_top + kMap + 1.0 * kMm, all.width, foot - map_top - kMap - 2.0 * kMm};
    const std::vector<Row> rows = rows_that_fit(canvas, plan, checks, area);
    paragraph(canvas, note(rows.size(), checks.size(), plan), kBody, all, y + 1.0 * kMm, 3);
    std::vector<Mark> marks;
    for (std::size_t i = 0; i < rows.size(); ++i) marks.push_back({rows[i].number, checks[i].at});
    figures.push_back(draw_map(canvas, plan, {all.left, map_top, all.width, kMap}, marks));
    draw_rows(canvas, rows, area);
    draw_foot(canvas, plan, {all.left, foot, all.width, 0.0}, kFoot);
  }
  return finished_pdf(canvas.finish(), figures, std::string(kFile));
}

}  // namespace
}  // namespace sheet

std::string to_check_pdf(const Plan& plan) { return sheet::check_page(plan); }

}  // namespace castplan
