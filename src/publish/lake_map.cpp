// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/lake_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "castplan/geo/planar.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/write/ramp.hpp"
#include "publish/drawn_path.hpp"
#include "publish/kind_art.hpp"
#include "publish/site_text.hpp"

namespace castplan {
namespace {

constexpr double kLabelled = 150.0, kLabelSpacing = 90.0;  // drawing units

std::string colour_at(double share) {
  const Colour c = ramp_colour(share);
  return fmt::format("#{:02x}{:02x}{:02x}", c[0], c[1], c[2]);
}

double deepest(const PublicLake& lake) {
  return lake.max_depth_m.value_or(lake.contours.empty() ? 1.0 : lake.contours.back().depth_m);
}

// Water first, then each area that is deeper, darker, over what is shallower.
std::string depths_svg(const PublicLake& lake, const MapPlane& plane) {
  std::string fills, lines;
  for (const DepthArea& part : lake.depth_areas) {
    const std::string path = drawn_path(plane, Geometry(part.degrees));
    if (path.empty()) continue;
    fills += fmt::format("<path fill=\"{}\" d=\"{}\"/>\n", colour_at(ramp_share(part.depth_m, deepest(lake))), path);
  }
  for (const DepthLine& contour : lake.contours) {
    const std::string path = drawn_path(plane, Geometry(contour.degrees));
    if (!path.empty()) lines += fmt::format("<path d=\"{}\"/>\n", path);
  }
  return fmt::format(
      "<path class=\"water\" fill=\"{}\" d=\"{}\"/>\n<g class=\"fills\">\n{}</g>\n<g "
      "class=\"contours\">\n{}</g>\n<path class=\"shore\" d=\"{}\"/>\n",
      colour_at(0.0), drawn_path(plane, lake.outline), fills, lines, drawn_shore(plane, lake.outline));
}

struct Label {
  XY at;
  double turn;
  double depth_m;
};

double reading_turn(const Line& line, double share) {
  const double step = std::min(0.02, 8.0 / std::max(8.0, length(line).value()));
  const XY along = point_along(line, std::min(1.0, share + step)) - point_along(line, std::max(0.0, share - step));
  double turn = std::atan2(along.y, along.x) * 180.0 / 3.14159265358979323846;
  if (turn > 90.0) turn -= 180.0;
  if (turn <= -90.0) turn += 180.0;
  return turn;
}

std::vector<Label> labels_of(const PublicLake& lake, const MapPlane& plane) {
  std::vector<std::pair<Line, double>> lines;
  for (const DepthLine& contour : lake.contours) {
    for (const Line& line : contour.degrees) lines.emplace_back(drawn_line(plane, line), contour.depth_m);
  }
  std::stable_sort(lines.begin(), lines.end(),
                   [](const auto& a, const auto& b) { return length(a.first) > length(b.first); });
  std::vector<Label> out;
  for (const auto& [line, depth] : lines) {
    if (line.size() < 2 || length(line).value() < kLabelled) continue;
    for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) {
      const XY at = point_along(line, share);
      const bool free = std::all_of(out.begin(), out.end(), [&, place = at](const Label& other) {
        return distance(other.at, place).value() >= kLabelSpacing;
      });
      if (!free) continue;
      out.push_back({at, reading_turn(line, share), depth});
      break;
    }
  }
  return out;
}

std::string labels_svg(const PublicLake& lake, const MapPlane& plane) {
  std::string out;
  for (const Label& label : labels_of(lake, plane)) {
    out += fmt::format(
        "<text class=\"depth\" transform=\"translate({:.1f} {:.1f}) rotate({:.0f})\" dy=\"5\">{:g}</text>\n",
        label.at.x, label.at.y, label.turn, label.depth_m);
  }
  return out;
}

std::string feature_svg(const PublicFeature& feature, const MapPlane& plane) {
  const KindMark& mark = mark_of(feature.kind);
  std::string out;
  if (const auto* points = std::get_if<Points>(&feature.degrees)) {
    for (const XY at : *points) {
      const XY place = plane.drawn(at);
      out += fmt::format(
          "<g transform=\"translate({:.1f} {:.1f})\"><path class=\"halo\" d=\"{}\"/><path "
          "class=\"sign\" d=\"{}\"/></g>",
          place.x, place.y, mark.symbol, mark.symbol);
    }
    return out;
  }
  const std::string path = drawn_path(plane, feature.degrees);
  if (path.empty()) return {};
  return fmt::format("<path class=\"halo\" d=\"{0}\"/><path class=\"ink\" d=\"{0}\"/>", path);
}

std::string features_svg(const PublicLake& lake, const MapPlane& plane) {
  std::string out;
  for (const KindRow& row : kinds()) {
    std::string group;
    for (const PublicFeature& feature : lake.features) {
      if (feature.kind == row.kind) group += feature_svg(feature, plane);
    }
    if (!group.empty()) out += fmt::format("<g class=\"k-{}\">{}</g>\n", row.name, group);
  }
  return out;
}

// Where marks stand so that none covers another: each at its place, else on the first free place on rings about it.
std::vector<XY> set_apart(const std::vector<XY>& wanted, XY half, const MapPlane& plane) {
  std::vector<XY> out;
  for (const XY at : wanted) {
    const auto inside = [&](XY place) {
      return XY{std::clamp(place.x, half.x, plane.width() - half.x),
                std::clamp(place.y, half.y, plane.height() - half.y)};
    };
    XY best = inside(at);
    for (int ring = 0; ring < 12; ++ring) {
      bool found = false;
      for (int step = 0; step < (ring == 0 ? 1 : 12) && !found; ++step) {
        const double angle = step * 3.14159265358979323846 / 6.0;
        const XY place = inside(at + XY{std::cos(angle), std::sin(angle)} * (ring * (half.x + half.y) * 0.6));
        found = std::none_of(out.begin(), out.end(), [&](XY other) {
          return std::abs(other.x - place.x) < 2.0 * half.x && std::abs(other.y - place.y) < 2.0 * half.y;
        });
        if (found) best = place;
      }
      if (found) break;
    }
    out.push_back(best);
  }
  return out;
}

// From a mark that was moved back to its place.
std::string lead_svg(XY place, XY mark) {
  if (distance(place, mark).value() < 12.0) return {};
  return fmt::format(
      "<path class=\"lead-halo\" d=\"M{0:.1f} {1:.1f}L{2:.1f} {3:.1f}\"/><path class=\"lead\" d=\"M{0:.1f} "
      "{1:.1f}L{2:.1f} {3:.1f}\"/>\n",
      place.x, place.y, mark.x, mark.y);
}

std::string areas_svg(const PublicLake& lake, const MapPlane& plane) {
  std::string out, tags;
  std::vector<XY> wanted;
  for (const CoarseArea& area : lake.areas) {
    const CellEdges& own = area.cells[0];
    wanted.push_back(plane.drawn(
        XY{static_cast<double>(own.west + own.east) / 2e6, static_cast<double>(own.south + own.north) / 2e6}));
  }
  const std::vector<XY> places = set_apart(wanted, {36.0, 20.0}, plane);
  for (std::size_t at = 0; at < lake.areas.size(); ++at) {
    std::string squares;
    for (const CellEdges& cell : lake.areas[at].cells) squares += drawn_square(plane, cell);
    out += fmt::format("<path class=\"square-halo\" d=\"{0}\"/><path class=\"square\" d=\"{0}\"/>\n", squares);
    out += lead_svg(wanted[at], places[at]);
    tags += fmt::format(
        "<g transform=\"translate({:.1f} {:.1f})\"><rect class=\"tag\" x=\"-34\" y=\"-18\" width=\"68\" "
        "height=\"36\" rx=\"4\"/><text class=\"count\" dy=\"8\">{}: {}</text></g>\n",
        places[at].x, places[at].y, letters(at), lake.areas[at].spots());
  }
  return out + tags;
}

std::string exact_svg(const ExactPlaces& exact, const MapPlane& plane) {
  std::string out;
  for (const ExactPass& pass : exact.passes) {
    const std::string path = drawn_path(plane, Geometry(pass.lane));
    out += fmt::format("<path class=\"pass-halo\" d=\"{0}\"/><path class=\"pass\" d=\"{0}\"/>\n", path);
  }
  std::string casts, marks;
  std::vector<XY> boats;
  for (const ExactSpot& spot : exact.spots) boats.push_back(plane.drawn(spot.boat));
  const std::vector<XY> places = set_apart(boats, {16.0, 16.0}, plane);
  for (std::size_t at = 0; at < boats.size(); ++at) {
    const XY boat = boats[at], target = plane.drawn(exact.spots[at].target);
    casts +=
        fmt::format("<path class=\"cast\" d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\"/>\n", boat.x, boat.y, target.x, target.y);
    casts += lead_svg(boat, places[at]);
    marks += fmt::format(
        "<g transform=\"translate({:.1f} {:.1f})\"><circle class=\"spot\" r=\"15\"/><text class=\"rank\" "
        "dy=\"6\">{}</text></g>\n",
        places[at].x, places[at].y, exact.spots[at].rank);
  }
  return out + casts + marks;
}

// A round length of about a fifth of the width.
std::string scale_svg(const MapPlane& plane) {
  const double wanted = plane.width() * plane.metres_a_unit() / 5.0;
  double metres = std::pow(10.0, std::floor(std::log10(wanted)));
  for (const double times : {5.0, 2.0}) {
    if (metres * times <= wanted) {
      metres *= times;
      break;
    }
  }
  const double width = metres / plane.metres_a_unit();
  const double y = plane.height() - 22.0;
  const std::string text = metres >= 1000.0 ? fmt::format("{:g} km", metres / 1000.0) : fmt::format("{:g} m", metres);
  return fmt::format(
      "<path class=\"scale\" d=\"M24 {0:.1f}v10h{1:.1f}v-10\"/><text class=\"scale-text\" x=\"{2:.1f}\" "
      "y=\"{3:.1f}\">{4}</text>\n<path class=\"north\" d=\"M{5:.1f} 62v-34l-9 14m9-14l9 14\"/><text "
      "class=\"scale-text\" x=\"{6:.1f}\" y=\"22\">N</text>\n",
      y, width, 34.0 + width, y + 10.0, text, plane.width() - 30.0, plane.width() - 38.0);
}

std::string sample_svg(const KindMark& mark, std::string_view name) {
  std::string inside;
  if (!mark.symbol.empty() && !mark.area) {
    inside = fmt::format(
        "<g transform=\"translate(22 14)\"><path class=\"halo\" d=\"{0}\"/><path class=\"sign\" "
        "d=\"{0}\"/></g>",
        mark.symbol);
  } else {
    const std::string_view path = mark.area ? "M6 6h32v16h-32z" : "M3 18q10-12 19-4t19-5";
    inside = fmt::format("<path class=\"halo\" d=\"{0}\"/><path class=\"ink\" d=\"{0}\"/>", path);
  }
  return fmt::format(
      "<svg class=\"sample\" width=\"44\" height=\"28\" aria-hidden=\"true\"><g class=\"k-{}\">{}</g></svg>", name,
      inside);
}

}  // namespace

std::string lake_map_svg(const PublicLake& lake, const ExactPlaces* exact, const MapPlane& plane,
                         std::vector<std::string>& blocks) {
  std::string out;
  const auto add = [&](std::string block) {
    out += block;
    blocks.push_back(std::move(block));
  };
  add(depths_svg(lake, plane));
  add(features_svg(lake, plane));
  add(labels_svg(lake, plane));
  add(areas_svg(lake, plane));
  if (exact != nullptr) add(exact_svg(*exact, plane));
  add(scale_svg(plane));
  return out;
}

std::string lake_legend_html(const PublicLake& lake, const ExactPlaces* exact) {
  std::string out;
  for (const KindRow& row : kinds()) {
    const bool drawn = std::any_of(lake.features.begin(), lake.features.end(),
                                   [&](const PublicFeature& feature) { return feature.kind == row.kind; });
    if (drawn) {
      out += fmt::format("<li>{}<span><b>{}</b></span></li>\n", sample_svg(mark_of(row.kind), row.name), row.plural);
    }
  }
  if (!lake.areas.empty()) {
    out +=
        "<li><svg class=\"sample\" width=\"44\" height=\"28\" aria-hidden=\"true\"><path class=\"square\" d=\"M6 "
        "5h32v18h-32z\"/></svg><span><b>area</b> with its letter and how many spots</span></li>\n";
  }
  if (exact != nullptr && !exact->spots.empty()) {
    out +=
        "<li><svg class=\"sample\" width=\"44\" height=\"28\" aria-hidden=\"true\"><circle class=\"spot\" cx=\"22\" "
        "cy=\"14\" r=\"11\"/></svg><span><b>boat place</b> with its rank; the line is the cast</span></li>\n";
  }
  return "<ul class=\"key\">\n" + out + "</ul>\n";
}

}  // namespace castplan
