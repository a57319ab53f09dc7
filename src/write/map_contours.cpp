// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "write/map_page.hpp"
#include "write/svg_path.hpp"

namespace castplan {
namespace {

constexpr double kShortest = 8.0;       // pixels of the depth picture: shorter lines are specks
constexpr double kLabelled = 130.0;     // lines from this length carry their depth
constexpr double kLabelSpacing = 75.0;  // between two labels
constexpr double kLabelRepeat = 900.0;  // a long line says it again
constexpr std::size_t kMostLabels = 120;

struct Label {
  XY place;
  double turn;  ///< degrees clockwise on the page, -90 to 90: never upside down
  double in_unit;
  bool minor;  ///< left out where the page is narrow
};

double nearest(const std::vector<Label>& labels, XY place) {
  double least = 1e30;
  for (const Label& label : labels) least = std::min(least, distance(label.place, place).value());
  return least;
}

/// Longest lines first, so that what is left out is small.
std::vector<Label> placed_labels(const MapPage& page, Units units) {
  std::vector<Contour> lines = depth_contours(*page.plan.lake, page.view, units);
  std::stable_sort(lines.begin(), lines.end(),
                   [](const Contour& a, const Contour& b) { return length(a.line) > length(b.line); });
  const double pixel = page.view.pixel().value();
  std::vector<Label> labels;
  for (const Contour& contour : lines) {
    const double pixels = length(contour.line).value() / pixel;
    if (pixels < kLabelled || labels.size() >= kMostLabels) break;
    const int count = 1 + static_cast<int>(std::min(5.0, pixels / kLabelRepeat));
    for (int i = 0; i < count; ++i) {
      for (const double nudge : {0.0, 0.12, -0.12, 0.24}) {
        const double share = std::clamp((i + 0.5 + nudge) / count, 0.0, 1.0);
        const XY place = point_along(contour.line, share);
        const double near = nearest(labels, place) / pixel;
        if (near < kLabelSpacing) continue;
        labels.push_back({place, reading_turn(contour.line, share), contour.in_unit, near < 2.6 * kLabelSpacing});
        break;
      }
    }
  }
  return labels;
}

}  // namespace

double reading_turn(const Line& line, double share) {
  const double step = std::min(0.02, 12.0 / std::max(12.0, length(line).value()));
  const XY along = point_along(line, std::min(1.0, share + step)) - point_along(line, std::max(0.0, share - step));
  double turn = std::atan2(-along.y, along.x) * 180.0 / 3.14159265358979323846;
  if (turn > 90.0) turn -= 180.0;
  if (turn <= -90.0) turn += 180.0;
  return turn;
}

std::vector<Contour> depth_contours(const Lake& lake, const MapView& view, Units units) {
  const ContourStep step = contour_step(lake.max_depth, units);
  const Grid<Metres32> field = contour_field(lake, view);
  const double shortest = kShortest * view.pixel().value();
  std::vector<Contour> out;
  for (int i = 1; i * step.metres < lake.max_depth.value(); ++i) {
    for (const Line& line : isolines(field, static_cast<float>(i * step.metres))) {
      if (length(line).value() >= shortest) out.push_back({i * step.in_unit, line});
    }
  }
  return out;
}

std::string contour_paths(const MapPage& page, Units units) {
  std::string out;
  double open = -1.0;
  for (const Contour& contour : depth_contours(*page.plan.lake, page.view, units)) {
    const std::string path = svg_path(page.view, simplified(contour.line, page.view.pixel()));
    if (path.empty()) continue;
    if (contour.in_unit != open) out += out.empty() ? "<path d=\"" : "\"/>\n<path d=\"";
    open = contour.in_unit;
    out += path;
  }
  return out.empty() ? out : out + "\"/>";
}

std::string contour_labels(const MapPage& page, Units units) {
  std::string out;
  for (const Label& label : placed_labels(page, units)) {
    const XY at = page.view.percent(label.place);
    out += fmt::format("<span class=\"depth {}{}\" style=\"left:{:.2f}%;top:{:.2f}%;--turn:{:.0f}deg\">{}</span>\n",
                       units == Units::metric ? "in-m" : "in-ft", label.minor ? " minor" : "", at.x, at.y, label.turn,
                       label.in_unit);
  }
  return out;
}

}  // namespace castplan
