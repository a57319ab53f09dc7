// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/grid/groups.hpp"
#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"
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

/// Marks cells of no data with water among their neighbours; each row has a cell without data at both ends, and the
/// pointers are to the first cell.
CASTPLAN_HOT void contact_row(const float* above, const float* here, const float* below, int count, std::uint8_t* out) {
  for (int i = 0; i < count; ++i) {
    // the comparison with NaN is false
    const int wet = static_cast<int>(above[i - 1] > 0) | static_cast<int>(above[i] > 0) |
                    static_cast<int>(above[i + 1] > 0) | static_cast<int>(here[i - 1] > 0) |
                    static_cast<int>(here[i + 1] > 0) | static_cast<int>(below[i - 1] > 0) |
                    static_cast<int>(below[i] > 0) | static_cast<int>(below[i + 1] > 0);
    out[i] = static_cast<std::uint8_t>(static_cast<int>(here[i] != here[i]) & wet);
  }
}

std::vector<Cell> contacts_of(const Grid<Metres32>& depth) {
  std::vector<std::vector<Cell>> of_band(static_cast<std::size_t>(band_count(depth.rows())));
  const auto cols = static_cast<std::size_t>(depth.cols());
  sweep(depth.rows(), [&](const Band& band) {
    std::array<std::vector<float>, 3> rows;
    const auto read = [&](int row) -> std::vector<float>& {
      std::vector<float>& out = rows[static_cast<std::size_t>(row + 3) % 3];
      out.assign(cols + 2, kNaN);
      if (row < 0 || row >= depth.rows()) return out;
      std::transform(depth.row(row).begin(), depth.row(row).end(), out.begin() + 1,
                     [](Metres32 value) { return value.value(); });
      return out;
    };
    std::vector<std::uint8_t> marks(cols);
    read(band.first - 1);
    read(band.first);
    for (int row = band.first; row < band.last; ++row) {
      read(row + 1);
      const auto of = [&](int number) { return rows[static_cast<std::size_t>(number + 3) % 3].data() + 1; };
      contact_row(of(row - 1), of(row), of(row + 1), depth.cols(), marks.data());
      for (auto at = std::find(marks.begin(), marks.end(), 1); at != marks.end();
           at = std::find(at + 1, marks.end(), 1)) {
        of_band[static_cast<std::size_t>(band.number)].push_back({row, static_cast<int>(at - marks.begin())});
      }
    }
  });
  std::vector<Cell> all;
  for (const std::vector<Cell>& part : of_band) all.insert(all.end(), part.begin(), part.end());
  return all;
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
  std::vector<int> votes(contacts.size(), 0);
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    if (!beyond[i]) votes[i] = std::clamp(votes_at(depth, contacts[i], risen), -4, 4);
  }
  std::vector<bool> shore;
  shore.reserve(contacts.size());
  const auto before = [](Cell a, Cell b) { return a.row != b.row ? a.row < b.row : a.col < b.col; };
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    const Cell at = contacts[i];
    int sum = 0;
    for (int row = at.row - kSmooth; row <= at.row + kSmooth; ++row) {
      // contacts stand in order of row and column
      const auto from = std::lower_bound(contacts.begin(), contacts.end(), Cell{row, at.col - kSmooth}, before);
      for (auto near = from; near != contacts.end() && near->row == row && near->col <= at.col + kSmooth; ++near) {
        sum += votes[static_cast<std::size_t>(near - contacts.begin())];
      }
    }
    shore.push_back(!beyond[i] && sum >= 0);
  }
  return shore;
}

/// Patches of no data whose contacts are all shore become land as a whole; elsewhere only the shore contacts do.
void fill_land(Grid<Metres32>& depth, const std::vector<Cell>& contacts, const std::vector<bool>& shore) {
  const Groups patches = groups_of(depth.frame(), [&](int row, int first, std::span<std::uint8_t> out) {
    const auto cells = depth.row(row).subspan(static_cast<std::size_t>(first), out.size());
    std::transform(cells.begin(), cells.end(), out.begin(),
                   [](Metres32 cell) { return static_cast<std::uint8_t>(std::isnan(cell.value())); });
  });
  enum : char { untouched, land, mixed };
  std::vector<char> state(static_cast<std::size_t>(patches.count()), untouched);
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    char& patch = state[static_cast<std::size_t>(patches[contacts[i]])];
    if (!shore[i]) {
      patch = mixed;
    } else if (patch == untouched) {
      patch = land;
    }
  }
  sweep(depth.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (const GroupRun& run : patches.row(row)) {
        if (state[static_cast<std::size_t>(run.group)] != land) continue;
        std::fill(depth.row(row).begin() + run.first, depth.row(row).begin() + run.last, Metres32(kLand));
      }
    }
  });
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
