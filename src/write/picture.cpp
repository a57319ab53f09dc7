// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "castplan/write/text.hpp"
#include "write/carried.hpp"
#include "write/depth_picture.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"

namespace castplan {
namespace sheet {
namespace {

constexpr double kWidth = 800.0;  // points
constexpr double kMargin = 20.0;
constexpr double kDots = 2.5;  // a point: 2000 across
constexpr double kMostMap = 1000.0;
constexpr std::size_t kBestOfEach = 3;

constexpr Area kInside{kMargin, kMargin, kWidth - 2.0 * kMargin, 0.0};

double paragraph(Canvas& canvas, const std::string& text, Font font, double y, std::size_t most = 1000) {
  for (const std::string& line : wrapped(canvas, text, font, kInside.width, most)) {
    y += font.size * 1.25;
    canvas.text({kInside.left, y}, line, font);
  }
  return y + font.size * 0.4;
}

double draw_above(Canvas& canvas, const Plan& plan) {
  const double y = draw_advisory(canvas, plan, {kInside.left, draw_header(canvas, plan, kInside), kInside.width, 0.0});
  if (!plan.season.no_spots) return y + 4.0;
  return paragraph(canvas, "No spots. " + joined(stop_lines(plan), " "), {12.0, true}, y) + 4.0;
}

// "A Pre-spawn, B Early summer", and that only the best are drawn.
std::string letters_text(const Plan& plan) {
  std::vector<std::string> letters;
  for (std::size_t i = 0; plan.phases.size() > 1 && i < plan.phases.size(); ++i) {
    if (shown_spots(plan, i).empty()) continue;
    letters.push_back(phase_letter(plan, i) + " " + temperatures_text(plan, plan.phases[i].phase));
  }
  if (letters.empty()) return {};
  return fmt::format("Letters stand for phases: {}. The best {} of each are drawn; the rest stand in the other files.",
                     joined(letters, "; "), kBestOfEach);
}

double draw_below(Canvas& canvas, const Plan& plan, double y) {
  const std::string letters = letters_text(plan);
  if (!letters.empty()) y = paragraph(canvas, letters, kPictureText, y);
  y = paragraph(canvas, joined(carried_facts(plan, nullptr), " "), kPictureText, y);
  y = paragraph(canvas, "Not for navigation.", {12.0, true}, y);
  y = paragraph(canvas, joined(carried_cautions(plan), " "), kPictureText, y);
  return paragraph(canvas, program_text(), kPictureText, y) + kMargin;
}

std::string title_of(const Plan& plan) {
  return fmt::format("Depth map of {}. PRIVATE: EXACT PLACES", shortened(one_line(plan.lake_name), 200));
}

std::string text_of(const Plan& plan, std::size_t spots) {
  std::vector<std::string> parts{fmt::format("{} numbered spots; darker is deeper.", spots), letters_text(plan),
                                 program_text() + "."};
  for (const std::string& caution : carried_cautions(plan)) parts.push_back(caution);
  for (const std::string& fact : carried_facts(plan, nullptr)) parts.push_back(fact);
  return joined(parts, " ");
}

MapView view_for(const Plan& plan, const std::vector<PictureSpot>& spots) {
  Points also;
  for (const PictureSpot& spot : spots) also.push_back(spot.spot->boat);
  const Frame& frame = plan.lake->depth.frame();
  for (const Feature& feature : plan.features) {
    if (feature.kind == Kind::launch && frame.holds(frame.cell_at(feature.anchor))) also.push_back(feature.anchor);
  }
  return view_of(*plan.lake, also);
}

// The same drawing for both kinds; its height follows from what stands in it, which is drawn once to be measured.
double draw(Canvas& canvas, const Plan& plan) {
  const std::vector<PictureSpot> spots = picture_spots(plan);
  const MapView view = view_for(plan, spots);
  const double top = draw_above(canvas, plan);
  const double scale = std::min(kInside.width / view.width(), kMostMap / view.height());
  const double width = view.width() * scale;
  const Area area{kInside.left + (kInside.width - width) / 2.0, top, width, view.height() * scale};
  const Map map{canvas, plan, area, view, scale};
  draw_picture_map(map, spots);
  const Map key{canvas, plan, {kInside.left, top, kInside.width, area.height}, view, scale};
  return draw_below(canvas, plan, draw_picture_key(key, area.bottom()));
}

std::string picture(const Plan& plan, PictureKind kind) {
  assert(plan.lake != nullptr);
  double height = 0.0;
  {
    Canvas scratch(PictureKind::svg, kWidth, kWidth, kDots);
    height = std::ceil(draw(scratch, plan));
  }
  Canvas canvas(kind, kWidth, height, kDots);
  draw(canvas, plan);
  const std::string bytes = canvas.finish();
  const std::string title = title_of(plan);
  const std::string text = text_of(plan, picture_spots(plan).size());
  return kind == PictureKind::png ? with_png_text(bytes, title, text) : with_svg_text(bytes, title, text);
}

}  // namespace

std::vector<PictureSpot> picture_spots(const Plan& plan) {
  std::vector<PictureSpot> out;
  for (std::size_t phase = 0; phase < plan.phases.size(); ++phase) {
    for (const Spot& spot : shown_spots(plan, phase)) {
      if (plan.phases.size() > 1 && spot.rank > static_cast<int>(kBestOfEach)) continue;
      out.push_back({spot_label(plan, phase, spot), &spot});
    }
  }
  return out;
}

}  // namespace sheet

std::string map_png(const Plan& plan) { return sheet::picture(plan, sheet::PictureKind::png); }

std::string map_svg(const Plan& plan) { return sheet::picture(plan, sheet::PictureKind::svg); }

}  // namespace castplan
