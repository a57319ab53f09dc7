// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cstdlib>  // tells which C library this is

#include "castplan/cli/program.hpp"

#ifdef __GLIBC__
#include <malloc.h>
#endif

int main(int count, char** words) {
#ifdef __GLIBC__
  // What one band of rows gives back the next one takes: the first touch of fresh memory costs more than the work.
  mallopt(M_MMAP_THRESHOLD, 32 << 20);
  mallopt(M_TRIM_THRESHOLD, 256 << 20);
#endif
  return castplan::run(count, words);
}
