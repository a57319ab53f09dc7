// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/rank_interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <utility>

namespace castplan {

namespace {

constexpr double kLevelError = 0.1;     // metres: of the water's surface on the day
constexpr double kWeightSpread = 0.15;  // of the logarithm of a weight
constexpr double kAlike = 1e-6;         // on the diagonal, so that two targets at one place do no harm

/// Numbers that are the same on every machine: splitmix64 (Steele, Lea & Flood 2014) and Box & Muller (1958).
class Normals {
 public:
  explicit Normals(std::uint64_t seed) : state_(seed) {}
  double operator()() {
    if (kept_) {
      kept_ = false;
      return other_;
    }
    const double radius = std::sqrt(-2 * std::log(even()));
    const double angle = 2 * M_PI * even();
    other_ = radius * std::sin(angle);
    kept_ = true;
    return radius * std::cos(angle);
  }

  double even() {  // in (0, 1]
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return static_cast<double>(((z ^ (z >> 31U)) >> 11U) + 1) * 0x1p-53;
  }

 private:
  std::uint64_t state_;
  double other_ = 0;
  bool kept_ = false;
};

/// Lower triangle whose product with itself is the covariance of the depth errors (Cholesky).
std::vector<double> error_root(std::span<const TargetDoubt> all) {
  const std::size_t n = all.size();
  std::vector<double> root(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      const double alike = std::exp(-distance(all[i].at, all[j].at).value() / kErrorReach.value());
      double sum = all[i].error.value() * all[j].error.value() * (alike + (i == j ? kAlike : 0));
      for (std::size_t k = 0; k < j; ++k) sum -= root[i * n + k] * root[j * n + k];
      root[i * n + j] = i == j ? std::sqrt(std::max(sum, 1e-12)) : sum / root[j * n + j];
    }
  }
  return root;
}

/// What one draw holds for the whole lake.
struct Draw {
  double level;
  double weeds;
  std::array<double, kFactors> weights;
};

double score_of(const TargetDoubt& target, const Draw& draw, double deeper, Normals& normal) {
  double sum = 0, log_score = 0;
  const bool lost = normal.even() <= target.loss;
  const bool bare = std::abs(draw.weeds - deeper) * 100 / target.grade_pct > kOnEdge.value();
  for (const Doubt& doubt : target.doubts) {
    const double chance = normal();  // drawn whether needed or not, so that draws stay in step
    const bool moved = bare && doubt.bare_curve != nullptr;
    const Curve& curve = moved ? *doubt.bare_curve : *doubt.curve;
    const double mean = moved ? doubt.bare : lost && doubt.lost ? *doubt.lost : doubt.value;
    double value = mean + (moved ? 0 : doubt.sd * chance);
    if (doubt.factor == Factor::depth) value += deeper + draw.level;
    if (doubt.factor == Factor::weed_edge) value += deeper - draw.weeds;
    for (const double chance_of_one : doubt.maybe) value += normal.even() <= chance_of_one ? 1 : 0;
    if (doubt.factor != Factor::weed_edge) value = std::max(value, 0.0);
    const double suits = std::clamp(curve(value), 1e-6, 1.0);
    const double weight = doubt.weight * draw.weights[static_cast<std::size_t>(doubt.factor)];
    sum += weight;
    log_score += weight * std::log(suits);
  }
  return sum > 0 ? log_score / sum : 0;
}

/// Correlation of two lists of numbers; 0 where either does not vary.
double correlation(std::span<const double> a, std::span<const double> b) {
  const auto n = static_cast<double>(a.size());
  const double mean_a = std::accumulate(a.begin(), a.end(), 0.0) / n;
  const double mean_b = std::accumulate(b.begin(), b.end(), 0.0) / n;
  double ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += (a[i] - mean_a) * (b[i] - mean_b);
    aa += (a[i] - mean_a) * (a[i] - mean_a);
    bb += (b[i] - mean_b) * (b[i] - mean_b);
  }
  return aa > 0 && bb > 0 ? ab / std::sqrt(aa * bb) : 0;
}

/// Ranks and depth errors of every draw, target by target.
struct Drawn {
  std::vector<std::vector<double>> rank, deeper;
  std::vector<int> ahead;  ///< how often each was better than the next
};

Drawn drawn_ranks(std::span<const TargetDoubt> leading, const RankDraws& draws) {
  const std::size_t n = leading.size();
  const std::vector<double> root = error_root(leading);
  Normals normal(draws.seed);
  Drawn out{std::vector(n, std::vector<double>{}), std::vector(n, std::vector<double>{}), std::vector<int>(n)};
  std::vector<double> independent(n), score(n);
  std::vector<std::size_t> order(n);
  for (int number = 0; number < draws.count; ++number) {
    Draw draw{kLevelError * normal(), draws.weed_error.value() * normal(), {}};
    for (double& weight : draw.weights) weight = std::exp(kWeightSpread * normal());
    for (double& each : independent) each = normal();
    for (std::size_t i = 0; i < n; ++i) {
      double deeper = 0;
      for (std::size_t k = 0; k <= i; ++k) deeper += root[i * n + k] * independent[k];
      out.deeper[i].push_back(deeper);
      score[i] = score_of(leading[i], draw, deeper, normal);
    }
    std::iota(order.begin(), order.end(), 0U);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return score[a] > score[b]; });
    for (std::size_t rank = 0; rank < n; ++rank) out.rank[order[rank]].push_back(static_cast<double>(rank) + 1);
    for (std::size_t i = 0; i + 1 < n; ++i) out.ahead[i] += score[i] > score[i + 1] ? 1 : 0;
  }
  return out;
}

/// The narrowest run of ranks that holds at least 90 % of the draws; of equals the one that holds most, then the first.
/// Cutting 5 % off each end holds more than that: ranks are whole numbers, and those at the ends are held in full.
/// ranks: sorted.
std::pair<int, int> narrowest(std::span<const double> ranks) {
  const auto needed = static_cast<std::ptrdiff_t>(std::ceil(0.9 * static_cast<double>(ranks.size())));
  std::pair<int, int> best{static_cast<int>(ranks.front()), static_cast<int>(ranks.back())};
  std::ptrdiff_t most = 0;
  for (int low = best.first, end = best.second; low <= end; ++low) {
    const auto from = std::lower_bound(ranks.begin(), ranks.end(), low);
    if (ranks.end() - from < needed) break;
    const int high = static_cast<int>(*(from + (needed - 1)));
    const std::ptrdiff_t held = std::upper_bound(from, ranks.end(), high) - from;
    const int width = high - low, narrow = best.second - best.first;
    if (width > narrow || (width == narrow && held <= most)) continue;
    best = {low, high};
    most = held;
  }
  return best;
}

}  // namespace

std::vector<RankInterval> rank_intervals(std::span<const TargetDoubt> leading, const RankDraws& draws) {
  const Drawn drawn = drawn_ranks(leading, draws);
  std::vector<RankInterval> out;
  for (std::size_t i = 0; i < leading.size(); ++i) {
    std::vector<double> ranks = drawn.rank[i];
    std::sort(ranks.begin(), ranks.end());
    const auto [low, high] = narrowest(ranks);
    RankInterval interval;
    const int own = static_cast<int>(i) + 1;
    interval.low = std::min(own, low);
    interval.high = std::max(own, high);
    interval.ahead = i + 1 < leading.size() ? static_cast<double>(drawn.ahead[i]) / draws.count : 1.0;
    interval.by_depth = std::abs(correlation(drawn.rank[i], drawn.deeper[i])) * (interval.high - interval.low);
    out.push_back(interval);
  }
  return out;
}

}  // namespace castplan
