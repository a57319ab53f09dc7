// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "write/carried.hpp"
#include "write/contour_sheet.hpp"
#include "write/html_text.hpp"
#include "write/key_places.hpp"
#include "write/plain_text.hpp"
#include "write/teaching.hpp"
#include "write/teaching_parts.hpp"

namespace castplan {
namespace sheet {
namespace {

constexpr std::string_view kFile = "contours-key.pdf";
constexpr Foot kFoot{.file = kFile, .advisory = 0};
constexpr double kNumberColumn = 14.0 * kMm;
constexpr double kGap = 1.2 * kMm;

/// What is said of one place, as lines of the page.
struct Row {
  std::string label;
  std::vector<std::string> head, words;
};

// "r rock, p pool"
std::string feature_words(const KeyPlace& place) {
  std::vector<std::string> parts;
  for (const Feature* feature : place.features) {
    const std::string part = fmt::format("{} {}", key_letter(feature->kind), row_of(feature->kind).label);
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  }
  return joined(parts, ", ");
}

std::string cast_words(const Plan& plan, const Spot& spot) {
  const PrintedCast cast = printed_cast(plan, spot);
  return fmt::format("{}; cast {}, {} true, {}.", place_words(plan, spot.boat),
                     compass_words(Degrees(cast.bearing_deg)), bearing_text(Degrees(cast.bearing_deg)),
                     distance_text(Metres(cast.cast_m), plan.units));
}

Row row_of_place(const Canvas& canvas, const Plan& plan, const KeyPlace& place, double width, std::size_t most) {
  Row row;
  row.label = place.label;
  const Phase* phase = plan.phases.size() > 1 ? plan.phases[place.phase].phase : nullptr;
  const std::string when = phase != nullptr ? fmt::format("{}, {}: ", phase->title, phase_range_text(*phase)) : "";
  const std::string made_by = feature_words(place);
  row.head = wrapped(canvas,
                     one_line(fmt::format("{}{}{}.", when, depth_words(*place.spot, plan.units),
                                          phase == nullptr && !made_by.empty() ? "; " + made_by : "")),
                     kBodyBold, width, 2);
  std::vector<std::string> said{cast_words(plan, *place.spot)};
  if (phase != nullptr && !made_by.empty()) said.push_back(made_by + ".");
  said.push_back(sentence(place.spot->reason_words));
  for (const std::string& caution : place.spot->cautions) said.push_back(sentence(caution));
  row.words = wrapped(canvas, joined(said, " "), kBody, width, most);
  return row;
}

double height_of(const Row& row) { return kGap + kTextLine * static_cast<double>(row.head.size() + row.words.size()); }

void draw_row(Canvas& canvas, const Row& row, Area area, double y) {
  const Tagged tag(canvas, "TR");
  canvas.line({area.left, y}, {area.right(), y}, kHair);
  {
    const Tagged cell(canvas, "TH");
    canvas.text({area.left, y + kGap + 5.6 * kMm}, row.label, {20.0, true});
  }
  const Tagged cell(canvas, "TD");
  y += kGap + kTextLine - 0.9 * kMm;
  for (const auto& [lines, font] : {std::pair{&row.head, kBodyBold}, std::pair{&row.words, kBody}}) {
    for (const std::string& line : *lines) {
      canvas.text({area.left + kNumberColumn, y}, line, font);
      y += kTextLine;
    }
  }
}

// Rows of all places where they fit with fewer lines each, else of as many as fit.
std::vector<Row> rows_that_fit(const Canvas& canvas, const Plan& plan, const std::vector<KeyPlace>& places, Area area) {
  std::vector<Row> rows;
  for (const std::size_t most : {5U, 3U, 2U}) {
    rows.clear();
    double height = 0.0;
    for (const KeyPlace& place : places) {
      Row row = row_of_place(canvas, plan, place, area.width - kNumberColumn, most);
      height += height_of(row);
      if (height <= area.height) rows.push_back(std::move(row));
    }
    if (rows.size() == places.size()) break;
  }
  return rows;
}

void draw_places(Canvas& canvas, const std::vector<Row>& rows, Area area) {
  const Tagged table(canvas, "Table");
  const Tagged body(canvas, "TBody");
  double y = area.top;
  for (const Row& row : rows) {
    draw_row(canvas, row, area, y);
    y += height_of(row);
  }
}

// In place of the rows: that there are no spots, why, and what each letter means.
void draw_none(Canvas& canvas, const Plan& plan, const std::vector<Lettered>& features, Area area) {
  std::string why = advisory_words(plan);
  if (why.empty() && !plan.phases.empty()) why = sentence(plan.phases.front().why_none);
  {
    const Tagged tag(canvas, "H2");
    canvas.text({area.left, area.top + 6.0 * kMm}, "No spots: the features alone", kHeading);
  }
  double y = paragraph(canvas, why, {12.0}, area, area.top + 8.0 * kMm, 6) + 2.0 * kMm;
  for (const Lettered& one : features) {
    const KindRow& row = row_of(one.feature->kind);
    const auto count = std::count_if(plan.features.begin(), plan.features.end(),
                                     [&](const Feature& feature) { return feature.kind == row.kind; });
    if (y + kTextLine > area.bottom()) break;
    y += kTextLine;
    const Tagged tag(canvas, "P");
    canvas.text({area.left, y}, one.letter, kBodyBold);
    canvas.text({area.left + 6.0 * kMm, y}, fmt::format("{}: {}; {} on this lake", row.label, row.what, count), kBody);
  }
}

std::string legend_words(const std::vector<Lettered>& features) {
  std::vector<std::string> parts;
  for (const Lettered& one : features) {
    const std::string part = fmt::format("{} {}", one.letter, row_of(one.feature->kind).label);
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  }
  std::sort(parts.begin(), parts.end());
  return parts.empty() ? "" : "Letters: " + joined(parts, ", ") + ".";
}

std::string key_note(const Plan& plan, std::size_t shown, std::size_t wanted) {
  if (plan.phases.size() > 1 && shown > 0) {
    return fmt::format("Answer key: the best place of each phase, by the letter of its row.{}",
                       shown < wanted ? " The page has the others." : "");
  }
  std::size_t all = 0;
  for (const PhaseSpots* phase : phases_with_spots(plan)) all += phase->spots.size();
  if (shown == 0) return "Answer key: the features of the lake.";
  return fmt::format("Answer key: the {} best of {} spots, by rank. Other places may be as good: ask for the reason.",
                     shown, all);
}

}  // namespace

std::string key_page(const Plan& plan) {
  const Paper paper = paper_of(plan.units);
  const Area all = within_margins(paper);
  Canvas canvas(paper.width, paper.height, teaching_info(plan, "Answer key", true, std::string(kFile)));
  std::vector<std::string> figures;
  {
    const Tagged document(canvas, "Document");
    const double under = draw_header(canvas, plan, all);
    const Area map = contour_map_area(all);
    std::vector<KeyPlace> places = key_places(plan);
    const double foot = all.bottom() - foot_height(plan, all.width, kFoot);
    // the advisory and the letters stand between the map and the rows: how high they are is known once they are drawn
    const double legend = map.bottom() + 1.0 * kMm;
    Canvas scratch(paper.width, paper.height, {});
    const auto above_rows = [&](Canvas& on, const std::string& letters) {
      const double y = paragraph(on, letters, kBody, {all.left, legend, all.width, 0.0}, legend, 2);
      return draw_advisory(on, plan, {all.left, y + 0.6 * kMm, all.width, 0.0});
    };
    const double rows_top = above_rows(scratch, legend_words(key_features(plan, places)));
    const Area area{all.left, rows_top, all.width, foot - 1.0 * kMm - rows_top};
    const std::vector<Row> rows = rows_that_fit(canvas, plan, places, area);
    const std::size_t wanted = places.size();
    places.resize(rows.size());
    MapLook look;
    look.shaded = look.dangers = false;
    look.features = key_features(plan, places);
    {
      const Tagged tag(canvas, "H2");
      canvas.text({all.left, under + 6.0 * kMm}, key_note(plan, places.size(), wanted), {12.0, true});
    }
    figures.push_back(draw_map(canvas, plan, map, key_marks(plan, places), look));
    above_rows(canvas, legend_words(look.features));
    rows.empty() ? draw_none(canvas, plan, look.features, area) : draw_places(canvas, rows, area);
    draw_foot(canvas, plan, {all.left, foot, all.width, 0.0}, kFoot);
  }
  return finished_pdf(canvas.finish(), figures, std::string(kFile));
}

}  // namespace sheet

std::string contours_key_pdf(const Plan& plan) { return sheet::key_page(plan); }

}  // namespace castplan
