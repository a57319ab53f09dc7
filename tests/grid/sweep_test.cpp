// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/sweep.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <mutex>
#include <set>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

using namespace castplan;

TEST_CASE("sweep calls each band once, and bands cover all rows") {
  for (const int count : {1, 2, 5}) {
    set_threads(count);
    CHECK(threads() == count);
    for (const int rows : {0, 1, 63, 64, 65, 1000}) {
      std::vector<int> seen(static_cast<std::size_t>(rows), 0);
      std::vector<int> called(static_cast<std::size_t>(band_count(rows)), 0);
      sweep(rows, [&](const Band& band) {
        ++called[static_cast<std::size_t>(band.number)];
        for (int row = band.first; row < band.last; ++row) ++seen[static_cast<std::size_t>(row)];
      });
      CHECK(std::all_of(seen.begin(), seen.end(), [](int times) { return times == 1; }));
      CHECK(std::all_of(called.begin(), called.end(), [](int times) { return times == 1; }));
    }
  }
  set_threads(0);
  CHECK(threads() >= 1);
}

TEST_CASE("sweep keeps to the number of threads") {
  for (const int count : {1, 2}) {
    set_threads(count);
    std::mutex guard;
    std::set<std::thread::id> workers;
    sweep(64 * 200, [&](const Band&) {
      const std::lock_guard<std::mutex> lock(guard);
      workers.insert(std::this_thread::get_id());
    });
    CHECK(static_cast<int>(workers.size()) <= count);
  }
  set_threads(0);
}

TEST_CASE("of several failures the northernmost comes out") {
  for (const int count : {1, 2}) {
    set_threads(count);
    const auto fail = [](const Band& band) {
      if (band.number >= 3) throw std::runtime_error("band " + std::to_string(band.number));
    };
    CHECK_THROWS_WITH(sweep(64 * 50, fail), "band 3");
  }
  set_threads(0);
}
