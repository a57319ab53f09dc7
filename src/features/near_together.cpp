// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/near_together.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

namespace castplan {

namespace {

/// Which area each area hangs on; the first of a group on itself.
class Joined {
 public:
  explicit Joined(std::size_t count) : up_(count) { std::iota(up_.begin(), up_.end(), 0); }

  int first(int area) {
    while (up_[area] != area) area = up_[area] = up_[up_[area]];
    return area;
  }
  void join(int a, int b) {
    a = first(a);
    b = first(b);
    up_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<int> up_;
};

struct Part {
  const Run* run;
  int area;
};
/// What of the areas lies in one square, as wide as the reach.
struct Square {
  std::vector<Part> parts;
  bool of_one = true;  ///< area, that of the first part
};
using Squares = std::map<std::pair<int, int>, Square>;

Squares squares_of(const std::vector<std::vector<Run>>& areas, int side) {
  Squares squares;
  for (int area = 0; area < static_cast<int>(areas.size()); ++area) {
    for (const Run& run : areas[area]) {
      for (int col = run.first / side; col <= (run.last - 1) / side; ++col) {
        Square& square = squares[{run.row / side, col}];
        square.of_one = square.of_one && (square.parts.empty() || square.parts.front().area == area);
        square.parts.push_back({&run, area});
      }
    }
  }
  return squares;
}

bool within(const Run& a, const Run& b, double reach) {
  const double rows = a.row - b.row;
  const double cols = std::max({0, a.first - (b.last - 1), b.first - (a.last - 1)});
  return rows * rows + cols * cols <= reach * reach;
}

void join_squares(const Square& one, const Square& other, double reach, Joined& joined) {
  if (one.of_one && other.of_one && joined.first(one.parts.front().area) == joined.first(other.parts.front().area)) {
    return;
  }
  for (const Part& a : one.parts) {
    for (const Part& b : other.parts) {
      if (joined.first(a.area) != joined.first(b.area) && within(*a.run, *b.run, reach)) joined.join(a.area, b.area);
    }
  }
}

}  // namespace

std::vector<std::vector<int>> near_together(const std::vector<std::vector<Run>>& areas, double reach) {
  const Squares squares = squares_of(areas, std::max(1, static_cast<int>(std::ceil(reach))));
  Joined joined(areas.size());
  for (const auto& [at, square] : squares) {
    for (const auto& [rows, cols] :
         {std::pair(0, 0), std::pair(0, 1), std::pair(1, -1), std::pair(1, 0), std::pair(1, 1)}) {
      const auto other = squares.find({at.first + rows, at.second + cols});
      if (other != squares.end()) join_squares(square, other->second, reach, joined);
    }
  }
  std::vector<std::vector<int>> groups(areas.size());
  for (int area = 0; area < static_cast<int>(areas.size()); ++area) groups[joined.first(area)].push_back(area);
  std::erase_if(groups, [](const std::vector<int>& group) { return group.empty(); });
  return groups;
}

}  // namespace castplan
