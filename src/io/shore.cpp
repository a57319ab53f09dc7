// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/grid/components.hpp"
#include "castplan/io/raster.hpp"
#include "io/walls.hpp"

// How shore and cut are told apart. A "contact" is a cell of no data with water among its eight neighbours.
// 0. A contact outside the raster itself is cut: the edge of a map is no shore. It has no vote.
// 1. Each direction in which a contact has water gives a vote: shore when that water is shallow, or when the floor
//    rises towards the contact so steeply that it would come out of the water within 1.5 cells; cut otherwise.
// 2. The votes of all contacts within 5 cells are added up, so that noise does not mix the two.
// 3. A body of water that has nothing but cuts all round, never meets the edge of the raster and is straight nowhere is
//    a lake with walls (a quarry, or a raster clipped at its shore without a zero): its contacts are shore after all.
//    The edges of map sheets and survey areas are straight.
// 4. The rest of a patch of no data becomes land when all its contacts are shore.
// Common practice, no source; tried on a bog lake that is 1 m deep at its edge, on a seepage lake, and on a window of a
// great lake that is 18 m deep at its cut.

namespace castplan {
namespace {

constexpr float kShallow = 1.5F;  ///< metres
constexpr float kReach = 1.5F;    ///< cells from the last water cell to where the floor comes out
constexpr int kSmooth = 5;        ///< cells each way whose votes count together
constexpr float kNaN = std::numeric_limits<float>::quiet_NaN();
constexpr float kLand = -std::numeric_limits<float>::infinity();
constexpr Cell kAround[] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}, {-1, -1}, {-1, 1}, {1, -1}, {1, 1}};

float water_at(const Grid<Metres32>& depth, Cell cell) {
  if (!depth.holds(cell)) return kNaN;
  const float value = depth[cell].value();
  return value > 0 ? value : kNaN;
}

/// The vote of one direction: 1 for shore, -1 for cut, 0 where there is no water or too little to tell.
int vote(const Grid<Metres32>& depth, Cell at, Cell step, float risen) {
  const float first = water_at(depth, {at.row + step.row, at.col + step.col});
  if (std::isnan(first)) return 0;
  if (first - risen <= kShallow) return 1;
  const float second = water_at(depth, {at.row + 2 * step.row, at.col + 2 * step.col});
  const float third = water_at(depth, {at.row + 3 * step.row, at.col + 3 * step.col});
  if (std::isnan(second)) return 0;
  float rise = second - first;
  if (!std::isnan(third)) rise = std::max(rise, (third - first) / 2);
  return first - risen <= kReach * rise ? 1 : -1;
}

std::vector<Cell> contacts_of(const Grid<Metres32>& depth) {
  std::vector<Cell> out;
  for (int r = 0; r < depth.rows(); ++r) {
    const auto row = depth.row(r);
    for (int c = 0; c < depth.cols(); ++c) {
      if (!std::isnan(row[static_cast<std::size_t>(c)].value())) continue;
      const bool touches = std::any_of(std::begin(kAround), std::end(kAround), [&](Cell step) {
        return !std::isnan(water_at(depth, {r + step.row, c + step.col}));
      });
      if (touches) out.push_back({r, c});
    }
  }
  return out;
}

/// Votes of one contact: sides count twice as much as corners.
int votes_at(const Grid<Metres32>& depth, Cell at, float risen) {
  int sum = 0;
  for (const Cell step : kAround) {
    sum += (step.row == 0 || step.col == 0 ? 2 : 1) * vote(depth, at, step, risen);
  }
  return sum;
}

/// True for each contact outside the cells of the raster itself.
std::vector<bool> beyond_raster(const Frame& frame, const std::vector<Cell>& contacts, const Polygons& extent) {
  std::vector<bool> beyond(contacts.size(), false);
  if (extent.empty()) return beyond;
  for (std::size_t i = 0; i < contacts.size(); ++i) beyond[i] = !contains(extent, frame.centre(contacts[i]));
  return beyond;
}

/// True for each contact that is shore by the votes within kSmooth cells.
std::vector<bool> shore_by_votes(const Grid<Metres32>& depth, const std::vector<Cell>& contacts,
                                 const std::vector<bool>& beyond, float risen) {
  Grid<std::int8_t> votes(depth.frame(), 0);
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    if (!beyond[i])
      votes[contacts[i]] = static_cast<std::int8_t>(std::clamp(votes_at(depth, contacts[i], risen), -4, 4));
  }
  std::vector<bool> shore;
  shore.reserve(contacts.size());
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    const Cell at = contacts[i];
    int sum = 0;
    for (int r = std::max(0, at.row - kSmooth); r <= std::min(depth.rows() - 1, at.row + kSmooth); ++r) {
      for (int c = std::max(0, at.col - kSmooth); c <= std::min(depth.cols() - 1, at.col + kSmooth); ++c) {
        sum += votes[Cell{r, c}];
      }
    }
    shore.push_back(!beyond[i] && sum >= 0);
  }
  return shore;
}

/// Patches of no data whose contacts are all shore become land as a whole; elsewhere only the shore contacts do.
void fill_land(Grid<Metres32>& depth, const std::vector<Cell>& contacts, const std::vector<bool>& shore) {
  const Components patches = components(depth.frame(), [&](Cell cell) { return std::isnan(depth[cell].value()); });
  enum : char { untouched, land, mixed };
  std::vector<char> state(static_cast<std::size_t>(patches.count), untouched);
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    char& patch = state[static_cast<std::size_t>(patches.label[contacts[i]])];
    if (!shore[i]) {
      patch = mixed;
    } else if (patch == untouched) {
      patch = land;
    }
  }
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const int label = patches.label[i];
    if (label >= 0 && state[static_cast<std::size_t>(label)] == land) depth[i] = Metres32(kLand);
  }
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    if (shore[i]) depth[contacts[i]] = Metres32(kLand);
  }
}

}  // namespace

void tell_shore_from_cut(Grid<Metres32>& depth, Metres risen, const Polygons& extent) {
  const std::vector<Cell> contacts = contacts_of(depth);
  if (contacts.empty()) return;
  const std::vector<bool> beyond = beyond_raster(depth.frame(), contacts, extent);
  std::vector<bool> shore = shore_by_votes(depth, contacts, beyond, static_cast<float>(std::max(0.0, risen.value())));
  take_walled_bodies(depth, contacts, beyond, shore);
  fill_land(depth, contacts, shore);
}

}  // namespace castplan
