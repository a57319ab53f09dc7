// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "grid/trace.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <limits>
#include <utility>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

constexpr std::uint8_t kBelow = 0;
constexpr std::uint8_t kAbove = 1;
constexpr std::uint8_t kLeftOut = 2;

enum Side : std::int8_t { kNorth, kEast, kSouth, kWest, kNone };

struct Step {
  Side from = kNone;
  Side to = kNone;
};
using Steps = std::array<Step, 2>;

// By the corners above the level: northwest 1, northeast 2, southeast 4, southwest 8. Larger values on the left.
constexpr std::array<Steps, 16> kSteps = {{{},
                                           {Step{kWest, kNorth}},
                                           {Step{kNorth, kEast}},
                                           {Step{kWest, kEast}},
                                           {Step{kEast, kSouth}},
                                           {Step{kWest, kNorth}, Step{kEast, kSouth}},
                                           {Step{kNorth, kSouth}},
                                           {Step{kWest, kSouth}},
                                           {Step{kSouth, kWest}},
                                           {Step{kSouth, kNorth}},
                                           {Step{kNorth, kEast}, Step{kSouth, kWest}},
                                           {Step{kSouth, kEast}},
                                           {Step{kEast, kWest}},
                                           {Step{kEast, kNorth}},
                                           {Step{kNorth, kWest}},
                                           {}}};
// The two that are not decided by the corners, where the middle is above too.
constexpr Steps kJoinedFalling = {Step{kEast, kNorth}, Step{kWest, kSouth}};  // northwest and southeast above
constexpr Steps kJoinedRising = {Step{kNorth, kWest}, Step{kSouth, kEast}};   // northeast and southwest above

CASTPLAN_HOT void state_row(const Metres32* values, int count, float level, std::uint8_t outside, std::uint8_t* out) {
  for (int i = 0; i < count; ++i) {
    const float value = values[i].value();
    const std::uint8_t known = value >= level ? kAbove : kBelow;
    out[i] = value == value ? known : outside;
  }
}

struct Seam {
  int col;
  std::int32_t crossing;
};

struct BandTrace {
  std::vector<Crossing> crossings;
  std::vector<Seam> north;  ///< crossings on the band's northern and southern row of cells, west to east
  std::vector<Seam> south;
};

/// Traces rows of squares. Square (i, j) has the cells of rows i - 1, i and columns j - 1, j at its corners, so that
/// squares reach half a cell over each border.
class Tracer {
 public:
  Tracer(const FieldRows& field, float level, Unknown unknown)
      : field_(field),
        level_(level),
        outside_(unknown == Unknown::below ? kBelow : kLeftOut),
        least_(unknown == Unknown::below ? 1e-3 : 0.0),
        upper_(static_cast<std::size_t>(field.frame.cols) + 2),
        lower_(upper_.size()),
        top_(upper_.size(), -1) {
    upper_row_.room.resize(static_cast<std::size_t>(field.frame.cols));
    lower_row_.room.resize(upper_row_.room.size());
  }

  BandTrace run(const Band& band) {
    read_states(band.first - 1, upper_row_, upper_);
    for (int i = band.first; i < band.last; ++i) {
      read_states(i, lower_row_, lower_);
      first_ = i == band.first;
      run_row(i);
      std::swap(upper_, lower_);
      std::swap(upper_row_, lower_row_);
    }
    for (int j = 0; j <= field_.frame.cols; ++j) {
      if (top_[static_cast<std::size_t>(j)] >= 0) out_.south.push_back({j, top_[static_cast<std::size_t>(j)]});
    }
    return std::move(out_);
  }

 private:
  /// Values of a row of cells, and room for them where they are not kept anywhere.
  struct Row {
    int number = -1;
    const Metres32* values = nullptr;
    std::vector<Metres32> room;
  };

  void read_states(int row, Row& out, std::vector<std::uint8_t>& states) const {
    out.number = row;
    if (row < 0 || row >= field_.frame.rows) {
      std::fill(states.begin(), states.end(), outside_);
      return;
    }
    out.values = field_.row(row, out.room);
    states.front() = outside_;
    states.back() = outside_;
    state_row(out.values, field_.frame.cols, level_, outside_, states.data() + 1);
  }

  /// Nine corners in a row, and those below them, all in one state: eight squares without a line.
  [[nodiscard]] bool uniform(std::size_t j) const {
    if (j + 9 > upper_.size()) return false;
    std::array<std::uint64_t, 4> eight{};
    std::memcpy(eight.data(), &upper_[j], 8);
    std::memcpy(eight.data() + 1, &upper_[j + 1], 8);
    std::memcpy(eight.data() + 2, &lower_[j], 8);
    std::memcpy(eight.data() + 3, &lower_[j + 1], 8);
    return eight[0] == eight[1] && eight[0] == eight[2] && eight[0] == eight[3];
  }

  void run_row(int i) {
    std::size_t j = 0;
    west_ = -1;
    while (j + 1 < upper_.size()) {
      if (uniform(j)) {
        west_ = -1;
        j += 8;
        continue;
      }
      run_square(i, static_cast<int>(j));
      ++j;
    }
  }

  void run_square(int i, int j) {
    const auto at = static_cast<std::size_t>(j);
    const unsigned code = upper_[at] | upper_[at + 1] << 1 | lower_[at + 1] << 2 | lower_[at] << 3;
    const bool whole = ((upper_[at] | upper_[at + 1] | lower_[at] | lower_[at + 1]) & kLeftOut) == 0;
    std::array<std::int32_t, 4> crossing = {top_[at], -1, -1, west_};
    if (whole && code != 0 && code != 15) {
      for (const Step& step : steps(code, i, j)) {
        if (step.from == kNone) break;
        link(crossing_on(step.from, i, j, crossing), crossing_on(step.to, i, j, crossing));
      }
    }
    top_[at] = crossing[kSouth];
    west_ = crossing[kEast];
  }

  [[nodiscard]] const Steps& steps(unsigned code, int i, int j) const {
    if (code != 5 && code != 10) return kSteps[code];
    const double falling = value({i - 1, j - 1}) + value({i, j});
    const double rising = value({i - 1, j}) + value({i, j - 1});
    if (!((falling + rising) / 4.0 >= level_)) return kSteps[code];
    return code == 5 ? kJoinedFalling : kJoinedRising;
  }

  std::int32_t crossing_on(Side side, int i, int j, std::array<std::int32_t, 4>& crossing) {
    std::int32_t& number = crossing[static_cast<std::size_t>(side)];
    if (number >= 0) return number;
    number = static_cast<std::int32_t>(out_.crossings.size());
    const Cell northwest{i - 1, j - 1}, northeast{i - 1, j}, southwest{i, j - 1}, southeast{i, j};
    switch (side) {
      case kNorth:
        out_.crossings.push_back({.at = between(northwest, northeast), .row = i - 1});
        if (first_) out_.north.push_back({j, number});
        break;
      case kSouth:
        out_.crossings.push_back({.at = between(southwest, southeast), .row = i});
        break;
      case kWest:
        out_.crossings.push_back({.at = between(northwest, southwest)});
        break;
      default:
        out_.crossings.push_back({.at = between(northeast, southeast)});
    }
    return number;
  }

  void link(std::int32_t from, std::int32_t to) {
    out_.crossings[static_cast<std::size_t>(from)].next = to;
    out_.crossings[static_cast<std::size_t>(to)].led_to = true;
  }

  /// Of a cell in one of the two rows at work; NaN outside the grid.
  [[nodiscard]] double value(Cell at) const {
    if (!field_.frame.holds(at)) return std::numeric_limits<double>::quiet_NaN();
    const Row& row = at.row == upper_row_.number ? upper_row_ : lower_row_;
    return static_cast<double>(row.values[at.col].value());
  }

  /// Measured from the cell above the level, so that turning the grid changes no rounding. Half-way where one of the
  /// two has no finite value.
  [[nodiscard]] XY between(Cell a, Cell b) const {
    if (!(value(a) >= level_)) std::swap(a, b);
    const double high = value(a);
    double share = (high - level_) / (high - value(b));
    share = std::isfinite(high) && std::isfinite(value(b)) ? std::clamp(share, least_, 1.0 - least_) : 0.5;
    const double step = share * field_.frame.cell.value();
    return field_.frame.centre(a) + XY{(b.col - a.col) * step, (a.row - b.row) * step};
  }

  const FieldRows& field_;
  float level_;
  std::uint8_t outside_;
  double least_;  ///< shares of a cell that a crossing keeps from centres
  Row upper_row_, lower_row_;
  std::vector<std::uint8_t> upper_, lower_;  ///< states of two rows of cells, with one more at each end
  std::vector<std::int32_t> top_;            ///< crossing on the north side of each square of the next row; -1: none
  std::int32_t west_ = -1;                   ///< crossing on the west side of the next square
  bool first_ = false;
  BandTrace out_;
};

/// Joins the crossings that two bands share: the later point of the two follows the earlier on the line.
void sew(const std::vector<Seam>& south, const std::vector<Seam>& north, std::vector<Crossing>& all) {
  auto below = north.begin();
  for (const Seam& seam : south) {
    while (below != north.end() && below->col < seam.col) ++below;
    if (below == north.end()) return;
    if (below->col != seam.col) continue;
    const bool ends = all[static_cast<std::size_t>(seam.crossing)].next < 0;
    const std::int32_t from = ends ? seam.crossing : below->crossing;
    const std::int32_t to = ends ? below->crossing : seam.crossing;
    all[static_cast<std::size_t>(from)].next = to;
    all[static_cast<std::size_t>(to)].led_to = true;
  }
}

}  // namespace

std::vector<Crossing> trace(const FieldRows& field, float level, Unknown unknown) {
  const int square_rows = field.frame.rows + 1;
  std::vector<BandTrace> bands(static_cast<std::size_t>(band_count(square_rows)));
  sweep(square_rows, [&](const Band& band) {
    bands[static_cast<std::size_t>(band.number)] = Tracer(field, level, unknown).run(band);
  });
  std::size_t count = 0;
  for (const BandTrace& band : bands) count += band.crossings.size();
  std::vector<Crossing> all;
  all.reserve(count);
  std::vector<Seam> south;
  for (BandTrace& band : bands) {
    const auto offset = static_cast<std::int32_t>(all.size());
    for (Crossing& crossing : band.crossings) {
      if (crossing.next >= 0) crossing.next += offset;
      all.push_back(crossing);
    }
    for (Seam& seam : band.north) seam.crossing += offset;
    for (Seam& seam : band.south) seam.crossing += offset;
    sew(south, band.north, all);
    south = std::move(band.south);
    band = {};
  }
  return all;
}

}  // namespace castplan
