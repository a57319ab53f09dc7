// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>

namespace castplan {

/// How many threads a sweep may use; 0 means as many as the machine has.
void set_threads(int count);
int threads();

struct Band {
  int first;   ///< first row
  int last;    ///< one past the last row
  int number;  ///< 0, 1, 2 ... from the north
};

/// Rows a band: fixed, so that results never depend on the number of threads.
inline constexpr int kBandRows = 64;
int band_count(int rows);

/// Calls work for 0, 1, 2 ... count - 1, on several threads, in no order. Of several exceptions the first by number
/// comes out. May be called from within itself or a sweep.
void each(int count, const std::function<void(int)>& work);

/// Calls work once for each band of rows, on several threads, in no order. The kernels read what they like and write
/// only their own rows. Sums are kept a band and joined in band order by the caller. Exceptions come out here.
void sweep(int rows, const std::function<void(const Band&)>& work);

}  // namespace castplan
