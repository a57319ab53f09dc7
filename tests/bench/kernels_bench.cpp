// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Nanoseconds a cell stand in the column "ns_per_cell"; the second argument is the number of threads.
#include <benchmark/benchmark.h>

#include "bench/synthetic.hpp"
#include "castplan/features/merge_tree.hpp"
#include "castplan/grid/distance.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sweep.hpp"
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
void distance_grid(benchmark::State& state) {
  measure(state, [](const auto& lake) {
    benchmark::DoNotOptimize(distance_to(lake.frame(), [&](Cell at) { return !(lake[at].value() > 0); }));
  });
}
void pools_with_sills(benchmark::State& state) {
  measure(state, [](const auto& lake) { benchmark::DoNotOptimize(merge_tree(lake)); });
}

}  // namespace

#define SIZES ->Args({1000, 1})->Args({4000, 1})->Args({4000, 2})->Unit(benchmark::kMillisecond)->UseRealTime()
BENCHMARK(slope_grid) SIZES;
BENCHMARK(smoothing) SIZES;
BENCHMARK(isoline) SIZES;
BENCHMARK(distance_grid) SIZES;
BENCHMARK(pools_with_sills) SIZES;
