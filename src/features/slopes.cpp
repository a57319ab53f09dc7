// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/slopes.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <tuple>
#include <utility>

#include "castplan/grid/hot.hpp"
#include "features/ascent.hpp"
#include "features/pass_table.hpp"

namespace castplan {

namespace {

/// Marks an index that is a summit's number; without it, it is a cell that the way goes on to.
constexpr Index kNumber = 0x80000000;

bool is_number(Index index) { return (index & kNumber) != 0; }

/// The cell at the end of the way up from a cell: a summit of the band, or the first cell beyond it.
Index climb_in_band(const AscentBand& band, Cell at) {
  while (at.row >= band.band().first && at.row < band.band().last) {
    const std::uint8_t step = band.ascents(at.row)[static_cast<std::size_t>(at.col)];
    if (step == kNoAscent) return kNumber | kNoSummit;
    if (step == 4) break;
    at = {at.row + step / 3 - 1, at.col + step % 3 - 1};
  }
  return static_cast<Index>(at.row) * static_cast<Index>(band.cols()) + static_cast<Index>(at.col);
}

std::vector<Index> climbs_from_row(const AscentBand& band, int row) {
  std::vector<Index> ends(static_cast<std::size_t>(band.cols()));
  for (int col = 0; col < band.cols(); ++col) ends[static_cast<std::size_t>(col)] = climb_in_band(band, {row, col});
  return ends;
}

std::vector<Index> summits_of(const AscentBand& band) {
  std::vector<Index> found;
  for (int row = band.band().first; row < band.band().last; ++row) {
    const auto ascents = band.ascents(row);
    const auto* here = ascents.data();
    const auto* end = here + ascents.size();
    while ((here = static_cast<const std::uint8_t*>(std::memchr(here, 4, static_cast<std::size_t>(end - here)))) !=
           nullptr) {
      found.push_back(static_cast<Index>(row) * static_cast<Index>(band.cols()) +
                      static_cast<Index>(here - ascents.data()));
      if (++here == end) break;
    }
  }
  return found;
}

/// Summit of each cell of a band: rows of cols + 2, with kNoSummit at both ends and where the field is NaN.
class Labels {
 public:
  Labels(const AscentBand& band, Index first_summit, const std::vector<Index>* north, const std::vector<Index>* south)
      : stride_(static_cast<std::size_t>(band.cols()) + 2),
        first_row_(band.band().first),
        label_(stride_ * static_cast<std::size_t>(band.band().last - band.band().first), kNumber | kNoSummit) {
    for (int row = band.band().first; row < band.band().last; ++row) {
      const auto offset = static_cast<std::size_t>(row - first_row_) * stride_ + 1;
      for (std::size_t col = 0; col < stride_ - 2; ++col) {
        const std::uint8_t step = band.ascents(row)[col];
        if (step == kNoAscent) continue;
        if (step == 4) {
          label_[offset + col] = kNumber | first_summit++;
        } else if ((step < 3 && row == band.band().first) || (step > 5 && row + 1 == band.band().last)) {
          label_[offset + col] = kNumber | (*(step < 3 ? north : south))[col + step % 3 - 1];
        } else {
          label_[offset + col] =
              static_cast<Index>(offset + col + static_cast<std::size_t>(step / 3) * stride_ - stride_ + step % 3 - 1);
        }
      }
    }
    for (std::size_t cell = 0; cell < label_.size(); ++cell) climb(static_cast<Index>(cell));
  }

  /// Pointer to the first cell; one more cell on each side may be read.
  [[nodiscard]] const Index* row(int number) const {
    return label_.data() + static_cast<std::size_t>(number - first_row_) * stride_ + 1;
  }

 private:
  // every cell on the way is made to know the summit
  void climb(Index from) {
    if (is_number(label_[from])) return;
    Index top = label_[from];
    while (!is_number(label_[top])) top = label_[top];
    const Index summit = label_[top];
    while (!is_number(label_[from])) from = std::exchange(label_[from], summit);
  }

  std::size_t stride_;
  int first_row_;
  std::vector<Index> label_;
};

/// Where a cell and the one east of it, or one of the three below, lead to different summits.
CASTPLAN_HOT void touch_row(const Index* here, const Index* below, int count, std::uint8_t* out) {
  for (int i = 0; i < count; ++i) {
    const Index own = here[i];
    const Index differs = (own ^ here[i + 1]) | (own ^ below[i - 1]) | (own ^ below[i]) | (own ^ below[i + 1]);
    out[i] = static_cast<std::uint8_t>(differs != 0);
  }
}

struct RowPair {
  const float *here, *below;
  const Index *label, *label_below;
  Index first_cell;  ///< of the upper row
  int cols;
};

// Forward neighbours only, so that each pair is seen once.
void take_passes(const RowPair& rows, int col, PassTable& table) {
  const auto take = [&](float there, Index label, int down, int right) {
    const Index own = rows.label[col];
    if (label == own || (label & ~kNumber) == kNoSummit) return;
    const Index here = rows.first_cell + static_cast<Index>(col);
    const Index other = here + static_cast<Index>(down * rows.cols + right);
    // the earlier cell of equals is the higher
    const bool lower_there = rows.here[col] >= there;
    const auto [a, b] = std::minmax({own & ~kNumber, label & ~kNumber});
    table.take({lower_there ? there : rows.here[col], lower_there ? other : here, a, b});
  };
  if ((rows.label[col] & ~kNumber) == kNoSummit) return;
  take(rows.here[col + 1], rows.label[col + 1], 0, 1);
  take(rows.below[col - 1], rows.label_below[col - 1], 1, -1);
  take(rows.below[col], rows.label_below[col], 1, 0);
  take(rows.below[col + 1], rows.label_below[col + 1], 1, 1);
}

void passes_of_rows(const RowPair& rows, std::vector<std::uint8_t>& touches, PassTable& table) {
  touch_row(rows.label, rows.label_below, rows.cols, touches.data());
  const auto* end = touches.data() + rows.cols;
  for (const auto* at = touches.data(); at != end; ++at) {
    at = static_cast<const std::uint8_t*>(std::memchr(at, 1, static_cast<std::size_t>(end - at)));
    if (at == nullptr) return;
    take_passes(rows, static_cast<int>(at - touches.data()), table);
  }
}

}  // namespace

bool joins_before(const SummitPass& p, const SummitPass& q) {
  if (p.height != q.height) return p.height > q.height;
  return std::tie(p.cell, p.a, p.b) < std::tie(q.cell, q.a, q.b);
}

Slopes::Slopes(const Heights& heights)
    : heights_(heights), borders_(static_cast<std::size_t>(band_count(heights.frame().rows))) {
  std::vector<std::vector<Index>> summits(borders_.size());
  sweep(heights.frame().rows, [&](const Band& band) {
    const AscentBand ascents(heights_, band);
    const auto number = static_cast<std::size_t>(band.number);
    summits[number] = summits_of(ascents);
    borders_[number] = {climbs_from_row(ascents, band.first), climbs_from_row(ascents, band.last - 1)};
  });
  first_summit_.push_back(0);
  for (const std::vector<Index>& part : summits) {
    summits_.insert(summits_.end(), part.begin(), part.end());
    first_summit_.push_back(summits_.size());
  }
  resolve();
}

void Slopes::resolve() {
  const auto cols = static_cast<Index>(heights_.frame().cols);
  std::vector<Index*> way;
  const auto follow = [&](std::size_t band, Index* from) {
    way.clear();
    while (!is_number(*from)) {
      way.push_back(from);
      const std::size_t there = *from / cols / kBandRows;
      if (there == band) {
        const auto begin = summits_.begin() + static_cast<std::ptrdiff_t>(first_summit_[band]);
        const auto end = summits_.begin() + static_cast<std::ptrdiff_t>(first_summit_[band + 1]);
        *from = kNumber | static_cast<Index>(std::lower_bound(begin, end, *from) - summits_.begin());
        break;
      }
      Border& next = borders_[there];
      from = &(there > band ? next.north : next.south)[*from % cols];
      band = there;
    }
    for (Index* each : way) *each = *from;
  };
  for (std::size_t band = 0; band < borders_.size(); ++band) {
    for (Index& end : borders_[band].north) follow(band, &end);
    for (Index& end : borders_[band].south) follow(band, &end);
  }
  for (Border& border : borders_) {
    for (Index& end : border.north) end &= ~kNumber;
    for (Index& end : border.south) end &= ~kNumber;
  }
}

std::vector<SummitPass> Slopes::passes_of(const Band& band) const {
  const auto number = static_cast<std::size_t>(band.number);
  const AscentBand ascents(heights_, band);
  const bool last = number + 1 == borders_.size();
  const Labels labels(ascents, static_cast<Index>(first_summit_[number]),
                      number == 0 ? nullptr : &borders_[number - 1].south,
                      last ? nullptr : &borders_[number + 1].north);
  std::vector<Index> beyond(static_cast<std::size_t>(ascents.cols()) + 2, kNumber | kNoSummit);
  if (!last) {
    std::transform(borders_[number + 1].north.begin(), borders_[number + 1].north.end(), beyond.begin() + 1,
                   [](Index summit) { return kNumber | summit; });
  }
  std::vector<std::uint8_t> touches(static_cast<std::size_t>(ascents.cols()));
  PassTable table;
  for (int row = band.first; row < band.last; ++row) {
    passes_of_rows({.here = ascents.row(row),
                    .below = ascents.row(row + 1),
                    .label = labels.row(row),
                    .label_below = row + 1 < band.last ? labels.row(row + 1) : beyond.data() + 1,
                    .first_cell = static_cast<Index>(row) * static_cast<Index>(ascents.cols()),
                    .cols = ascents.cols()},
                   touches, table);
  }
  return table.passes();
}

std::vector<SummitPass> Slopes::passes() const {
  std::vector<std::vector<SummitPass>> of_band(borders_.size());
  sweep(heights_.frame().rows, [&](const Band& band) {
    auto& found = of_band[static_cast<std::size_t>(band.number)] = passes_of(band);
    std::sort(found.begin(), found.end(), joins_before);
  });
  // pairs of sorted lists are merged until one is left
  for (std::size_t step = 1; step < of_band.size(); step *= 2) {
    const auto pairs = static_cast<int>((of_band.size() + 2 * step - 1) / (2 * step));
    each(pairs, [&](int pair) {
      const std::size_t left = 2 * step * static_cast<std::size_t>(pair);
      if (left + step >= of_band.size()) return;
      std::vector<SummitPass>& right = of_band[left + step];
      std::vector<SummitPass> merged(of_band[left].size() + right.size());
      std::merge(of_band[left].begin(), of_band[left].end(), right.begin(), right.end(), merged.begin(), joins_before);
      of_band[left] = std::move(merged);
      right = {};
    });
  }
  return std::move(of_band.front());
}

}  // namespace castplan
