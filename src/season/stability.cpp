// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/stability.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

constexpr double kGravity = 9.81;

// Straight lines through points by depth; level beyond the ends. Value at z, seen from below (from_below) or above:
// the two differ at a step.
template <class Point, class Value>
double at(std::span<const Point> points, double z, bool from_below, Value value) {
  const auto depth = [](const Point& point) { return point.depth.value(); };
  std::size_t next = 0;
  while (next < points.size() && (from_below ? depth(points[next]) <= z : depth(points[next]) < z)) ++next;
  if (next == 0) return value(points.front());
  if (next == points.size()) return value(points.back());
  const double before = depth(points[next - 1]);
  const double share = (z - before) / (depth(points[next]) - before);
  return value(points[next - 1]) + share * (value(points[next]) - value(points[next - 1]));
}

double area_of(const AreaAtDepth& point) { return point.area.value(); }
double density_of(const DensityAtDepth& point) { return point.density.value(); }

void check(std::span<const AreaAtDepth> areas) {
  if (areas.size() < 2) throw InputError("stability: at least two depths with their areas are needed");
  for (std::size_t i = 0; i < areas.size(); ++i) {
    if (!std::isfinite(area_of(areas[i])) || area_of(areas[i]) < 0 || !std::isfinite(areas[i].depth.value()) ||
        (i > 0 && !(areas[i - 1].depth < areas[i].depth))) {
      throw InputError(
          fmt::format("stability: area {} of the hypsography, {:g} m2 at {:g} m: areas must be 0 or more "
                      "and depths ascend",
                      i + 1, area_of(areas[i]), areas[i].depth.value()));
    }
  }
  if (!(area_of(areas.front()) > 0)) throw InputError("stability: the surface has no area");
}

void check(std::span<const DensityAtDepth> densities) {
  if (densities.empty()) throw InputError("stability: no density is known");
  for (std::size_t i = 0; i < densities.size(); ++i) {
    if (!std::isfinite(density_of(densities[i])) || !std::isfinite(densities[i].depth.value()) ||
        (i > 0 && densities[i].depth < densities[i - 1].depth)) {
      throw InputError(fmt::format("stability: density {}, {:g} kg/m3 at {:g} m: must be a number, depths ascending",
                                   i + 1, density_of(densities[i]), densities[i].depth.value()));
    }
  }
}

std::vector<double> breaks(std::span<const AreaAtDepth> areas, std::span<const DensityAtDepth> densities) {
  std::vector<double> out;
  for (const AreaAtDepth& point : areas) out.push_back(point.depth.value());
  for (const DensityAtDepth& point : densities) {
    if (point.depth > areas.front().depth && point.depth < areas.back().depth) out.push_back(point.depth.value());
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

}  // namespace

std::vector<AreaAtDepth> hypsography(const Lake& lake) {
  if (lake.bodies.empty()) return {};
  const double deepest = lake.bodies.front().max_depth.value();
  const auto steps = static_cast<std::size_t>(std::max(20.0, std::ceil(deepest)));
  const double step = deepest / static_cast<double>(steps);
  std::vector<std::size_t> deeper(steps + 1, 0);  // cells by the number of steps that they reach below
  const Frame& frame = lake.depth.frame();
  for (int row = 0; row < frame.rows; ++row) {
    for (const GroupRun& run : lake.body_of.row(row)) {
      if (run.group != 0) continue;  // bodies stand largest first
      for (int col = run.first; col < run.last; ++col) {
        const double depth = static_cast<double>(lake.depth[Cell{row, col}].value());
        ++deeper[std::min(steps, static_cast<std::size_t>(std::max(0.0, std::ceil(depth / step))))];
      }
    }
  }
  std::vector<AreaAtDepth> out(steps + 1);
  double cells = 0;
  for (std::size_t i = steps + 1; i-- > 0;) {
    out[i] = {Metres(step * static_cast<double>(i)), frame.cell_area() * cells};
    cells += static_cast<double>(deeper[i]);
  }
  return out;
}

JoulesPerSquareMetre schmidt_stability(std::span<const AreaAtDepth> areas, std::span<const DensityAtDepth> densities) {
  check(areas);
  check(densities);
  // densities less their first: their mean cancels out, and differences are what is left
  const double base = density_of(densities.front());
  double volume = 0, moment = 0, mass = 0, mass_moment = 0;
  const std::vector<double> depths = breaks(areas, densities);
  for (std::size_t i = 0; i + 1 < depths.size(); ++i) {
    const double ends[] = {depths[i], (depths[i] + depths[i + 1]) / 2, depths[i + 1]};
    for (int k = 0; k < 3; ++k) {  // Simpson's rule is exact for the cubic between two breaks
      const double weight = (k == 1 ? 4.0 : 1.0) * (depths[i + 1] - depths[i]) / 6.0;
      const double area = at(areas, ends[k], k < 2, area_of);
      const double density = at(densities, ends[k], k < 2, density_of) - base;
      volume += weight * area;
      moment += weight * area * ends[k];
      mass += weight * area * density;
      mass_moment += weight * area * density * ends[k];
    }
  }
  const double centre = moment / volume;
  return JoulesPerSquareMetre(kGravity / area_of(areas.front()) * (mass_moment - centre * mass));
}

JoulesPerSquareMetre schmidt_stability(std::span<const AreaAtDepth> areas, std::span<const TemperatureAtDepth> levels,
                                       DensityFormula density) {
  if (levels.empty()) throw InputError("stability: no temperature is known");
  std::vector<DensityAtDepth> densities;
  for (std::size_t i = 0; i < levels.size(); ++i) {
    if (i > 0 && !(levels[i - 1].depth < levels[i].depth)) {
      throw InputError(fmt::format("stability: temperature {} does not lie below the one before", i + 1));
    }
    densities.push_back({levels[i].depth, density(levels[i].temperature)});
  }
  return schmidt_stability(areas, std::span<const DensityAtDepth>(densities));
}

JoulesPerSquareMetre two_layer_stability(std::span<const AreaAtDepth> areas, Metres step, Celsius above,
                                         Celsius below) {
  const DensityAtDepth layers[] = {{step, water_density(above)}, {step, water_density(below)}};
  return schmidt_stability(areas, std::span<const DensityAtDepth>(layers));
}

double lake_number(std::span<const AreaAtDepth> areas, JoulesPerSquareMetre stability, Metres thermocline,
                   MetresPerSecond wind) {
  constexpr double kWater = 1000, kAir = 1.2, kDrag = 0.0013;
  check(areas);
  double volume = 0, moment = 0;
  for (std::size_t i = 0; i + 1 < areas.size(); ++i) {
    const double ends[] = {areas[i].depth.value(), (areas[i].depth + areas[i + 1].depth).value() / 2,
                           areas[i + 1].depth.value()};
    for (int k = 0; k < 3; ++k) {
      const double weight = (k == 1 ? 4.0 : 1.0) * (ends[2] - ends[0]) / 6.0;
      volume += weight * at(areas, ends[k], k < 2, area_of);
      moment += weight * at(areas, ends[k], k < 2, area_of) * ends[k];
    }
  }
  const double friction_squared = kAir / kWater * kDrag * wind.value() * wind.value();
  return stability.value() * thermocline.value() /
         (kWater * friction_squared * std::sqrt(area_of(areas.front())) * (moment / volume));
}

std::string_view name_of(Mixing mixing) {
  static constexpr std::string_view kNames[] = {"layered", "turning over", "mixed"};
  return kNames[static_cast<std::size_t>(mixing)];
}

Mixing mixing_of(double lake_number) {
  if (lake_number >= 1) return Mixing::layered;
  return lake_number >= 0.1 ? Mixing::turning_over : Mixing::mixed;
}

Mixing mixing_without_profile(std::span<const AreaAtDepth> areas, Metres thermocline, Celsius surface,
                              Celsius coldest_below, Celsius warmest_below, MetresPerSecond wind) {
  const auto with = [&](Celsius below) {
    const auto stability = two_layer_stability(areas, thermocline, surface, std::min(below, surface));
    return mixing_of(lake_number(areas, stability, thermocline, wind));
  };
  const Mixing cold = with(coldest_below);
  return cold == with(warmest_below) ? cold : Mixing::turning_over;
}

Celsius bottom_temperature(Celsius coldest_month) {
  const double t = coldest_month.value();
  return Celsius(t > 1.4 ? 0.6565 * t + 10.7 : 0.2345 * t + 10.11);
}

}  // namespace castplan
