// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/sweep.hpp"

#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/info.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <vector>

namespace castplan {
namespace {

std::atomic<int> wanted_threads{0};

Band band_of(int number, int rows) {
  return {.first = number * kBandRows, .last = std::min(rows, (number + 1) * kBandRows), .number = number};
}

}  // namespace

void set_threads(int count) {
  // Lifts the library's own limit where more threads are asked for than the machine has. One limit for all sweeps: of
  // several at a time the least would hold, and the library would warn of the others on standard error.
  static oneapi::tbb::global_control* limit = nullptr;  // kept until the process ends
  wanted_threads = std::max(count, 0);
  delete limit;
  limit = nullptr;
  if (count > oneapi::tbb::info::default_concurrency()) {
    limit = new oneapi::tbb::global_control(oneapi::tbb::global_control::max_allowed_parallelism,
                                            static_cast<std::size_t>(count));
  }
}

int threads() {
  const int wanted = wanted_threads;
  return wanted > 0 ? wanted : oneapi::tbb::info::default_concurrency();
}

int band_count(int rows) { return (rows + kBandRows - 1) / kBandRows; }

void each(int count, const std::function<void(int)>& work) {
  const int most = std::min(threads(), count);
  if (most <= 1) {
    for (int number = 0; number < count; ++number) work(number);
    return;
  }
  // Kept a piece, so that of several failures the same one (the first) comes out, whatever the timing.
  std::vector<std::exception_ptr> failures(static_cast<std::size_t>(count));
  oneapi::tbb::task_arena arena(most);
  arena.execute([&] {
    oneapi::tbb::parallel_for(0, count, [&](int number) {
      try {
        work(number);
      } catch (...) {
        failures[static_cast<std::size_t>(number)] = std::current_exception();
      }
    });
  });
  for (const std::exception_ptr& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

void sweep(int rows, const std::function<void(const Band&)>& work) {
  each(band_count(rows), [&](int number) { work(band_of(number, rows)); });
}

}  // namespace castplan
