// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/walls.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "castplan/grid/components.hpp"

namespace castplan {
namespace {

constexpr double kAllRound = 0.95;      ///< share of a body's contacts that must look cut
constexpr double kStraightShare = 0.2;  ///< share of straight contacts from which the edge is a map's, not a lake's
constexpr double kStraight = 0.6;       ///< cells: spread across the line; a rasterised straight line has about 0.3
constexpr double kWindow = 0.25;        ///< of the square root of the body's cells: half a window for straightness

struct Body {
  long long cells = 0;
  long long cut = 0;
  bool met_edge = false;  ///< of the raster, or known land
  std::vector<std::size_t> contacts;
};

bool is_water(const Grid<Metres32>& depth, Cell cell) { return depth.holds(cell) && depth[cell].value() > 0; }

/// The body that a contact touches: the first found clockwise from north-west.
int body_beside(const Components& bodies, Cell at) {
  for (int r = at.row - 1; r <= at.row + 1; ++r) {
    for (int c = at.col - 1; c <= at.col + 1; ++c) {
      if (bodies.label.holds({r, c}) && bodies.label[Cell{r, c}] >= 0) return bodies.label[Cell{r, c}];
    }
  }
  return -1;
}

/// Water at the edge of the raster or beside known land is not walled by no data alone.
bool meets_other(const Grid<Metres32>& depth, Cell at) {
  for (int r = at.row - 1; r <= at.row + 1; ++r) {
    for (int c = at.col - 1; c <= at.col + 1; ++c) {
      if (!depth.holds({r, c}) || depth[Cell{r, c}].value() <= 0) return true;
    }
  }
  return false;
}

std::vector<Body> bodies_of(const Grid<Metres32>& depth, const Components& labels, const std::vector<Cell>& contacts,
                            const std::vector<bool>& beyond, const std::vector<bool>& shore) {
  std::vector<Body> bodies(static_cast<std::size_t>(labels.count));
  for (int r = 0; r < depth.rows(); ++r) {
    for (int c = 0; c < depth.cols(); ++c) {
      const int label = labels.label[Cell{r, c}];
      if (label < 0) continue;
      Body& body = bodies[static_cast<std::size_t>(label)];
      ++body.cells;
      body.met_edge = body.met_edge || meets_other(depth, {r, c});
    }
  }
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    const int label = body_beside(labels, contacts[i]);
    if (label < 0) continue;
    Body& body = bodies[static_cast<std::size_t>(label)];
    body.contacts.push_back(i);
    body.met_edge = body.met_edge || beyond[i];
    if (!shore[i]) ++body.cut;
  }
  return bodies;
}

/// Spread of the contacts within a radius across their main direction, in cells (root mean square).
double spread(const std::vector<Cell>& contacts, const std::vector<std::size_t>& of_body, std::size_t at,
              double radius) {
  double n = 0, sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0;
  for (const std::size_t other : of_body) {
    const double x = contacts[other].col - contacts[at].col;
    const double y = contacts[other].row - contacts[at].row;
    if (x * x + y * y > radius * radius) continue;
    n += 1;
    sx += x;
    sy += y;
    sxx += x * x;
    syy += y * y;
    sxy += x * y;
  }
  const double xx = sxx / n - (sx / n) * (sx / n);
  const double yy = syy / n - (sy / n) * (sy / n);
  const double xy = sxy / n - (sx / n) * (sy / n);
  const double smaller = (xx + yy) / 2 - std::hypot((xx - yy) / 2, xy);
  return std::sqrt(std::max(0.0, smaller));
}

/// At most about 500 contacts are asked, evenly spread: enough for a share.
bool mostly_curved(const std::vector<Cell>& contacts, const Body& body) {
  const double radius = std::max(10.0, kWindow * std::sqrt(static_cast<double>(body.cells)));
  const std::size_t step = body.contacts.size() / 500 + 1;
  double asked = 0;
  double straight = 0;
  for (std::size_t i = 0; i < body.contacts.size(); i += step) {
    asked += 1;
    if (spread(contacts, body.contacts, body.contacts[i], radius) < kStraight) straight += 1;
  }
  return straight < kStraightShare * asked;
}

}  // namespace

void take_walled_bodies(const Grid<Metres32>& depth, const std::vector<Cell>& contacts, const std::vector<bool>& beyond,
                        std::vector<bool>& shore) {
  if (std::all_of(shore.begin(), shore.end(), [](bool is) { return is; })) return;
  const Components labels = components(depth.frame(), [&](Cell cell) { return is_water(depth, cell); });
  for (const Body& body : bodies_of(depth, labels, contacts, beyond, shore)) {
    const auto all = static_cast<double>(body.contacts.size());
    if (body.met_edge || body.contacts.empty() || static_cast<double>(body.cut) < kAllRound * all) continue;
    if (!mostly_curved(contacts, body)) continue;
    for (const std::size_t i : body.contacts) shore[i] = true;
  }
}

}  // namespace castplan
