// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <array>
#include <cmath>
#include <cstdint>
#include <tuple>

#include "castplan/grid/sweep.hpp"
#include "survey/robust.hpp"
#include "survey/spikes.hpp"

namespace castplan::survey {
namespace {

constexpr std::size_t kLeastAround = 10;  // soundings that can judge another
constexpr std::size_t kMostAround = 150;  // that are asked, spread evenly over those there
constexpr std::size_t kConfirm = 2;       // others close by that make a depth believable
constexpr int kRounds = 4;                // of fitting the slope again without what it does not fit
constexpr std::size_t kPiece = 256;       // squares a piece of work

struct Placed {
  std::int64_t row;
  std::int64_t col;
  std::size_t number;
  auto operator<=>(const Placed&) const = default;
};

struct Place {
  double x;
  double y;
  double depth;
};

/// depth = a + b x + c y
using Plane = std::array<double, 3>;

double on(const Plane& plane, const Place& at) { return plane[0] + plane[1] * at.x + plane[2] * at.y; }

/// Least squares with weights; flat at the weighted mean where the places lie on one line.
Plane plane_through(const std::vector<Place>& places, const std::vector<double>& weights) {
  double w = 0, x = 0, y = 0, z = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    w += weights[i];
    x += weights[i] * places[i].x;
    y += weights[i] * places[i].y;
    z += weights[i] * places[i].depth;
  }
  if (!(w > 0)) return {0, 0, 0};
  x /= w;
  y /= w;
  z /= w;
  double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double dx = places[i].x - x;
    const double dy = places[i].y - y;
    const double dz = places[i].depth - z;
    xx += weights[i] * dx * dx;
    xy += weights[i] * dx * dy;
    yy += weights[i] * dy * dy;
    xz += weights[i] * dx * dz;
    yz += weights[i] * dy * dz;
  }
  // a trace of stiffness keeps a single track's slope along itself and none across
  const double ridge = 1e-6 * (xx + yy) + 1e-12;
  xx += ridge;
  yy += ridge;
  const double det = xx * yy - xy * xy;
  const double b = (xz * yy - yz * xy) / det;
  const double c = (yz * xx - xz * xy) / det;
  return {z - b * x - c * y, b, c};
}

struct Slope {
  Plane plane;
  double centre;
  double deviation;
};

/// The plane that most of the places agree on: fitted again and again with less weight for what lies off it.
Slope slope_of(const std::vector<Place>& places) {
  std::vector<double> weights(places.size(), 1.0);
  Slope slope{};
  for (int round = 0; round < kRounds; ++round) {
    slope.plane = plane_through(places, weights);
    std::vector<double> off;
    for (const Place& place : places) off.push_back(place.depth - on(slope.plane, place));
    std::vector<double> scratch = off;
    slope.centre = median(scratch);
    slope.deviation = robust_deviation(scratch, slope.centre);
    for (std::size_t i = 0; i < places.size(); ++i) {
      const double far = std::abs(off[i] - slope.centre) / (3.0 * slope.deviation + 0.05);
      weights[i] = far < 1.0 ? (1.0 - far * far) * (1.0 - far * far) : 0.0;
    }
  }
  return slope;
}

class Neighbours {
 public:
  Neighbours(const std::vector<Sounding>& soundings, const std::vector<std::size_t>& order, Metres side)
      : soundings_(soundings) {
    for (const std::size_t number : order) {
      const XY place = soundings[number].at;
      placed_.push_back({static_cast<std::int64_t>(std::floor(place.y / side.value())),
                         static_cast<std::int64_t>(std::floor(place.x / side.value())), number});
    }
    std::sort(placed_.begin(), placed_.end());
    for (std::size_t i = 0; i < placed_.size(); ++i) {
      if (i == 0 || placed_[i].row != placed_[i - 1].row || placed_[i].col != placed_[i - 1].col) start_.push_back(i);
    }
    start_.push_back(placed_.size());
  }
  [[nodiscard]] std::size_t squares() const { return start_.size() - 1; }
  [[nodiscard]] std::vector<std::size_t> in(std::size_t square) const {
    std::vector<std::size_t> numbers;
    for (std::size_t i = start_[square]; i < start_[square + 1]; ++i) numbers.push_back(placed_[i].number);
    return numbers;
  }
  /// Those of the square and the eight about it.
  [[nodiscard]] std::vector<std::size_t> about(std::size_t square) const {
    const Placed& centre = placed_[start_[square]];
    std::vector<std::size_t> numbers;
    for (std::int64_t row = centre.row - 1; row <= centre.row + 1; ++row) {
      const Placed from{row, centre.col - 1, 0};
      const auto first = std::lower_bound(placed_.begin(), placed_.end(), from);
      for (auto it = first; it != placed_.end() && it->row == row && it->col <= centre.col + 1; ++it) {
        numbers.push_back(it->number);
      }
    }
    return numbers;
  }
  [[nodiscard]] Place place(std::size_t number, XY origin) const {
    const Sounding& sounding = soundings_[number];
    return {sounding.at.x - origin.x, sounding.at.y - origin.y, static_cast<double>(sounding.depth.value())};
  }

 private:
  const std::vector<Sounding>& soundings_;
  std::vector<Placed> placed_;
  std::vector<std::size_t> start_;
};

bool is_confirmed(const std::vector<Place>& all, const Place& place, double radius, double within) {
  std::size_t count = 0;
  for (const Place& other : all) {
    const double away = std::hypot(other.x - place.x, other.y - place.y);
    if (away <= radius && std::abs(other.depth - place.depth) <= within) ++count;
  }
  return count > kConfirm;  // itself is one
}

std::vector<std::size_t> outliers_in(const Neighbours& neighbours, std::size_t square, const CleanOptions& options,
                                     const std::vector<Sounding>& soundings) {
  std::vector<std::size_t> found;
  const std::vector<std::size_t> about = neighbours.about(square);
  if (about.size() < kLeastAround) return found;
  const XY origin = soundings[about.front()].at;
  std::vector<Place> all;
  std::vector<Place> asked;
  const std::size_t stride = (about.size() + kMostAround - 1) / kMostAround;
  for (std::size_t i = 0; i < about.size(); ++i) {
    all.push_back(neighbours.place(about[i], origin));
    if (i % stride == 0) asked.push_back(all.back());
  }
  const Slope slope = slope_of(asked);
  for (const std::size_t number : neighbours.in(square)) {
    const Place place = neighbours.place(number, origin);
    const double expected = on(slope.plane, place) + slope.centre;
    const double least =
        std::max(2.0 * options.least_spike.value(), 2.0 * options.least_spike_share * std::abs(expected));
    const double most = std::max(least, options.robust_errors * slope.deviation);
    if (std::abs(place.depth - expected) <= most) continue;
    if (!is_confirmed(all, place, options.neighbourhood.value(), most)) found.push_back(number);
  }
  return found;
}

}  // namespace

std::vector<std::size_t> outliers(const std::vector<Sounding>& soundings, const std::vector<std::size_t>& order,
                                  const CleanOptions& options) {
  const Neighbours neighbours(soundings, order, options.neighbourhood);
  const std::size_t pieces = (neighbours.squares() + kPiece - 1) / kPiece;
  std::vector<std::vector<std::size_t>> of_piece(pieces);
  each(static_cast<int>(pieces), [&](int piece) {
    const std::size_t first = static_cast<std::size_t>(piece) * kPiece;
    for (std::size_t square = first; square < std::min(first + kPiece, neighbours.squares()); ++square) {
      const auto found = outliers_in(neighbours, square, options, soundings);
      auto& all = of_piece[static_cast<std::size_t>(piece)];
      all.insert(all.end(), found.begin(), found.end());
    }
  });
  std::vector<std::size_t> found;
  for (const auto& piece : of_piece) found.insert(found.end(), piece.begin(), piece.end());
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace castplan::survey
