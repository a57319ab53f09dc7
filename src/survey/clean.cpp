// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/survey/clean.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <tuple>

#include "castplan/geo/planar.hpp"
#include "survey/spikes.hpp"

namespace castplan {
namespace {

using Numbers = std::vector<std::size_t>;

class Sieve {
 public:
  explicit Sieve(const std::vector<Sounding>& soundings) : soundings_(soundings), reason_(soundings.size()) {}

  /// Numbers of those not rejected so far, in order.
  [[nodiscard]] Numbers left() const {
    Numbers numbers;
    for (std::size_t i = 0; i < reason_.size(); ++i) {
      if (!reason_[i]) numbers.push_back(i);
    }
    return numbers;
  }
  void reject(const Numbers& numbers, Rejection reason) {
    for (const std::size_t number : numbers) reason_[number] = reason;
  }
  template <class Test>
  void reject_where(Rejection reason, const Test& test) {
    for (const std::size_t number : left()) {
      if (test(soundings_[number])) reason_[number] = reason;
    }
  }
  [[nodiscard]] Cleaned result() const {
    Cleaned cleaned;
    for (std::size_t i = 0; i < soundings_.size(); ++i) {
      if (!reason_[i]) {
        cleaned.kept.push_back(soundings_[i]);
        continue;
      }
      cleaned.rejected.push_back({.sounding = soundings_[i], .number = i, .reason = *reason_[i]});
      ++cleaned.counts[static_cast<std::size_t>(*reason_[i])];
    }
    return cleaned;
  }

 private:
  const std::vector<Sounding>& soundings_;
  std::vector<std::optional<Rejection>> reason_;
};

/// All but the middle depth of each group that shares a place.
Numbers duplicates(const std::vector<Sounding>& soundings, const Numbers& order, Metres side) {
  struct Placed {
    double row;
    double col;
    double depth;
    std::size_t number;
  };
  std::vector<Placed> placed;
  for (const std::size_t number : order) {
    const Sounding& sounding = soundings[number];
    const double size = side > Metres(0.0) ? side.value() : 1e-9;
    placed.push_back({std::floor(sounding.at.y / size), std::floor(sounding.at.x / size),
                      static_cast<double>(sounding.depth.value()), number});
  }
  std::sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
    return std::tie(a.row, a.col, a.depth, a.number) < std::tie(b.row, b.col, b.depth, b.number);
  });
  Numbers found;
  for (std::size_t first = 0; first < placed.size();) {
    std::size_t last = first + 1;
    while (last < placed.size() && placed[last].row == placed[first].row && placed[last].col == placed[first].col) {
      ++last;
    }
    const std::size_t middle = first + (last - first - 1) / 2;
    for (std::size_t i = first; i < last; ++i) {
      if (i != middle) found.push_back(placed[i].number);
    }
    first = last;
  }
  return found;
}

}  // namespace

std::string_view text(Rejection reason) {
  constexpr std::array<std::string_view, kRejections.size()> kTexts = {"not finite", "above water", "on land",
                                                                       "spike",      "outlier",     "duplicate"};
  return kTexts[static_cast<std::size_t>(reason)];
}

Cleaned clean_soundings(std::vector<Sounding> soundings, const Polygons& shoreline, const CleanOptions& options) {
  Sieve sieve(soundings);
  sieve.reject_where(Rejection::not_finite, [](const Sounding& s) {
    return !std::isfinite(s.at.x) || !std::isfinite(s.at.y) || !std::isfinite(s.depth.value());
  });
  sieve.reject_where(Rejection::above_water, [](const Sounding& s) { return s.depth < Metres32(0.0F); });
  if (!shoreline.empty()) {
    const PreparedShape lake(shoreline);
    sieve.reject_where(Rejection::on_land, [&](const Sounding& s) { return !lake.covers(s.at); });
  }
  sieve.reject(survey::spikes(soundings, sieve.left(), options), Rejection::spike);
  sieve.reject(survey::outliers(soundings, sieve.left(), options), Rejection::outlier);
  sieve.reject(duplicates(soundings, sieve.left(), options.same_place), Rejection::duplicate);
  return sieve.result();
}

}  // namespace castplan
