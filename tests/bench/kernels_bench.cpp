// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Nanoseconds a cell stand in the column "ns_per_cell"; the second argument is the number of threads.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdint>

#include "bench/synthetic.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/grid/distance.hpp"
#include "castplan/grid/groups.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/lake.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/terrain/disc.hpp"
#include "castplan/terrain/slope.hpp"
#include "castplan/terrain/smooth.hpp"

using namespace castplan;

namespace {

const Grid<Metres32>& lake_of(int side) {
  static Grid<Metres32> lake;
  if (lake.rows() != side) lake = bench::synthetic_lake(side, Metres(2));
  return lake;
}

template <class Work>
void measure(benchmark::State& state, Work work) {
  const Grid<Metres32>& lake = lake_of(static_cast<int>(state.range(0)));
  set_threads(static_cast<int>(state.range(1)));
  for (auto _ : state) work(lake);
  state.counters["ns_per_cell"] =
      benchmark::Counter(static_cast<double>(lake.size()) * 1e-9,
                         benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void slope_grid(benchmark::State& state) {
  measure(state, [](const auto& lake) { benchmark::DoNotOptimize(slope(lake)); });
}
void smoothing(benchmark::State& state) {
  measure(state, [](const auto& lake) { benchmark::DoNotOptimize(smoothed(lake, Metres(8))); });
}
void isoline(benchmark::State& state) {
  measure(state, [](const auto& lake) { benchmark::DoNotOptimize(isolines(lake, 4.0F)); });
}
/// From a mask, as its peer's: a byte a cell, 0 on land.
void distance_grid(benchmark::State& state) {
  const Grid<Metres32>& lake = lake_of(static_cast<int>(state.range(0)));
  Grid<std::uint8_t> water(lake.frame());
  for (std::size_t i = 0; i < lake.size(); ++i) water[i] = lake[i].value() > 0 ? 1 : 0;
  measure(state, [&](const auto&) {
    benchmark::DoNotOptimize(distance_to_marks(water.frame(), [&](int row, int first, std::span<std::uint8_t> out) {
      const auto here = water.row(row).subspan(static_cast<std::size_t>(first), out.size());
      std::transform(here.begin(), here.end(), out.begin(),
                     [](std::uint8_t value) { return static_cast<std::uint8_t>(value == 0); });
    }));
  });
}
void groups(benchmark::State& state) {
  measure(state, [](const auto& lake) {
    benchmark::DoNotOptimize(groups_of(lake.frame(), [&](int row, int first, std::span<std::uint8_t> out) {
      const auto depth = lake.row(row).subspan(static_cast<std::size_t>(first), out.size());
      std::transform(depth.begin(), depth.end(), out.begin(),
                     [](Metres32 value) { return static_cast<std::uint8_t>(value.value() < 6.0F); });
    }));
  });
}
void whole_lake(benchmark::State& state) {
  measure(state, [](const auto& lake) {
    benchmark::DoNotOptimize(make_lake(Projection::transverse_mercator({Longitude{-39}, Latitude{45}}), lake));
  });
}
/// The third argument is the radius in cells.
void disc(benchmark::State& state) {
  const double radius = 2.0 * static_cast<double>(state.range(2));
  measure(state, [radius](const auto& lake) { benchmark::DoNotOptimize(disc_mean(lake, Metres(radius))); });
}
void pools_with_sills(benchmark::State& state) {
  measure(state, [](const auto& lake) { benchmark::DoNotOptimize(merge_tree(lake)); });
}

}  // namespace

#define WITH_PEERS ->Args({2000, 2})->Args({8000, 2})  // those of scripts/bench_peers
#define SIZES ->Args({1000, 1})->Args({4000, 1})->Args({4000, 2})->Unit(benchmark::kMillisecond)->UseRealTime()
BENCHMARK(slope_grid) SIZES;
BENCHMARK(groups) SIZES;
BENCHMARK(whole_lake) SIZES;
BENCHMARK(disc)
    ->ArgsProduct({{4000}, {1, 2}, {5, 25, 50, 100}})
    ->Args({2000, 2, 50})
    ->Args({8000, 2, 50})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK(smoothing) SIZES;
BENCHMARK(isoline) SIZES;
BENCHMARK(distance_grid) SIZES WITH_PEERS;
BENCHMARK(pools_with_sills) SIZES WITH_PEERS;
