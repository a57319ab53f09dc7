// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "grid/envelope.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "castplan/grid/hot.hpp"

namespace castplan {
namespace {

constexpr int kLane = Envelope::kBeyond;  // columns done at once
constexpr float kSlack = 1e-6F;           // of what was added up: rounding keeps one too many, never one too few

/// Within a run of marks only its ends can be nearest to anything outside it.
inline bool is_inner(const float* here) { return here[-1] + here[0] + here[1] == 0.0F; }

/// Up to whole lanes: what is too much is written again, or cleared.
constexpr int in_lanes(int cols) { return (cols + kLane - 1) / kLane * kLane; }

/// A parabola is nowhere the lowest if its neighbours on both sides leave it no room: if twice its height is over the
/// sum of theirs and of 2.
inline void keep_low(const float* __restrict columns, std::uint32_t* __restrict keep, int cols) {
  for (int i = 0; i < in_lanes(cols); ++i) {
    const float* here = columns + i;
    const float h = *here;
    const float before = (here[-1] - h) * (here[-1] + h);
    const float after = (here[1] - h) * (here[1] + h);
    const bool low = !(before + after + 2.0F < -kSlack * (std::abs(before) + std::abs(after)));
    keep[i] = low && !is_inner(here) && h != kFar ? 1 : 0;
  }
}

/// The same between two columns whose parabolas stand: height + column^2 of one that is anywhere the lowest lies under
/// the straight line between theirs.
inline void keep_under(const float* __restrict columns, int first, int last, std::uint32_t* __restrict keep) {
  const float base = columns[first];
  const float end = columns[last];
  const auto apart = static_cast<float>(last - first);
  const float rise = (end - base) * (end + base) / apart + apart;
  const float* const beside = columns + first + 1;
  for (int i = 0; i < in_lanes(last - first - 1); ++i) {
    const float* here = beside + i;
    const auto along = static_cast<float>(i + 1);
    const float higher = (*here - base) * (*here + base);
    const float bend = (along - rise) * along;
    const float slack = kSlack * (std::abs(higher) + (along + std::abs(rise)) * along);
    keep[i + 1] = higher + bend < slack && !is_inner(here) ? 1 : 0;
  }
}

/// Marks the columns that may stand in the envelope. Those that stood in that of the row before are good ones to hold
/// the others against.
CASTPLAN_HOT void choose(const float* columns, int first, int last, std::span<const Envelope::Parabola> before,
                         std::uint32_t* keep) {
  int held = -1;
  for (const Envelope::Parabola& one : before) {
    const int vertex = one.vertex;
    if (vertex < first || vertex >= last || columns[vertex] == kFar) continue;
    if (held < 0) {
      keep_low(columns + first, keep, vertex - first);
    } else {
      keep_under(columns, held, vertex, keep + (held - first));
    }
    keep[vertex - first] = 1;
    held = vertex;
  }
  const int rest = held < 0 ? first : held + 1;
  keep_low(columns + rest, keep + (rest - first), last - rest);
}

/// Whole lanes where the row has room for them: what is too much the next run writes again.
inline void write_run(const float* __restrict columns, int first, int last, const Envelope::Parabola& lowest,
                      float cell, std::span<Metres32> out) {
  const float height = lowest.height;
  const int count = std::min(in_lanes(last - first), static_cast<int>(out.size()) - first);
  const int start = first - lowest.vertex;
  const float* const here = columns + first;
  Metres32* const to = out.data() + first;
  for (int i = 0; i < count; ++i) {
    const auto across = static_cast<float>(start + i);
    const float there = cell * std::sqrt(across * across + height);
    to[i] = Metres32(here[i] == 0.0F ? 0.0F : there);
  }
}

CASTPLAN_HOT void write_runs(const float* columns, int begin, int end, std::span<const Envelope::Parabola> all,
                             float cell, std::span<Metres32> out) {
  int first = begin;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool more = i + 1 < all.size() && all[i + 1].from < end;
    const int last = more ? static_cast<int>(std::floor(all[i + 1].from)) + 1 : end;
    if (last <= first) continue;
    write_run(columns, first, last, all[i], cell, out);
    first = last;
  }
}

}  // namespace

Envelope::Envelope(int cols)
    : keep_(static_cast<std::size_t>(cols) + 2 * kLane),
      parabolas_(static_cast<std::size_t>(cols)),
      half_over_(static_cast<std::size_t>(cols) + 1) {
  for (std::size_t apart = 1; apart < half_over_.size(); ++apart) half_over_[apart] = 0.5 / static_cast<double>(apart);
}

inline void Envelope::add(int col, double along) {
  Parabola* const all = parabolas_.data();
  const double height = along * along;
  const double sum = height + static_cast<double>(col) * col;
  double from = -std::numeric_limits<double>::infinity();
  for (; count_ > 0; --count_) {
    const Parabola& last = all[count_ - 1];
    from = (sum - last.sum) * half_over_[static_cast<std::size_t>(col - last.vertex)];
    if (from > last.from) break;
    from = -std::numeric_limits<double>::infinity();
  }
  all[count_++] = {col, static_cast<float>(height), sum, from};
}

void Envelope::build(const float* columns, int first, int last) {
  choose(columns, first, last, {parabolas_.data(), count_}, keep_.data());
  std::fill_n(keep_.data() + (last - first), kLane, 0U);
  count_ = 0;
  for (int at = first; at < last; at += 2) {
    std::uint64_t two;
    std::memcpy(&two, keep_.data() + (at - first), sizeof two);
    if (two == 0) continue;
    for (int col = at; col < at + 2; ++col) {
      if (keep_[static_cast<std::size_t>(col - first)] != 0) add(col, static_cast<double>(columns[col]));
    }
  }
}

void Envelope::measure(const float* columns, Metres cell, std::span<Metres32> out) {
  const int cols = static_cast<int>(out.size());
  // marks from the row's ends on are no place to measure; the last of them may be the nearest to what is
  int begin = 0, end = cols;
  while (begin < cols && columns[begin] == 0.0F) ++begin;
  while (end > begin && columns[end - 1] == 0.0F) --end;
  if (begin < end) build(columns, std::max(0, begin - 1), std::min(cols, end + 1));
  if (begin < end && count_ == 0) {
    std::fill(out.begin(), out.end(), Metres32(kFar));
    return;
  }
  std::fill(out.begin(), out.begin() + begin, Metres32(0.0F));
  if (begin < end) write_runs(columns, begin, end, {parabolas_.data(), count_}, static_cast<float>(cell.value()), out);
  std::fill(out.begin() + end, out.end(), Metres32(0.0F));
}

}  // namespace castplan
