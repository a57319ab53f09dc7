// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// For the few loops in which most of the time goes: a second copy for processors with AVX2, chosen at start. Results
// are the same, as nothing is contracted or reordered. Sanitizers do not get along with the choice at start.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define CASTPLAN_HOT __attribute__((target_clones("default", "arch=x86-64-v3")))
#else
#define CASTPLAN_HOT
#endif
