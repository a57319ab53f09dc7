// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/thermocline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/season/mixing.hpp"

namespace castplan {
namespace {

constexpr double kGravity = 9.81;
constexpr double kSpread = 0.25;  // design choice
constexpr Celsius kDensestWater{3.98};

using Levels = std::span<const TemperatureAtDepth>;

void check(Levels levels) {
  for (std::size_t i = 0; i < levels.size(); ++i) {
    const double depth = levels[i].depth.value();
    if (!std::isfinite(depth) || !std::isfinite(levels[i].temperature.value())) {
      throw InputError(fmt::format("temperature profile, level {}: depth and temperature must be numbers", i + 1));
    }
    if (i > 0 && !(levels[i - 1].depth < levels[i].depth)) {
      throw InputError(fmt::format("temperature profile, level {}: {:g} m does not lie below the level before, {:g} m",
                                   i + 1, depth, levels[i - 1].depth.value()));
    }
  }
}

bool mixed(Levels levels, CelsiusStep least_range) {
  const auto [coldest, warmest] = std::minmax_element(
      levels.begin(), levels.end(),
      [](const TemperatureAtDepth& a, const TemperatureAtDepth& b) { return a.temperature < b.temperature; });
  return warmest->temperature - coldest->temperature < least_range;
}

// Ice or the first cold days: what lies above is lighter because it is colder than 4 C.
bool coldest_on_top(Levels levels) {
  return levels.front().temperature < kDensestWater && levels.front().temperature < levels.back().temperature;
}

std::vector<double> gradients(Levels levels, DensityFormula density) {
  std::vector<double> out;
  for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
    out.push_back((density(levels[i + 1].temperature) - density(levels[i].temperature)).value() /
                  (levels[i + 1].depth - levels[i].depth).value());
  }
  return out;
}

// Between the levels of interval k, nearer to the side on which the gradient falls off less.
Metres refined(Levels levels, const std::vector<double>& gradient, std::size_t k) {
  const double up = levels[k].depth.value();
  const double down = levels[k + 1].depth.value();
  if (k == 0 || k + 1 == gradient.size()) return Metres((up + down) / 2);
  const double below = -(down - up) / (gradient[k + 1] - gradient[k]);
  const double above = (up - levels[k - 1].depth.value()) / (gradient[k] - gradient[k - 1]);
  // a neighbour as steep as the peak itself: no side is nearer
  if (!std::isfinite(below) || !std::isfinite(above)) return Metres((up + down) / 2);
  return Metres(down * (below / (below + above)) + up * (above / (below + above)));
}

std::optional<std::size_t> deepest_peak(const std::vector<double>& gradient, double least) {
  for (std::size_t k = gradient.size() - 1; k-- > 1;) {
    if (gradient[k] > gradient[k - 1] && gradient[k] > gradient[k + 1] && gradient[k] > least) return k;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Metres> thermocline_in(Levels levels, const ThermoclineOptions& options) {
  check(levels);
  if (levels.size() < 3 || mixed(levels, options.mixed_range) || coldest_on_top(levels)) return std::nullopt;
  const std::vector<double> gradient = gradients(levels, options.density);
  const auto steepest = static_cast<std::size_t>(std::max_element(gradient.begin(), gradient.end()) - gradient.begin());
  if (!(gradient[steepest] > 0)) return std::nullopt;
  const Metres depth = refined(levels, gradient, steepest);
  if (options.step == Step::steepest || gradient.size() < 3) return depth;
  const auto peak = deepest_peak(gradient, std::max(options.peak_share * gradient[steepest], options.least_gradient));
  // the interval beside the steepest one is the same step
  if (!peak || *peak <= steepest + 1) return depth;
  return std::max(depth, refined(levels, gradient, *peak));
}

std::optional<ThermoclineDepth> predicted_thermocline(SquareMetres area, Metres max_depth) {
  if (!(area.value() > 0) || !(max_depth.value() > 0) || !std::isfinite(area.value()) ||
      !std::isfinite(max_depth.value())) {
    throw InputError(fmt::format("predicted thermocline: area {:g} m2 and greatest depth {:g} m must be more than 0",
                                 area.value(), max_depth.value()));
  }
  const Metres expected = hanna_area(area);
  if (expected > max_depth || layering(area, max_depth) == Layering::mixes) return std::nullopt;
  return ThermoclineDepth{expected, expected * (1 - kSpread), std::min(expected * (1 + kSpread), max_depth)};
}

Metres hanna_area(SquareMetres area) { return Metres(std::pow(10.0, 0.185 * std::log10(area.value() * 1e-6) + 0.842)); }

Metres hanna_length(Metres greatest_effective_length) {
  return Metres(std::pow(10.0, 0.336 * std::log10(greatest_effective_length.value()) - 0.245));
}

Metres gorham_boyce(double storm_stress_pa, KilogramsPerCubicMetre density_step, Metres length) {
  return Metres(2.0 * std::sqrt(storm_stress_pa / (kGravity * density_step.value())) * std::sqrt(length.value()));
}

}  // namespace castplan
