// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/block_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <optional>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/grid/sweep.hpp"
#include "io/gdal.hpp"

namespace castplan {
namespace {

constexpr int kMostRows = 1024;                           ///< of a block; higher ones are read by rows
constexpr std::size_t kMostBytes = std::size_t{1} << 26;  ///< of a block

struct Layout {
  int cols = 0;  ///< of a block
  int rows = 0;
  GDALDataType type = GDT_Unknown;
  int cell_bytes = 0;
};

Layout layout_of(GDALRasterBandH band) {
  Layout layout;
  GDALGetBlockSize(band, &layout.cols, &layout.rows);
  layout.type = GDALGetRasterDataType(band);
  layout.cell_bytes = GDALGetDataTypeSizeBytes(layout.type);
  return layout;
}

bool fits(const Layout& layout) {
  if (layout.cols < 1 || layout.rows < 1 || layout.rows > kMostRows || layout.cell_bytes < 1) return false;
  return static_cast<std::size_t>(layout.cols) * static_cast<std::size_t>(layout.rows) *
             static_cast<std::size_t>(layout.cell_bytes) <=
         kMostBytes;
}

/// The same band of the same file, for one more thread; none where the file cannot be opened a second time.
class SecondHandle {
 public:
  explicit SecondHandle(GDALRasterBandH band) {
    const GdalMessages quiet;
    GDALDatasetH first = GDALGetBandDataset(band);
    if (first == nullptr) return;
    dataset_.reset(GDALOpenEx(GDALGetDescription(first), GDAL_OF_RASTER | GDAL_OF_READONLY, nullptr, nullptr, nullptr));
    if (!dataset_) return;
    const int number = GDALGetBandNumber(band);
    if (number < 1 || number > GDALGetRasterCount(dataset_.get())) return;
    GDALRasterBandH same = GDALGetRasterBand(dataset_.get(), number);
    if (GDALGetRasterBandXSize(same) != GDALGetRasterBandXSize(band)) return;
    if (GDALGetRasterBandYSize(same) != GDALGetRasterBandYSize(band)) return;
    const Layout a = layout_of(band), b = layout_of(same);
    if (a.cols == b.cols && a.rows == b.rows && a.type == b.type) band_ = same;
  }
  [[nodiscard]] GDALRasterBandH band() const { return band_; }

 private:
  Dataset dataset_;
  GDALRasterBandH band_ = nullptr;
};

std::string failure(const std::string& where, int first_row, const GdalMessages& messages) {
  return fmt::format("{}: cannot be read from row {} on; the file is damaged or cut short: fetch it again{}", where,
                     first_row + 1, messages.in_brackets());
}

/// Reads all blocks of one row of blocks. False when the file does not give one.
bool read_block_row(GDALRasterBandH band, const Layout& layout, int number, std::vector<unsigned char>& room,
                    Grid<Metres32>& out) {
  const int first = number * layout.rows;
  const int rows = std::min(layout.rows, out.rows() - first);
  for (int block = 0; block * layout.cols < out.cols(); ++block) {
    if (GDALReadBlock(band, block, number, room.data()) != CE_None) return false;
    const int col = block * layout.cols;
    const int cols = std::min(layout.cols, out.cols() - col);
    for (int row = 0; row < rows; ++row) {
      const std::size_t from = static_cast<std::size_t>(row) * static_cast<std::size_t>(layout.cols) *
                               static_cast<std::size_t>(layout.cell_bytes);
      GDALCopyWords(&room[from], layout.type, layout.cell_bytes, out.row(first + row).data() + col, GDT_Float32,
                    sizeof(float), cols);
    }
  }
  return true;
}

void read_whole_rows(GDALRasterBandH band, const Layout& layout, Grid<Metres32>& out, const std::string& where) {
  const int step = std::clamp(layout.rows, 1, kMostRows);
  const GdalMessages messages;
  for (int first = 0; first < out.rows(); first += step) {
    const int count = std::min(step, out.rows() - first);
    if (GDALRasterIO(band, GF_Read, 0, first, out.cols(), count, out.row(first).data(), out.cols(), count, GDT_Float32,
                     0, 0) != CE_None) {
      throw InputError(failure(where, first, messages));
    }
  }
}

}  // namespace

void read_blocks(GDALRasterBandH band, Grid<Metres32>& out, const std::string& where) {
  const Layout layout = layout_of(band);
  if (!fits(layout)) {
    read_whole_rows(band, layout, out, where);
    return;
  }
  const int block_rows = (out.rows() + layout.rows - 1) / layout.rows;
  std::vector<SecondHandle> others;
  while (static_cast<int>(others.size()) + 1 < std::min(threads(), block_rows)) {
    others.emplace_back(band);
    if (others.back().band() == nullptr) break;
  }
  std::erase_if(others, [](const SecondHandle& other) { return other.band() == nullptr; });
  std::atomic<int> next{0};
  std::atomic<bool> failed{false};
  std::vector<std::optional<std::string>> failures(static_cast<std::size_t>(block_rows));
  each(static_cast<int>(others.size()) + 1, [&](int worker) {
    GDALRasterBandH own = worker == 0 ? band : others[static_cast<std::size_t>(worker) - 1].band();
    std::vector<unsigned char> room(static_cast<std::size_t>(layout.cols) * static_cast<std::size_t>(layout.rows) *
                                    static_cast<std::size_t>(layout.cell_bytes));
    // rows are taken in order, so that the first that fails is the same whoever reads it
    for (int number = next++; number < block_rows && !failed; number = next++) {
      const GdalMessages messages;
      if (read_block_row(own, layout, number, room, out)) continue;
      failures[static_cast<std::size_t>(number)] = failure(where, number * layout.rows, messages);
      failed = true;
    }
  });
  for (const auto& message : failures) {
    if (message) throw InputError(*message);
  }
}

}  // namespace castplan
