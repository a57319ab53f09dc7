// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

#include "castplan/spots/spot.hpp"
#include "spots/rank_interval.hpp"

namespace castplan {

/// How far the order of the spots kept can be trusted: which are clear picks (in nine draws of ten among the first
/// third of those kept), which follow each other by little (the chance that the one before is better is under two in
/// three), and the up to three whose sounding would narrow the order most. leading: how many places were ranked.
OrderNotes order_notes(std::span<const RankInterval> kept, std::size_t leading);

}  // namespace castplan
