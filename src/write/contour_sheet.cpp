// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/contour_sheet.hpp"

#include <algorithm>
#include <array>

#include "write/sheet_map.hpp"
#include "write/teaching.hpp"
#include "write/teaching_parts.hpp"

namespace castplan {
namespace sheet {
namespace {

constexpr std::string_view kFile = "contours.pdf";
constexpr Foot kFoot{.file = kFile};
constexpr std::string_view kTask = "Mark three places where you would cast, and say why.";
constexpr double kHead = 6.4 * kMm;
constexpr double kMostRow = 30.0 * kMm;
constexpr int kPlaces = 3;

// What the task is, and lines for who does it.
void draw_task(Canvas& canvas, const Plan& plan, Area area) {
  const double y = area.top + 6.0 * kMm;
  {
    const Tagged tag(canvas, "H2");
    canvas.text({area.left, y}, kTask, kHeading);
  }
  const Tagged tag(canvas, "P");
  const std::string words = plan.phases.size() > 1 ? "Name, season" : "Name";
  const double from = area.left + canvas.width_of(kTask, kHeading) + 7.0 * kMm;
  canvas.text({from, y}, words, kBody);
  canvas.line({from + canvas.width_of(words, kBody) + 3.0, y + 1.0}, {area.right(), y + 1.0}, kHair);
}

// Three rows to write on.
void draw_rows(Canvas& canvas, Area area) {
  const std::array<double, 4> lefts{area.left, area.left + 10.0 * kMm, area.left + 52.0 * kMm, area.left + 78.0 * kMm};
  const Tagged table(canvas, "Table");
  {
    const Tagged group(canvas, "THead");
    const Tagged row(canvas, "TR");
    constexpr std::array<const char*, 4> kHeads{"", "place, in words", "depth", "why there: what makes a fish hold"};
    for (std::size_t i = 0; i < lefts.size(); ++i) {
      const Tagged cell(canvas, "TH");
      canvas.text({lefts[i] + (i > 0 ? 1.5 * kMm : 0.0), area.top + kHead - 1.8 * kMm}, kHeads[i], kTableBold);
    }
  }
  const Tagged body(canvas, "TBody");
  const double height = std::min(kMostRow, (area.height - kHead) / kPlaces);
  for (int i = 0; i < kPlaces; ++i) {
    const double y = area.top + kHead + i * height;
    const Tagged row(canvas, "TR");
    const Tagged cell(canvas, "TH");
    canvas.text({area.left + 2.5 * kMm, y + height / 2.0 + 6.0}, std::to_string(i + 1), {17.0, true});
    canvas.frame({area.left, y, area.width, height}, kRule);
    for (std::size_t at = 1; at < lefts.size(); ++at) canvas.line({lefts[at], y}, {lefts[at], y + height}, kHair);
  }
}

}  // namespace
}  // namespace sheet

std::string contours_pdf(const Plan& plan) {
  using namespace sheet;
  const Paper paper = paper_of(plan.units);
  const Area all = within_margins(paper);
  Canvas canvas(paper.width, paper.height, teaching_info(plan, "Contour sheet", false, std::string(kFile)));
  std::vector<std::string> figures;
  {
    const Tagged document(canvas, "Document");
    const double y = draw_header(canvas, plan, all, "CONTOUR SHEET");
    draw_task(canvas, plan, {all.left, y, all.width, 0.0});
    const Area map = contour_map_area(all);
    MapLook look;
    look.shaded = look.dangers = false;
    figures.push_back(draw_map(canvas, plan, map, {}, look));
    const double foot = all.bottom() - foot_height(plan, all.width, kFoot);
    const double top = map.bottom() + 1.0 * kMm;
    draw_rows(canvas, {all.left, top, all.width, foot - 2.0 * kMm - top});
    draw_foot(canvas, plan, {all.left, foot, all.width, 0.0}, kFoot);
  }
  return finished_pdf(canvas.finish(), figures, std::string(kFile));
}

}  // namespace castplan
