// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/pockets.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "castplan/grid/inside.hpp"

namespace castplan {

namespace {

constexpr char kClosed = 0, kWater = 1, kIsland = 2;
constexpr int kLongest = 500;       // steps of shore in a bay
constexpr double kMoved = 0.25;     // of the mouth: how far a better one is looked for
constexpr double kInnerMost = 0.5;  // of the area of the bay around it

class Search {
 public:
  Search(const Lake& lake, const Polygon& water, const ShoreRing& ring, const DetectOptions& options)
      : lake_(lake), water_(water), ring_(ring), options_(options) {
    const double step = std::clamp(0.005 * std::sqrt(lake.area.value()), 8.0, 30.0);
    count_ = std::max(8, static_cast<int>(std::ceil(ring.length() / step)));
    step_ = ring.length() / count_;
    largest_ = options.bay_share * area(water).value();
    for (int i = 0; i < count_; ++i) {
      places_.push_back(ring.place(i * step_));
      cuts_.push_back(beside_unknown(lake.cover, places_.back()) ? 1 : 0);
    }
    twice_.push_back(0);
    for (int i = 0; i < 2 * count_; ++i) twice_.push_back(twice_.back() + cross(rel(i), rel(i + 1)));
    look_for_water();
    for (const Ring& hole : water.holes) islands_.push_back(*bounds(Geometry(Lines{hole})));
  }

  std::vector<Pocket> run() {
    std::vector<Pocket> found;
    for (int i = 0; i < count_; ++i) {
      if (cut(i)) continue;
      for (int k = 3; k <= std::min(kLongest, count_ - 3) && !cut(i + k); ++k) {
        Pocket pocket = between(i, i + k);
        if (!might_be_bay(pocket, at(i), at(i + k)) || !is_best(i, i + k, pocket)) continue;
        const auto exact = refined(pocket);
        if (exact && is_bay(*exact)) found.push_back(*exact);
      }
    }
    return each_once(std::move(found));
  }

 private:
  [[nodiscard]] XY at(int i) const { return places_[static_cast<std::size_t>((i % count_ + count_) % count_)]; }
  [[nodiscard]] XY rel(int i) const { return at(i) - places_[0]; }
  [[nodiscard]] bool cut(int i) const { return cuts_[static_cast<std::size_t>((i % count_ + count_) % count_)] != 0; }

  /// From the polygon of the places, which is good enough to choose by.
  [[nodiscard]] Pocket between(int i, int j) const {
    const int shift = i < 0 ? count_ : i >= count_ ? -count_ : 0;
    const auto from = static_cast<std::size_t>(i + shift), to = static_cast<std::size_t>(j + shift);
    const double twice = twice_[to] - twice_[from] + cross(rel(j), rel(i));
    return {i * step_, j * step_, std::sqrt(dot(at(i) - at(j), at(i) - at(j))), twice / 2};
  }

  /// False where no island can lie on the straight way between two places.
  [[nodiscard]] bool may_cross_island(XY from, XY to) const {
    const Box way{{std::min(from.x, to.x), std::min(from.y, to.y)}, {std::max(from.x, to.x), std::max(from.y, to.y)}};
    const Metres cell = crossing_.frame().cell;
    return std::any_of(islands_.begin(), islands_.end(),
                       [&](const Box& island) { return apart(way, island) <= cell * 2; });
  }

  [[nodiscard]] bool might_be_bay(const Pocket& pocket, XY from, XY to) const {
    return pocket.area <= largest_ * 1.1 && pocket.area >= options_.bay_area.value() * 0.8 &&
           pocket.to - pocket.from >= options_.bay_winding * 0.8 * pocket.chord &&
           (pocket.beyond_half_circle() > 0 || may_cross_island(from, to));
  }

  /// Marks where a mouth may run, on cells of half a step: over water, and over islands, which do not close it.
  void look_for_water() {
    const Box box = *bounds(Geometry(Lines{water_.outer}));
    const double side = std::max(step_ / 2, lake_.depth.frame().cell.value());
    Frame frame{{box.low.x, box.high.y}, Metres(side), 0, 0};
    frame.rows = static_cast<int>(std::ceil((box.high.y - box.low.y) / side)) + 1;
    frame.cols = static_cast<int>(std::ceil((box.high.x - box.low.x) / side)) + 1;
    crossing_ = Grid<char>(frame, kClosed);
    runs_inside({water_.outer}, frame, [&](int row, int first, int last) {
      for (int col = first; col < last; ++col) {
        crossing_[Cell{row, col}] = cover_at(lake_, frame.centre({row, col})) == Cover::water ? kWater : kClosed;
      }
    });
    runs_inside(water_.holes, frame, [&](int row, int first, int last) {
      std::fill_n(crossing_.row(row).begin() + first, last - first, kIsland);
    });
  }

  /// Length of water along the way between two places of the shore, without the islands in it; none where land or
  /// the unknown closes it, but for a cell and a half at its ends.
  [[nodiscard]] std::optional<double> mouth(XY from, XY to) const {
    const double side = crossing_.frame().cell.value();
    const double whole = std::sqrt(dot(to - from, to - from));
    const int steps = static_cast<int>(whole / side);
    const XY step = (to - from) * (side / whole);
    int islands = 0;
    for (int i = 2; i <= steps - 2; ++i) {
      const Cell cell = crossing_.frame().cell_at(from + step * i);
      const char here = crossing_.holds(cell) ? crossing_[cell] : kClosed;
      if (here == kClosed) return std::nullopt;
      islands += here == kIsland ? 1 : 0;
    }
    return std::max(whole - islands * side, side);
  }

  /// True where the pocket's mouth is open and its excess more than this; its chord is then without islands.
  [[nodiscard]] bool exceeds(Pocket& pocket, XY from, XY to, double excess) const {
    if (pocket.beyond_half_circle() <= excess && !may_cross_island(from, to)) return false;
    const auto chord = mouth(from, to);
    if (!chord) return false;
    pocket.chord = *chord;
    return pocket.beyond_half_circle() > excess;
  }

  [[nodiscard]] bool is_best(int i, int j, Pocket& pocket) const {
    const int far = std::max(2, static_cast<int>(std::round(kMoved * pocket.chord / step_)));
    if (!exceeds(pocket, at(i), at(j), 0)) return false;
    const int moves[] = {0, -1, 1, -far / 2, far / 2, -far, far};
    for (const int a : moves) {
      for (const int b : moves) {
        const int k = j + b - i - a;
        if (k < 3 || k > count_ - 3 || i + a < -count_ || i + a >= 2 * count_) continue;
        Pocket other = between(i + a, j + b);
        if (exceeds(other, at(i + a), at(j + b), pocket.beyond_half_circle() + 1e-6)) return false;
      }
    }
    return true;
  }

  /// The best mouth within a step or two, on the shore itself; none where it closes there.
  [[nodiscard]] std::optional<Pocket> refined(const Pocket& rough) const {
    const auto exact = [&](double from, double to, double excess) -> std::optional<Pocket> {
      const XY a = ring_.place(from), b = ring_.place(to);
      Pocket pocket{from, to, distance(a, b).value(), ring_.cut_off(from, to)};
      if (!exceeds(pocket, a, b, excess)) return std::nullopt;
      return pocket;
    };
    auto best = exact(rough.from, rough.to, 0);
    if (!best) return std::nullopt;
    for (double by = step_ / 2; by > 0.05; by /= 2) {
      bool moved = true;
      for (int tries = 0; moved && tries < 8; ++tries) {
        moved = false;
        for (const auto& [a, b] : {std::pair(-by, 0.0), std::pair(by, 0.0), std::pair(0.0, -by), std::pair(0.0, by)}) {
          const auto other = exact(best->from + a, best->to + b, best->beyond_half_circle() + 1e-6);
          if (!other) continue;
          best = other;
          moved = true;
        }
      }
    }
    return best;
  }

  [[nodiscard]] bool is_bay(const Pocket& pocket) const {
    return pocket.area <= largest_ && pocket.area >= options_.bay_area.value() && pocket.chord > 0 &&
           pocket.to - pocket.from >= options_.bay_winding * pocket.chord && pocket.beyond_half_circle() > 0;
  }

  /// Whether one stretch of the ring lies in the other, or they have nothing in common.
  enum class Overlap { none, inside, around, partly };
  [[nodiscard]] Overlap overlap(const Pocket& a, const Pocket& b) const {
    for (const double round : {-ring_.length(), 0.0, ring_.length()}) {
      const double from = b.from + round, to = b.to + round;
      if (to <= a.from || from >= a.to) continue;
      if (a.from >= from && a.to <= to) return Overlap::inside;
      if (from >= a.from && to <= a.to) return Overlap::around;
      return Overlap::partly;
    }
    return Overlap::none;
  }

  [[nodiscard]] std::vector<Pocket> each_once(std::vector<Pocket> all) const {
    std::stable_sort(all.begin(), all.end(),
                     [](const Pocket& a, const Pocket& b) { return a.beyond_half_circle() > b.beyond_half_circle(); });
    std::vector<Pocket> kept;
    for (const Pocket& pocket : all) {
      const bool fresh = std::all_of(kept.begin(), kept.end(), [&](const Pocket& other) {
        const Overlap lies = overlap(pocket, other);
        if (lies == Overlap::partly) return false;
        return lies == Overlap::none ||
               std::min(pocket.area, other.area) <= kInnerMost * std::max(pocket.area, other.area);
      });
      if (fresh) kept.push_back(pocket);
    }
    return kept;
  }

  const Lake& lake_;
  const Polygon& water_;
  const ShoreRing& ring_;
  const DetectOptions& options_;
  int count_ = 0;
  double step_ = 1;
  double largest_ = 0;
  std::vector<XY> places_;
  std::vector<char> cuts_;
  Grid<char> crossing_;
  std::vector<Box> islands_;
  std::vector<double> twice_;  ///< running sum over two rounds
};

}  // namespace

std::vector<Pocket> pockets(const Lake& lake, const Polygon& water, const ShoreRing& ring,
                            const DetectOptions& options) {
  return Search(lake, water, ring, options).run();
}

}  // namespace castplan
