// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/season/weeds.hpp"

namespace castplan {
namespace {

constexpr double kOneSided95 = 1.6448536269514722;  // also the half width of a two-sided 90 % interval
constexpr std::size_t kFewest = 10;

struct Samples {
  std::vector<PlantSample> known;
  std::size_t present{};
  double shallowest = std::numeric_limits<double>::infinity();
  double deepest = -std::numeric_limits<double>::infinity();
  double shallowest_plant = std::numeric_limits<double>::infinity();
  double deepest_plant = -std::numeric_limits<double>::infinity();
  double shallowest_bare = std::numeric_limits<double>::infinity();
  double deepest_bare = -std::numeric_limits<double>::infinity();
};

Samples sift(std::span<const PlantSample> samples) {
  Samples result;
  for (const PlantSample& sample : samples) {
    const double z = sample.depth.value();
    if (!std::isfinite(z)) continue;
    result.known.push_back(sample);
    result.shallowest = std::min(result.shallowest, z);
    result.deepest = std::max(result.deepest, z);
    if (sample.present) {
      ++result.present;
      result.shallowest_plant = std::min(result.shallowest_plant, z);
      result.deepest_plant = std::max(result.deepest_plant, z);
    } else {
      result.shallowest_bare = std::min(result.shallowest_bare, z);
      result.deepest_bare = std::max(result.deepest_bare, z);
    }
  }
  return result;
}

[[noreturn]] void no_fall() {
  throw InputError(
      "plant samples: plants do not grow clearly scarcer with depth, so no edge can be fitted; check that depths are "
      "in "
      "metres and positive down, or sample deeper water");
}

void refuse_the_hopeless(const Samples& samples) {
  const std::size_t count = samples.known.size();
  if (count < kFewest) {
    throw InputError(
        fmt::format("plant samples: {} with a depth, at least {} are needed to fit the weed edge", count, kFewest));
  }
  if (samples.present == 0 || samples.present == count) {
    throw InputError(fmt::format("plant samples: all {} are {}; the weed edge lies where they change, so sample {}",
                                 count, samples.present == 0 ? "bare" : "with plants",
                                 samples.present == 0 ? "shallower water" : "deeper water"));
  }
  if (!(samples.shallowest < samples.deepest)) no_fall();
}

// Odds of a plant: exp(a + b u), with u the depth less its mean over its spread, which keeps Newton's steps tame.
struct Logit {
  double a{}, b{};
  double aa{}, ab{}, bb{};  // information matrix at (a, b)
  double likelihood{};      // its logarithm
  double step_a{}, step_b{};
};

Logit evaluate(const std::vector<double>& u, const std::vector<PlantSample>& samples, double a, double b) {
  Logit fit{.a = a, .b = b};
  double slope_a = 0.0;
  double slope_b = 0.0;
  for (std::size_t i = 0; i < u.size(); ++i) {
    const double odds = a + b * u[i];
    const double p = 1.0 / (1.0 + std::exp(-odds));
    const double y = samples[i].present ? 1.0 : 0.0;
    // log(1 + exp(x)) written so that it cannot overflow
    fit.likelihood += y * odds - (std::max(odds, 0.0) + std::log1p(std::exp(-std::abs(odds))));
    slope_a += y - p;
    slope_b += (y - p) * u[i];
    const double w = p * (1.0 - p);
    fit.aa += w;
    fit.ab += w * u[i];
    fit.bb += w * u[i] * u[i];
  }
  const double determinant = fit.aa * fit.bb - fit.ab * fit.ab;
  fit.step_a = (fit.bb * slope_a - fit.ab * slope_b) / determinant;
  fit.step_b = (fit.aa * slope_b - fit.ab * slope_a) / determinant;
  return fit;
}

Logit fit_logit(const std::vector<double>& u, const std::vector<PlantSample>& samples) {
  Logit fit = evaluate(u, samples, 0.0, 0.0);
  for (int round = 0; round < 100; ++round) {
    double length = 1.0;
    Logit next = evaluate(u, samples, fit.a + fit.step_a, fit.b + fit.step_b);
    while (!(next.likelihood >= fit.likelihood) && length > 1e-6) {
      length /= 2.0;
      next = evaluate(u, samples, fit.a + length * fit.step_a, fit.b + length * fit.step_b);
    }
    const double moved = std::abs(next.a - fit.a) + std::abs(next.b - fit.b);
    fit = next;
    if (moved < 1e-10) return fit;
  }
  throw InputError("plant samples: no weed edge could be fitted; check depths and presence");
}

WeedDepth fit_curve(const Samples& samples) {
  const auto count = static_cast<double>(samples.known.size());
  double mean = 0.0;
  for (const PlantSample& sample : samples.known) mean += sample.depth.value() / count;
  const double spread = samples.deepest - samples.shallowest;
  std::vector<double> u;
  u.reserve(samples.known.size());
  for (const PlantSample& sample : samples.known) u.push_back((sample.depth.value() - mean) / spread);

  const Logit fit = fit_logit(u, samples.known);
  const double determinant = fit.aa * fit.bb - fit.ab * fit.ab;
  const double variance_b = fit.aa / determinant;
  if (!(fit.b + kOneSided95 * std::sqrt(variance_b) < 0.0)) no_fall();

  const double even = -fit.a / fit.b;
  const double edge = mean + spread * even;
  if (edge < samples.shallowest || edge > samples.deepest) {
    throw InputError(fmt::format(
        "plant samples: the edge would lie at {:.1f} m, outside the sampled {:.1f} to {:.1f} m; sample further", edge,
        samples.shallowest, samples.deepest));
  }
  // Delta method for -a/b: covariances are bb, -ab and aa over the determinant.
  const double variance = (fit.bb - 2.0 * even * fit.ab + even * even * fit.aa) / determinant / (fit.b * fit.b);
  const double half = kOneSided95 * spread * std::sqrt(variance);
  return {Metres(edge), Metres(std::min(edge, std::max(0.0, edge - half))), Metres(edge + half),
          Metres(samples.deepest_plant)};
}

}  // namespace

WeedDepth fit_weed_depth(std::span<const PlantSample> all) {
  const Samples samples = sift(all);
  refuse_the_hopeless(samples);
  if (samples.deepest_plant <= samples.shallowest_bare) {
    const double middle = (samples.deepest_plant + samples.shallowest_bare) / 2.0;
    return {Metres(middle), Metres(samples.deepest_plant), Metres(samples.shallowest_bare),
            Metres(samples.deepest_plant)};
  }
  // The other way about the likelihood has no maximum either.
  if (samples.shallowest_plant >= samples.deepest_bare) no_fall();
  return fit_curve(samples);
}

}  // namespace castplan
