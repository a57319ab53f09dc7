// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "castplan/season/season.hpp"
#include "write/carried.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"

namespace castplan::sheet {
namespace {

constexpr double kLine = 4.9 * kMm;
constexpr double kGap = 1.4 * kMm;
constexpr std::size_t kBest = 3;
constexpr std::size_t kMostLines = 6;

struct Row {
  std::string title, range, spots;
  std::vector<std::string> words;
};

Row row_of(const Canvas& canvas, const Plan& plan, std::size_t number, double width, bool with_what) {
  const PhaseSpots& phase = plan.phases[number];
  Row row;
  row.title = fmt::format("{} {}", phase_letter(plan, number), phase.phase->title);
  row.range = phase_range_text(*phase.phase);
  row.spots = joined(best_labels(plan, number, kBest), " ");
  if (row.spots.empty()) row.spots = phase.phase->fishable && !plan.season.no_spots ? "none" : "no fishing";
  std::string words = with_what ? one_line(phase.phase->what) + " " : std::string();
  words += phase.phase->fishable || phase.phase->stop_reason.empty() ? one_line(phase.phase->where)
                                                                     : one_line(phase.phase->stop_reason);
  row.words = wrapped(canvas, words, kTable, width, kMostLines);
  return row;
}

double height_of(const std::vector<Row>& rows) {
  double height = 0.0;
  for (const Row& row : rows) height += kGap + kLine * (1.0 + static_cast<double>(row.words.size()));
  return height;
}

void draw_row(Canvas& canvas, const Row& row, Area area, double top) {
  const Tagged tag(canvas, "TR");
  const double y = top + kLine - 0.4 * kMm;
  const double spots = canvas.width_of(row.spots, kTableBold);
  {
    const Tagged cell(canvas, "TH");
    canvas.text({area.left, y}, row.title, kTableBold);
  }
  {
    const Tagged cell(canvas, "TD");
    const double left = area.left + canvas.width_of(row.title, kTableBold) + 3.0 * kMm;
    canvas.text({left, y}, fitted(canvas, row.range, kTable, area.right() - spots - 3.0 * kMm - left), kTable);
  }
  {
    const Tagged cell(canvas, "TD");
    canvas.ending({area.right(), y}, row.spots, kTableBold);
  }
  const Tagged cell(canvas, "TD");
  for (std::size_t i = 0; i < row.words.size(); ++i) {
    canvas.text({area.left, y + kLine * (static_cast<double>(i) + 1.0)}, row.words[i], kTable);
  }
}

}  // namespace

std::vector<std::string> best_labels(const Plan& plan, std::size_t phase, std::size_t most) {
  std::vector<std::string> out;
  for (const Spot& spot : shown_spots(plan, phase)) {
    if (out.size() < most) out.push_back(spot_label(plan, phase, spot));
  }
  return out;
}

double draw_season(Canvas& canvas, const Plan& plan, Area area) {
  double y = area.top;
  const std::string note =
      "No water temperature was given: measure before you choose a row. Letter and number name a spot as on the page; "
      "the number is its rank in the phase. The letters on the map stand at the best spot of each phase; the page "
      "shows all spots.";
  {
    const Tagged tag(canvas, "P");
    for (const std::string& line : wrapped(canvas, note, kBody, area.width, 2)) {
      canvas.text({area.left, y + 3.0 * kMm}, line, kBody);
      y += 3.9 * kMm;
    }
    y += 1.0 * kMm;
  }
  std::vector<Row> rows;
  for (const bool with_what : {true, false}) {
    rows.clear();
    for (std::size_t i = 0; i < plan.phases.size(); ++i) {
      if (plan.phases[i].phase != nullptr) rows.push_back(row_of(canvas, plan, i, area.width, with_what));
    }
    if (y + height_of(rows) <= area.bottom()) break;
  }
  const Tagged table(canvas, "Table");
  const Tagged body(canvas, "TBody");
  for (const Row& row : rows) {
    canvas.line({area.left, y}, {area.right(), y}, kHair);
    draw_row(canvas, row, area, y);
    y += kGap + kLine * (1.0 + static_cast<double>(row.words.size()));
  }
  canvas.line({area.left, y}, {area.right(), y}, kRule);
  return y;
}

}  // namespace castplan::sheet
