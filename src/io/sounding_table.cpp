// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "castplan/geo/error.hpp"
#include "io/depth_collector.hpp"
#include "io/field_words.hpp"
#include "io/line_reader.hpp"
#include "io/number_text.hpp"
#include "io/sounding_readers.hpp"
#include "io/table_layout.hpp"

namespace castplan {
namespace {

std::string separator_name(char separator) {
  switch (separator) {
    case ',':
      return "comma";
    case ';':
      return "semicolon";
    case '\t':
      return "tab";
    case ' ':
      return "spaces";
    default:
      return {1, separator};
  }
}

std::string name_at(const TableLayout& layout, int column) {
  return column < 0 ? std::string() : layout.names[static_cast<std::size_t>(column)];
}

void record(const TableLayout& layout, DepthSource& source) {
  source.format = "text table";
  source.separator = separator_name(layout.separator);
  source.decimal = layout.decimal;
  source.header = layout.header;
  source.columns = {name_at(layout, layout.x), name_at(layout, layout.y), name_at(layout, layout.depth),
                    name_at(layout, layout.track)};
  source.notes = layout.notes;
}

Projection source_projection(const TableLayout& layout, const SoundingOptions& options, const std::string& shown,
                             DepthSource& source) {
  if (options.crs.empty() && !layout.degrees) {
    throw InputError(fmt::format(
        "{}: states no CRS, and its columns ({} and {}) do not say longitude and latitude; say which: --crs EPSG:... "
        "(or crs = \"EPSG:...\" beside the file in the lake file)",
        shown, name_at(layout, layout.x), name_at(layout, layout.y)));
  }
  Projection out = options.crs.empty() ? Projection::geographic() : projection_given(options.crs, shown);
  source.crs = out.name();
  source.crs_from =
      options.crs.empty() ? fmt::format("column names {} and {}", source.columns.x, source.columns.y) : "given";
  return out;
}

/// Numbers of tracks by what the track column holds, in the order of their coming.
class TrackNumbers {
 public:
  explicit TrackNumbers(int first) : first_(first) {}
  int of(std::string_view name) {
    if (name == last_ && number_ >= 0) return number_;
    last_ = name;
    number_ = numbers_.emplace(last_, first_ + static_cast<int>(numbers_.size())).first->second;
    return number_;
  }
  [[nodiscard]] int count() const { return static_cast<int>(numbers_.size()); }

 private:
  int first_;
  int number_ = -1;
  std::string last_;
  std::map<std::string, int> numbers_;
};

void read_rows(LineReader& reader, const TableLayout& layout, TrackNumbers& tracks, DepthAccount& account,
               SoundingCollector& collector) {
  std::vector<std::string_view> cells;
  std::string_view line;
  bool header_ahead = layout.header;
  const auto most = static_cast<std::size_t>(std::max({layout.x, layout.y, layout.depth, layout.track}));
  while (reader.next(line)) {
    if (is_no_row(line)) continue;
    if (header_ahead) {
      header_ahead = false;
      continue;
    }
    ++account.source().rows;
    split_line(line, layout.separator, cells);
    const std::size_t number = reader.number();
    if (cells.size() <= most) {
      account.unread(number, "it has too few columns", bare(line));
      continue;
    }
    const auto x = number_of(cells[static_cast<std::size_t>(layout.x)], layout.decimal);
    const auto y = number_of(cells[static_cast<std::size_t>(layout.y)], layout.decimal);
    if (!x || !y) {
      account.unread(number, "its place is not two numbers",
                     bare(cells[static_cast<std::size_t>(x ? layout.y : layout.x)]));
      continue;
    }
    const auto metres = account.metres(cells[static_cast<std::size_t>(layout.depth)], layout.decimal, number);
    if (!metres) continue;
    const int track = layout.track < 0 ? -1 : tracks.of(bare(cells[static_cast<std::size_t>(layout.track)]));
    collector.add({*x, *y}, *metres, track, number);
  }
}

/// About as many rows as the file holds, so that the soundings are not copied while they grow.
std::size_t expected_rows(const LineReader& reader, const std::vector<std::string_view>& lines) {
  std::size_t bytes = 0;
  for (const std::string_view line : lines) bytes += line.size() + 1;
  return bytes == 0 ? 0
                    : static_cast<std::size_t>(1.02 * static_cast<double>(reader.file_bytes()) /
                                               (static_cast<double>(bytes) / static_cast<double>(lines.size())));
}

}  // namespace

SoundingsRead read_table(const SoundingOptions& options, const Projection& target, Numbers numbers,
                         const std::string& shown) {
  SoundingsRead out;
  LineReader reader(options.path, shown);
  const auto lines = reader.first_lines();
  const TableLayout layout = layout_of(lines, options, shown);
  record(layout, out.source);
  DepthAccount account(options, shown, out.source);
  const FieldMeaning depth = layout.header ? meaning_of(out.source.columns.depth) : FieldMeaning{};
  account.settle_unit(depth.unit, "column name " + out.source.columns.depth);
  SoundingOptions settled = options;
  if (!settled.sense && depth.role == FieldRole::elevation) settled.sense = Sense::elevation;
  const Mover mover = Mover::between(source_projection(layout, options, shown, out.source), target);
  const std::string mend = fmt::format(
      "say which is which: --columns x={1},y={0} (or columns = {{ x = \"{1}\", y = "
      "\"{0}\" }} beside the file in the lake file)",
      out.source.columns.x, out.source.columns.y);
  SoundingCollector collector(account, mover, numbers.file, mend, out.soundings);
  out.soundings.reserve(expected_rows(reader, lines));
  TrackNumbers tracks(numbers.first_track);
  read_rows(reader, layout, tracks, account, collector);
  collector.finish(settled);
  out.source.tracks = tracks.count();
  if (!options.sense && settled.sense) out.source.sense_from = "column name " + out.source.columns.depth;
  return out;
}

}  // namespace castplan
