// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/shape.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace castplan {
namespace {

/// Lengths that are a whole number of steps but for rounding must not get a step more.
constexpr double kStepSlack = 1e-9;

bool is_closed(const Line& line) { return line.size() > 2 && line.front() == line.back(); }

std::size_t steps_in(Metres whole, Metres step) {
  assert(step.value() > 0.0);
  const double steps = std::ceil(whole / step - kStepSlack);
  return steps < 1.0 ? 1 : static_cast<std::size_t>(steps);
}

/// Northern before southern, western before eastern among equals.
bool comes_first(XY a, XY b) { return a.y > b.y || (a.y == b.y && a.x < b.x); }

/// Walks a line once, from its start, in distances that never shrink.
class Walker {
 public:
  explicit Walker(const Line& line) : line_(line), segment_(distance(line[0], line[1]).value()) {}

  /// The place this far from the start; vertices passed on the way are appended to `passed` if given.
  XY at(double target, Line* passed) {
    while (next_ + 1 < line_.size() && walked_ + segment_ <= target) {
      if (passed != nullptr) passed->push_back(line_[next_]);
      walked_ += segment_;
      ++next_;
      segment_ = distance(line_[next_ - 1], line_[next_]).value();
    }
    const double share = segment_ > 0.0 ? std::clamp((target - walked_) / segment_, 0.0, 1.0) : 0.0;
    return line_[next_ - 1] + (line_[next_] - line_[next_ - 1]) * share;
  }

  /// Vertices not yet passed.
  [[nodiscard]] Line rest() const { return {line_.begin() + static_cast<std::ptrdiff_t>(next_), line_.end()}; }

 private:
  const Line& line_;
  std::size_t next_ = 1;
  double walked_ = 0.0;
  double segment_;
};

}  // namespace

Metres length(const Line& line) {
  Metres sum(0.0);
  for (std::size_t i = 1; i < line.size(); ++i) sum += distance(line[i - 1], line[i]);
  return sum;
}

SquareMetres signed_area(const Ring& ring) {
  if (ring.size() < 4) return SquareMetres(0.0);
  // from the first vertex, because products of map coordinates lose digits
  double twice = 0.0;
  for (std::size_t i = 2; i < ring.size(); ++i) twice += cross(ring[i - 1] - ring[0], ring[i] - ring[0]);
  return SquareMetres(twice / 2.0);
}

SquareMetres area(const Polygon& polygon) {
  double sum = std::abs(signed_area(polygon.outer).value());
  for (const Ring& hole : polygon.holes) sum -= std::abs(signed_area(hole).value());
  return SquareMetres(std::max(sum, 0.0));
}

SquareMetres area(const Polygons& polygons) {
  SquareMetres sum(0.0);
  for (const Polygon& polygon : polygons) sum += area(polygon);
  return sum;
}

XY point_along(const Line& line, double share) {
  assert(!line.empty());
  if (line.size() == 1 || share <= 0.0) return line.front();
  if (share >= 1.0) return line.back();
  return Walker(line).at(length(line).value() * share, nullptr);
}

Line begun_at_north(Line line) {
  if (line.size() < 2) return line;
  if (!is_closed(line)) {
    if (comes_first(line.back(), line.front())) std::reverse(line.begin(), line.end());
    return line;
  }
  line.pop_back();
  const auto first = std::min_element(line.begin(), line.end(), comes_first);
  std::rotate(line.begin(), first, line.end());
  line.push_back(line.front());
  return line;
}

Line resampled(const Line& line, Metres step) {
  if (line.size() < 2) return line;
  const double whole = length(line).value();
  const std::size_t steps = steps_in(Metres(whole), step);
  Walker walker(line);
  Line points{line.front()};
  for (std::size_t i = 1; i < steps; ++i) {
    points.push_back(walker.at(whole * static_cast<double>(i) / static_cast<double>(steps), nullptr));
  }
  points.push_back(line.back());
  return points;
}

Lines cut(const Line& line, Metres most) {
  if (line.size() < 2) return {line};
  const double whole = length(line).value();
  const std::size_t count = steps_in(Metres(whole), most);
  Walker walker(line);
  Lines pieces;
  Line piece{line.front()};
  for (std::size_t i = 1; i < count; ++i) {
    const XY end = walker.at(whole * static_cast<double>(i) / static_cast<double>(count), &piece);
    if (piece.size() < 2 || piece.back() != end) piece.push_back(end);
    pieces.push_back(std::move(piece));
    piece = {end};
  }
  const Line rest = walker.rest();
  piece.insert(piece.end(), rest.begin(), rest.end());
  pieces.push_back(std::move(piece));
  return pieces;
}

namespace {

void append(Points& all, const Points& points) { all.insert(all.end(), points.begin(), points.end()); }

void append(Points& all, const Lines& lines) {
  for (const Line& line : lines) append(all, line);
}

void append(Points& all, const Polygons& polygons) {
  for (const Polygon& polygon : polygons) {
    append(all, polygon.outer);
    append(all, polygon.holes);
  }
}

}  // namespace

Points vertices(const Geometry& geometry) {
  Points all;
  std::visit([&all](const auto& parts) { append(all, parts); }, geometry);
  return all;
}

std::optional<Box> bounds(const Geometry& geometry) {
  std::optional<Box> box;
  for (const XY point : vertices(geometry)) {
    if (!box) box = Box{.low = point, .high = point};
    box->low = {std::min(box->low.x, point.x), std::min(box->low.y, point.y)};
    box->high = {std::max(box->high.x, point.x), std::max(box->high.y, point.y)};
  }
  return box;
}

bool holds(const Box& box, XY place) {
  return box.low.x <= place.x && place.x <= box.high.x && box.low.y <= place.y && place.y <= box.high.y;
}

Metres apart(const Box& a, const Box& b) {
  const double dx = std::max({0.0, a.low.x - b.high.x, b.low.x - a.high.x});
  const double dy = std::max({0.0, a.low.y - b.high.y, b.low.y - a.high.y});
  return Metres(std::hypot(dx, dy));
}

XY nearest_on(XY point, XY a, XY b) {
  const XY along = b - a;
  const double square = dot(along, along);
  return square > 0 ? a + along * std::clamp(dot(point - a, along) / square, 0.0, 1.0) : a;
}

Metres distance(XY point, const Line& line) {
  if (line.size() == 1) return distance(point, line.front());
  Metres nearest(std::numeric_limits<double>::infinity());
  for (std::size_t i = 1; i < line.size(); ++i) {
    nearest = std::min(nearest, distance(point, nearest_on(point, line[i - 1], line[i])));
  }
  return nearest;
}

bool contains(const Ring& ring, XY point) {
  bool inside = false;
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const XY a = ring[i - 1];
    const XY b = ring[i];
    // half-open in y, so that a ray through a vertex counts it once
    if ((a.y > point.y) == (b.y > point.y)) continue;
    if (point.x < a.x + (b.x - a.x) * ((point.y - a.y) / (b.y - a.y))) inside = !inside;
  }
  return inside;
}

bool contains(const Polygons& polygons, XY point) {
  return std::any_of(polygons.begin(), polygons.end(), [point](const Polygon& polygon) {
    return contains(polygon.outer, point) && std::none_of(polygon.holes.begin(), polygon.holes.end(),
                                                          [point](const Ring& hole) { return contains(hole, point); });
  });
}

}  // namespace castplan
