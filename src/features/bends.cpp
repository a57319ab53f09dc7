// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/bends.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "castplan/geo/shape.hpp"

namespace castplan {

namespace {

constexpr double kShortest = 8;    // windows of contour
constexpr double kLook = 2.5;      // windows to each side in which a bend must end
constexpr double kFallTo = 0.5;    // share of the turn that it must fall to on both sides
constexpr double kSameAxis = 0.5;  // cosine of the angle by which axes may differ from depth to depth: 60 degrees
constexpr double kSideways = 0.7;  // cosine of the angle between the axis and the way to the next bend: 45 degrees
constexpr int kMissing = 1;        // depths that may be missing between two

/// The closed line begun at the vertex that is farthest from the middle of all, so that the steps along it are the same
/// when the lake is turned or mirrored.
Line begun_far_out(Line line) {
  line.pop_back();
  XY middle{};
  for (const XY at : line) middle = middle + (at - line.front()) * (1 / static_cast<double>(line.size()));
  middle = middle + line.front();
  const auto far = std::max_element(
      line.begin(), line.end(), [&](XY a, XY b) { return dot(a - middle, a - middle) < dot(b - middle, b - middle); });
  std::rotate(line.begin(), far, line.end());
  line.push_back(line.front());
  return line;
}

/// One contour at even steps, and at any place between them; closed ones go on around.
class Contour {
 public:
  Contour(const Line& line, const BendOptions& options)
      : closed_(line.front() == line.back()),
        line_(closed_ ? begun_far_out(line) : line),
        along_(line_.size()),
        places_(resampled(line_, options.step)) {
    for (std::size_t i = 1; i < line_.size(); ++i) {
      along_[i] = along_[i - 1] + distance(line_[i - 1], line_[i]).value();
    }
    if (closed_) places_.pop_back();
    step_ = along_.back() / static_cast<double>(places_.size() - (closed_ ? 0 : 1));
    window_ = options.window.value();
    half_ = std::max(1, static_cast<int>(std::round(window_ / step_)));
    sign_ = options.outward ? 1 : -1;
    turn_.resize(places_.size());
    for (int i = 0; i < size(); ++i) turn_[static_cast<std::size_t>(i)] = turn_at(i);
  }

  [[nodiscard]] int size() const { return static_cast<int>(places_.size()); }
  [[nodiscard]] bool known(int i) const { return closed_ || (i >= half_ && i < size() - half_); }
  /// Positive where the contour bends the way that is looked for; NaN near an open end.
  [[nodiscard]] double turn(int i) const { return known(i) ? turn_[wrapped(i)] : NAN; }
  /// The bend about the i-th place, where the turn is greatest within a step to each side: it does not depend on where
  /// the steps began.
  [[nodiscard]] Bend bend_about(int i, int level) const {
    constexpr int kFine = 8;
    const auto size_at = [this](double along) {
      const XY off = off_chord(along);
      return dot(off, off);
    };
    double best = i * step_, by = step_ / kFine;
    for (int k = -kFine; k <= kFine; ++k) {
      const double along = i * step_ + k * by;
      if (inside(along) && size_at(along) > size_at(best)) best = along;
    }
    for (; by > 0.002; by /= 2) {
      for (const double along : {best - by, best + by}) {
        if (inside(along) && size_at(along) > size_at(best)) best = along;
      }
    }
    const XY off = off_chord(best);
    return {at(best), unit(off) * sign_, std::sqrt(dot(off, off)) / window_, level};
  }

  /// Largest within half a window, and it ends on both sides.
  [[nodiscard]] bool is_bend(int i, double least) const {
    const double peak = turn(i);
    if (!(peak >= least)) return false;
    for (int k = 1; k <= half_; ++k) {
      if (turn(i - k) > peak || turn(i + k) >= peak) return false;
    }
    const double lowest[] = {lowest_beside(i, -1), lowest_beside(i, 1)};
    return std::max(lowest[0], lowest[1]) <= kFallTo * peak && std::min(lowest[0], lowest[1]) <= 0;
  }

 private:
  [[nodiscard]] std::size_t wrapped(int i) const { return static_cast<std::size_t>((i + 2 * size()) % size()); }
  [[nodiscard]] XY place(int i) const { return places_[wrapped(i)]; }
  [[nodiscard]] bool inside(double along) const {
    return closed_ || (along >= window_ && along <= along_.back() - window_);
  }
  [[nodiscard]] XY at(double along) const {
    const double whole = along_.back();
    const double there = closed_ ? along - whole * std::floor(along / whole) : std::clamp(along, 0.0, whole);
    const auto next =
        static_cast<std::size_t>(std::upper_bound(along_.begin() + 1, along_.end() - 1, there) - along_.begin());
    const double side = along_[next] - along_[next - 1];
    const double share = side > 0 ? std::clamp((there - along_[next - 1]) / side, 0.0, 1.0) : 0.0;
    return line_[next - 1] + (line_[next] - line_[next - 1]) * share;
  }
  /// From the middle of the chord between the ends of the window to the place.
  [[nodiscard]] XY off_chord(double along) const {
    return at(along) - (at(along - window_) + at(along + window_)) * 0.5;
  }
  [[nodiscard]] double turn_at(int i) const {
    if (!known(i)) return NAN;
    const XY off = place(i) - (place(i - half_) + place(i + half_)) * 0.5;
    const double side = cross(place(i + 1) - place(i - 1), off) >= 0 ? 1 : -1;  // left is deep
    return sign_ * side * std::sqrt(dot(off, off)) / (half_ * step_);
  }
  [[nodiscard]] double lowest_beside(int i, int way) const {
    double lowest = turn(i);
    for (int k = 1; k <= static_cast<int>(kLook * half_) && known(i + way * k); ++k) {
      const double here = turn(i + way * k);
      if (here > turn(i)) break;
      lowest = std::min(lowest, here);
    }
    return lowest;
  }

  bool closed_;
  Line line_;
  std::vector<double> along_;  ///< length of the contour to each vertex
  Line places_;
  double step_ = 1;
  double window_ = 1;
  int half_ = 1;  ///< a window in steps
  double sign_ = 1;
  std::vector<double> turn_;
};

/// Two bends that may be one form at two depths.
struct Link {
  double away;
  std::size_t chain;
  std::size_t bend;
};

bool follows(const Bend& shallow, const Bend& deep, Metres reach) {
  const XY way = deep.at - shallow.at;
  const double away = std::hypot(way.x, way.y);
  if (away > reach.value() * (deep.level - shallow.level) || dot(shallow.deep, deep.deep) < kSameAxis) return false;
  return away < reach.value() / 4 || dot(unit(way), unit(shallow.deep + deep.deep)) >= kSideways;
}

}  // namespace

std::vector<Bend> bends(const Lines& lines, int level, const BendOptions& options) {
  std::vector<Bend> found;
  for (const Line& line : lines) {
    if (length(line) < options.window * kShortest) continue;
    const Contour contour(line, options);
    for (int i = 0; i < contour.size(); ++i) {
      if (contour.is_bend(i, options.least)) found.push_back(contour.bend_about(i, level));
    }
  }
  return found;
}

std::vector<BendChain> chained(const std::vector<std::vector<Bend>>& by_level, Metres reach) {
  std::vector<BendChain> chains;
  for (const std::vector<Bend>& here : by_level) {
    std::vector<Link> links;
    for (std::size_t c = 0; c < chains.size(); ++c) {
      for (std::size_t b = 0; b < here.size(); ++b) {
        const Bend& last = chains[c].back();
        if (here[b].level - last.level <= 1 + kMissing && follows(last, here[b], reach)) {
          links.push_back({distance(last.at, here[b].at).value(), c, b});
        }
      }
    }
    std::sort(links.begin(), links.end(), [](const Link& a, const Link& b) {
      return std::tuple(a.away, a.chain, a.bend) < std::tuple(b.away, b.chain, b.bend);
    });
    std::vector<bool> taken_bend(here.size()), taken_chain(chains.size());
    for (const Link& link : links) {
      if (taken_bend[link.bend] || taken_chain[link.chain]) continue;
      taken_bend[link.bend] = taken_chain[link.chain] = true;
      chains[link.chain].push_back(here[link.bend]);
    }
    for (std::size_t b = 0; b < here.size(); ++b) {
      if (!taken_bend[b]) chains.push_back({here[b]});
    }
  }
  std::erase_if(chains, [](const BendChain& chain) { return chain.size() < 2; });
  return chains;
}

}  // namespace castplan
